//go:build !js

package browser

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
)

// tab is one page in a browser.
type tab struct {
	t     *testing.T
	b     *chrome
	ctx   context.Context
	close func()
	view  view

	tapped time.Time // when the last tap ended
}

// in has a part of the test speak for the page until the part ends.
func (p *tab) in(t *testing.T) *tab {
	was := p.t
	p.t = t
	t.Cleanup(func() { p.t = was })
	return p
}

// limit is the page's context with the end of patience.
func (p *tab) limit() (context.Context, func()) { return context.WithTimeout(p.ctx, patience) }

func (p *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, done := p.limit()
	defer done()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.t.Fatalf("%v", err)
	}
}

// call sends a command of the protocol to the page.
func call[P, R any](p *tab, command cdp.Command[P, R], params P) R {
	p.t.Helper()
	r, err := try(p, command, params)
	if err != nil {
		p.t.Fatalf("%s: %v", command.Method, err)
	}
	return r
}

// try is call where an error is an answer.
func try[P, R any](p *tab, command cdp.Command[P, R], params P) (R, error) {
	ctx, done := p.limit()
	defer done()
	return chromedp.Call(ctx, command, params)
}

// read evaluates an expression that only reads; a promise is waited for. The
// app is not to be acted on by it.
func read[T any](p *tab, expression string) T {
	p.t.Helper()
	ctx, done := p.limit()
	defer done()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v", expression, err)
	}
	return v
}

func (p *tab) open(at string) {
	p.t.Helper()
	p.do(chromedp.Navigate(at))
}

func (p *tab) reload() {
	p.t.Helper()
	p.do(chromedp.Reload())
}

// text is what the page shows, with any space as one blank. While the day of the last
// time is on the screen, its sheet is left out: a test goes by what is checked now.
func (p *tab) text() string {
	p.t.Helper()
	return squeeze(read[string](p, `(() => {
		const shown = document.body?.innerText ?? "";
		return document.querySelector(".recalled") ? shown.replace(document.querySelector(".sheet").innerText, " ") : shown;
	})()`))
}

func squeeze(s string) string { return strings.Join(strings.Fields(s), " ") }

// until asks again and again until a condition holds, and fails the test when
// patience ends. What says what is waited for.
func (p *tab) until(what string, holds func() bool) {
	p.t.Helper()
	wait(p.t, what, holds, func() string { return "the page shows: " + p.text() })
}

// pollEvery is how often waits ask.
const pollEvery = 40 * time.Millisecond

func wait(t *testing.T, what string, holds func() bool, otherwise func() string) {
	t.Helper()
	for end := time.Now().Add(patience); !holds(); time.Sleep(pollEvery) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s; %s", what, otherwise())
		}
	}
}

// sees waits until the page shows every one of the texts.
func (p *tab) sees(texts ...string) {
	p.t.Helper()
	for _, want := range texts {
		p.until(fmt.Sprintf("the text %q", want), func() bool { return strings.Contains(p.text(), want) })
	}
}

// seesNone waits until the page shows none of the texts.
func (p *tab) seesNone(texts ...string) {
	p.t.Helper()
	for _, not := range texts {
		p.until(fmt.Sprintf("the text %q to go", not), func() bool { return !strings.Contains(p.text(), not) })
	}
}

// shot writes a picture of the page to .build/shots.
func (p *tab) shot(name string) {
	p.t.Helper()
	ctx, done := p.limit()
	defer done()
	picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.t.Fatalf("picture %s: %v", name, err)
	}
	folder := filepath.Join(root, ".build", "shots")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		p.t.Fatalf("%v", err)
	}
	if err := os.WriteFile(filepath.Join(folder, name+".png"), picture, 0o644); err != nil {
		p.t.Fatalf("%v", err)
	}
}

// onFailure keeps a picture and the words of a page whose test has failed.
func (p *tab) onFailure() {
	if !p.t.Failed() || p.ctx.Err() != nil {
		return
	}
	ctx, done := context.WithTimeout(p.ctx, 10*time.Second)
	defer done()
	name := "failed-" + strings.NewReplacer("/", "-", " ", "-").Replace(p.t.Name())
	if picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot()); err == nil {
		folder := filepath.Join(root, ".build", "shots")
		_ = os.MkdirAll(folder, 0o755)
		_ = os.WriteFile(filepath.Join(folder, name+".png"), picture, 0o644)
		p.t.Logf("picture: .build/shots/%s.png", name)
	}
}

// keptForOffline waits until the service worker has every file and is in charge
// of the page.
func (p *tab) keptForOffline() {
	p.t.Helper()
	p.until("the service worker to be in charge", func() bool {
		return read[bool](p, `navigator.serviceWorker.controller?.state === "activated"`)
	})
}
