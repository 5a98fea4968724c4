//go:build !js

package browser

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/audits"
	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/serviceworker"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// patience is how long anything may take before a test gives up. No working
// page needs nearly as long, even on a busy machine.
const patience = 60 * time.Second

// chrome is one browser with a profile of its own.
type chrome struct {
	t       *testing.T
	ctx     context.Context
	cancel  func()
	profile string
	book    *ledger
	said    tail             // what the browser's program prints
	gate    *httptest.Server // the proxy to everywhere else

	mu      sync.Mutex
	workers map[target.ID]worker // those that live

	downloads downloads
}

// worker is one that a page has started.
type worker struct {
	url  string    // of its script
	page target.ID // that started it
	ctx  context.Context
}

// view is how a page is looked at.
type view struct {
	wide, high int64 // CSS pixels
	touch      bool  // a touch screen, as a phone or tablet has
	zone       string
}

// The two screens that everything is to work on.
var (
	desk  = view{wide: 1180, high: 820}
	phone = view{wide: 390, high: 844, touch: true}
)

// open starts a browser with a fresh profile. Pages may ask the given origins
// and nothing else. It ends, and its ledger is read, with the test.
func open(t *testing.T, origins ...string) *chrome {
	t.Helper()
	// Not t.TempDir: the browser may still write while it is removed.
	profile, err := os.MkdirTemp("", "keelroom-browser")
	if err != nil {
		t.Fatal(err)
	}
	b := &chrome{t: t, profile: profile, book: &ledger{origins: map[string]bool{}}}
	for _, o := range origins {
		b.book.allowOrigin(o)
	}
	t.Cleanup(func() {
		b.book.close(t)
		if t.Failed() {
			t.Logf("the browser's program printed:\n%s", &b.said)
		}
	})
	t.Cleanup(func() { _ = os.RemoveAll(profile) })
	b.gate = httptest.NewServer(http.HandlerFunc(b.refuse))
	t.Cleanup(b.gate.Close)
	b.start()
	t.Cleanup(func() { b.quit() })
	return b
}

// refuse answers for every host that is not this machine: whoever asks, a page or
// a worker from its first line on, it is a fault. The browser asks its own maker
// for this and that whatever its flags say; that reaches nobody, and is no fault
// of the app. A page that asks there is heard all the same, by its events.
func (b *chrome) refuse(w http.ResponseWriter, r *http.Request) {
	if !maker.MatchString(r.URL.Hostname()) {
		b.book.fault("proxy", "asked for %s %s", r.Method, r.URL)
	}
	http.Error(w, "nothing leaves this machine", http.StatusBadGateway)
}

var maker = regexp.MustCompile(`(^|\.)(google|googleapis|gstatic|gvt1|gvt2)\.com$`)

// in has a part of the test speak for the browser, and for the pages it opens,
// until the part ends.
func (b *chrome) in(t *testing.T) *chrome {
	was := b.t
	b.t = t
	t.Cleanup(func() { b.t = was })
	return b
}

// start starts the browser on its profile.
func (b *chrome) start() {
	b.t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium), chromedp.UserDataDir(b.profile), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true), chromedp.Flag("no-pings", true),
		chromedp.Flag("proxy-server", b.gate.URL), // the browser itself leaves it out for loopback addresses
		chromedp.CombinedOutput(&b.said),
	)
	alloc, free := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(alloc, chromedp.WithErrorf(b.murmur))
	b.ctx, b.cancel = ctx, func() { cancel(); free() }
	b.mu.Lock()
	b.workers = map[target.ID]worker{}
	b.mu.Unlock()
	if err := chromedp.Do(ctx); err != nil {
		b.t.Fatalf("the browser does not start: %v", err)
	}
	if err := chromedp.ListenBrowser(ctx, func(ev any) { b.browserEvent(ctx, ev) }); err != nil {
		b.t.Fatal(err)
	}
	b.catchDownloads()
}

// quit closes the browser as its user would, so that the profile is whole.
func (b *chrome) quit() {
	if b.ctx == nil {
		return
	}
	ctx, done := context.WithTimeout(b.ctx, patience)
	defer done()
	_ = chromedp.Cancel(ctx) // what does not close is ended by cancel
	b.cancel()
	b.ctx = nil
}

// again quits the browser and starts it anew with the same profile.
func (b *chrome) again() {
	b.t.Helper()
	b.quit()
	b.start()
}

// murmur takes what the driver cannot read, mostly events newer than itself.
func (b *chrome) murmur(format string, args ...any) { b.book.note("driver", format, args...) }

// browserEvent hears of workers and downloads. It must not wait.
func (b *chrome) browserEvent(ctx context.Context, ev any) {
	switch ev := ev.(type) {
	case *target.EventTargetCreated:
		// Not to service workers: listened to while they start, they now and then
		// crash the browser. The pages tell what goes wrong in them. Other workers
		// are listened to once they run, for the same reason.
		if ev.TargetInfo.Type == "worker" {
			go b.meet(ctx, *ev.TargetInfo)
		}
	case *target.EventTargetCrashed:
		b.book.fault("browser", "a page or worker crashed: %s, code %d", ev.Status, ev.ErrorCode)
	case *target.EventTargetDestroyed:
		b.mu.Lock()
		delete(b.workers, ev.TargetID)
		b.mu.Unlock()
	case *browser.EventDownloadWillBegin, *browser.EventDownloadProgress:
		b.downloads.event(ev)
	}
}

// settled is how long a worker is left alone after it was made. What it wrote to
// its console meanwhile is told afterwards.
const settled = 4 * time.Second

// meet listens to a new worker. One that has gone before is no fault.
func (b *chrome) meet(ctx context.Context, info target.Info) {
	select {
	case <-time.After(settled):
	case <-ctx.Done():
		return
	}
	own, _ := chromedp.NewContext(ctx, chromedp.WithTargetID(info.TargetID), chromedp.WithDetachOnCancel(),
		chromedp.WithListener(b.book.ear(info.Type)))
	// Its address is not told before it runs.
	script, err := chromedp.Run(own, chromedp.Evaluate[string]("location.href"))
	if err != nil {
		b.book.note(info.Type, "not listened to: %v", err)
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.workers[info.TargetID] = worker{script, info.ParentID, own}
}

// tab opens a page at an address.
func (b *chrome) tab(at string, v view) *tab {
	b.t.Helper()
	p := b.blank(v)
	p.open(at)
	return p
}

// blank opens a page on nothing.
func (b *chrome) blank(v view) *tab {
	b.t.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx, chromedp.WithListener(b.book.ear("page")))
	// Without a limit: what the first call brings up lives as long as its context.
	if err := chromedp.Do(ctx); err != nil {
		b.t.Fatalf("no page can be opened: %v", err)
	}
	p := &tab{t: b.t, b: b, ctx: ctx, close: cancel, view: v}
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if _, err := cdp.Call(ctx, t, audits.Enable, cdp.Empty{}); err != nil {
			return err
		}
		if _, err := cdp.Call(ctx, t, serviceworker.Enable, cdp.Empty{}); err != nil {
			return err
		}
		// A window of a headless browser is never in front; the page is to think so.
		_, err := cdp.Call(ctx, t, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	}))
	p.look(v)
	b.t.Cleanup(func() { p.onFailure() })
	return p
}

// look sets the size of the page and whether it has a touch screen.
func (p *tab) look(v view) {
	p.t.Helper()
	p.view = v
	var more []chromedp.EmulateViewportOption
	if v.touch {
		more = append(more, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	p.do(chromedp.EmulateViewport(v.wide, v.high, more...))
	if v.zone != "" {
		call(p, emulation.SetTimezoneOverride, emulation.SetTimezoneOverrideParams{TimezoneID: v.zone})
	}
}

// media has the page believe a media feature, such as prefers-reduced-motion.
func (p *tab) media(feature, value string) {
	p.t.Helper()
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: feature, Value: value}},
	})
}

// printed is the page as a PDF file.
func (p *tab) printed() []byte {
	p.t.Helper()
	return call(p, page.PrintToPDF, page.PrintToPDFParams{}).Data
}
