//go:build !js

package browser

import (
	"net/http"
	"strings"
	"testing"
)

// What every screen shows of the demo day: the title in its plan file, and the
// words for the verdict "care", which the native tests hold the checks to.
const (
	demoTitle   = "INVENTED day: two bays in the lee"
	demoVerdict = "Care is needed"
)

// screens are the sizes that everything must work at.
var screens = []struct {
	name string
	view view
}{{"desk", desk}, {"phone", phone}}

// aboard waits for the checked demo day and puts away what a first visit shows
// before it, if anything.
func (p *tab) aboard() {
	p.t.Helper()
	p.sees(demoTitle, demoVerdict)
	if read := button("I have read this"); p.has(read) {
		p.press(read)
		p.gone(read)
	}
}

func TestFirstOpenShowsTheDemoDay(t *testing.T) {
	s := serve(t)
	for _, c := range screens {
		t.Run(c.name, func(t *testing.T) {
			b := open(t, s.origin())
			p := b.tab(s.url(), c.view)
			p.sees(demoTitle, demoVerdict)
			if wide := read[float64](p, "document.documentElement.scrollWidth"); wide > float64(c.view.wide) {
				t.Errorf("the page is %v wide on a screen of %d: it scrolls sideways", wide, c.view.wide)
			}
			p.shot("open-" + c.name)
		})
	}
}

func TestNothingSeriousIsInTheWayOfAnybody(t *testing.T) {
	s := serve(t)
	for _, c := range screens {
		t.Run(c.name, func(t *testing.T) {
			b := open(t, s.origin())
			p := b.tab(s.url(), c.view)
			p.sees(demoTitle, demoVerdict)
			p.accessible() // what a first visit shows before it, too
			p.aboard()
			p.accessible()
			p.shot("aboard-" + c.name)
		})
	}
}

func TestWorksWithTheServerGone(t *testing.T) {
	s := serve(t)
	b := open(t, s.origin())
	p := b.tab(s.url(), desk)
	p.sees(demoVerdict)
	p.keptForOffline()
	s.kill()
	b.book.allowOffline()
	p.reload()
	p.sees(demoTitle, demoVerdict)

	t.Run("at index.html and with a query", func(t *testing.T) {
		p.in(t)
		for _, path := range []string{"index.html", "?from=home"} {
			p.open(s.url() + path)
			p.sees(demoVerdict)
		}
	})
	t.Run("after the browser was closed", func(t *testing.T) {
		b.in(t).again()
		p := b.tab(s.url(), phone)
		p.sees(demoTitle, demoVerdict)
	})
}

func TestServedBelowAPath(t *testing.T) {
	s := serveSite(t, "/sub/")
	b := open(t, s.URL)
	p := b.tab(s.URL+s.base, desk)
	p.sees(demoTitle, demoVerdict)
	p.keptForOffline()
	if out := s.outside(); len(out) > 0 {
		t.Errorf("asked for outside of %s: %v", s.base, out)
	}
	s.Close()
	b.book.allowOffline()
	p.reload()
	p.sees(demoTitle, demoVerdict)
}

func TestTwoTabs(t *testing.T) {
	s := serve(t)
	b := open(t, s.origin())
	first := b.tab(s.url(), desk)
	second := b.tab(s.url(), desk)
	for _, p := range []*tab{first, second} {
		p.sees(demoTitle, demoVerdict)
	}
}

// The policy that the other tests hold the page to must be there, and allow no
// more than the app needs.
func TestPolicyIsSent(t *testing.T) {
	s := serve(t)
	r, err := http.Get(s.url())
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	policy := r.Header.Get("Content-Security-Policy")
	for _, want := range []string{"default-src 'self'", "script-src 'self' 'wasm-unsafe-eval'"} {
		if !strings.Contains(policy, want) {
			t.Errorf("the policy %q lacks %q", policy, want)
		}
	}
	for _, not := range []string{"'unsafe-inline'", "'unsafe-eval'", "http:", "https:", "*"} {
		if strings.Contains(policy, not) {
			t.Errorf("the policy %q has %q", policy, not)
		}
	}
}
