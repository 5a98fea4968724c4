//go:build !js

package browser

import (
	"fmt"
	"strings"
	"sync"
	"testing"
)

// spoilable is a file of each kind, by the end of its address.
var spoilable = []struct{ kind, file string }{
	{"program", "/web/app.wasm"}, {"script", "/web/chart/painter.js"}, {"start", "/app.js"}, {"look", "/web/style.css"},
	{"chart data", "/web/demo/chart/DEPARE.geojson"}, {"stations", "/web/stations.bin"}, {"page", "/page.html"},
}

// lookForUpdate has the browser look for a newer version, as it does by itself when
// a page is loaded, and waits until what it found is fetched or given up. It gives
// the state that the newer version came to.
func (p *tab) lookForUpdate() string {
	p.t.Helper()
	return read[string](p, `(async () => {
		const registration = await navigator.serviceWorker.getRegistration();
		const found = new Promise((done) => registration.addEventListener("updatefound", () => done(registration.installing), { once: true }));
		await registration.update();
		const worker = await found;
		while (worker.state === "installing") {
			await new Promise((done) => worker.addEventListener("statechange", done, { once: true }));
		}
		return worker.state;
	})()`)
}

// offered says whether a version waits.
func (p *tab) offered() bool {
	p.t.Helper()
	return read[bool](p, `navigator.serviceWorker.getRegistration().then((r) => r.waiting !== null)`)
}

// A newer version of which one file arrives as something else, though the host
// says that all is well, is not offered and changes nothing: the version that
// works goes on, without a network too, with every plan. When the host has it
// whole it is offered, and taken.
func TestUpdateThatIsNotWhole(t *testing.T) {
	t.Parallel()
	older := written(t, program)
	newer, newest := remade(t, older, "a"), remade(t, older, "b")
	h := openHost(t, older)
	b := open(t, h.URL)
	b.book.allowOffline()
	b.book.allow(`did not arrive as it should|ERR_EMPTY_RESPONSE|status of 404|Failed to fetch|[Ss]ervice ?[Ww]orker`)
	p := b.first(h.URL+"/", desk)
	p.keptForOffline()
	p.draught("1.1")
	p.saved("one earlier state")
	was := p.build()
	goesOn := func(t *testing.T, how string) {
		if p.offered() || strings.Contains(p.text(), "A newer version") {
			t.Errorf("%s: the version is offered", how)
		}
		h.set(func(h *host) { h.away = true })
		p.reload()
		p.aboard()
		if now := p.build(); now != was {
			t.Errorf("%s: without a network the page is of build %s, it was %s", how, now, was)
		}
		p.section("boat")
		p.holds(css("#field-draught"), "1.1")
		h.set(func(h *host) { h.away = false })
	}

	for name, instead := range map[string]func(at string, body []byte) []byte{
		"an error page":              func(string, []byte) []byte { return errorPage },
		"the first half":             func(_ string, body []byte) []byte { return half(body) },
		"the file of the next build": func(at string, _ []byte) []byte { return sameFile(newest, at) },
	} {
		for _, c := range spoilable {
			how := fmt.Sprintf("%s in place of the %s", name, c.kind)
			h.set(func(h *host) {
				h.folder = newer
				h.spoil = func(at string, body []byte) ([]byte, bool) {
					return instead(at, body), strings.HasSuffix(at, c.file) && body != nil
				}
			})
			if state := p.lookForUpdate(); state != "redundant" {
				t.Fatalf("%s: the newer version is %s", how, state) // what comes would be about a page that may be dead
			}
		}
		goesOn(t, name)
	}

	// The host moves on while the version is fetched.
	var move sync.Once
	h.set(func(h *host) {
		h.spoil = nil
		h.asked = func(at string) {
			if strings.HasSuffix(at, ".geojson") {
				move.Do(func() { go h.set(func(h *host) { h.folder = newest }) })
			}
		}
	})
	if state := p.lookForUpdate(); state != "redundant" {
		t.Fatalf("the host moves on: a mixture is %s", state)
	}
	goesOn(t, "the host moves on")

	// Now it has a version whole.
	if state := p.lookForUpdate(); state != "installed" {
		t.Fatalf("the whole version is %s", state)
	}
	p.sees("A newer version of Keelroom is ready.")
	p.press(button("Use it now"))
	p.until("the newest version", func() bool { return p.has(css("#tab-about")) && p.build() != was })
	p.section("boat")
	p.holds(css("#field-draught"), "1.1")
	p.saved("one earlier state")
	h.set(func(h *host) { h.away = true })
	p.reload()
	p.aboard()
	if now := p.build(); now == was {
		t.Error("without a network the older version is back")
	}
}
