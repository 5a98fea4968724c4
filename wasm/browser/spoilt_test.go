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
	{"program", "/web/app.wasm"}, {"script", "/web/chart/painter.js"}, {"start", "/web/start.js"}, {"look", "/web/style.css"},
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

// spoilWorker spoils the service worker alone.
func spoilWorker(instead func(body []byte) []byte) func(string, []byte) ([]byte, bool) {
	return func(at string, body []byte) ([]byte, bool) { return instead(body), at == "/app-worker.js" }
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

	// The service worker, which lists all others, arrives as something else. One that
	// is empty is a worker to the browser, but no version of the app.
	for name, instead := range map[string]func(body []byte) []byte{"an error page": func([]byte) []byte { return errorPage }, "the first half": half} {
		h.set(func(h *host) { h.asked, h.spoil = nil, spoilWorker(instead) })
		if why := read[string](p, `navigator.serviceWorker.getRegistration().then((r) => r.update()).then(() => "", (problem) => problem.name)`); why == "" {
			t.Errorf("%s is taken as the service worker", name)
		}
	}
	h.set(func(h *host) { h.spoil = spoilWorker(func([]byte) []byte { return nil }) })
	p.lookForUpdate()
	p.reload()
	p.aboard()
	p.seesNone("A newer version")
	h.set(func(h *host) { h.spoil = nil })

	// Now it has a version whole.
	if state := p.lookForUpdate(); state != "installed" {
		t.Fatalf("the whole version is %s", state)
	}
	p.sees("A newer version of Keelroom is ready.")
	p.press(button("Use it now"))
	p.until("the page of the newest version", func() bool { return !p.has(css(".bar.newer")) && p.has(css("#tab-about")) })
	p.aboard()
	if now := p.build(); now == was {
		t.Error("the older version is still in use")
	}
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

// fetchAnew presses what fetches the app anew, on a page that has stopped.
func (p *tab) fetchAnew() {
	p.t.Helper()
	p.press(button("Fetch the app anew, plans kept"))
}

// stop has the page believe that the program has stopped by a mistake.
func (p *tab) stop() {
	p.t.Helper()
	read[bool](p, `(keelroomStopped("by the test"), true)`)
	p.sees("Keelroom has stopped by a mistake of its own.")
}

// The page that has stopped, or of which a part did not arrive, offers to fetch
// the app anew. That changes nothing before the app has come whole, and never what
// the skipper has kept.
func TestFetchedAnew(t *testing.T) {
	t.Parallel()
	older := written(t, program)
	newer := remade(t, older, "a")
	h := openHost(t, older)
	b := open(t, h.URL)
	b.book.allowOffline()
	b.book.allow(`did not arrive as it should|integrity|by the test|ERR_EMPTY_RESPONSE|Failed to fetch|[Ss]ervice ?[Ww]orker`)
	spoil := func(file string) func(string, []byte) ([]byte, bool) {
		return func(at string, _ []byte) ([]byte, bool) { return errorPage, strings.HasSuffix(at, file) }
	}

	// On a first visit.
	h.set(func(h *host) { h.spoil = spoil("/web/chart/painter.js") })
	p := b.tab(h.URL+"/", phone)
	p.sees("A part of Keelroom did not arrive as it should (web/chart/painter.js), so it does not run.", "nothing is checked yet")
	p.accessible()
	p.fetchAnew()
	p.sees("could not be fetched whole, so nothing was changed")
	h.set(func(h *host) { h.spoil = nil })
	p.fetchAnew()
	p.aboard()
	p.press(button("Close hints"))
	p.keptForOffline()
	p.draught("1.1")
	p.saved("one earlier state")
	was := p.build()

	// Without a network, and with a newer version that does not arrive whole.
	p.stop()
	h.set(func(h *host) { h.away = true })
	p.fetchAnew()
	p.sees("could not be fetched whole, so nothing was changed")
	h.set(func(h *host) { h.away, h.folder, h.spoil = false, newer, spoil("/web/app.wasm") })
	p.reload()
	p.aboard()
	p.stop()
	p.fetchAnew()
	p.sees("could not be fetched whole, so nothing was changed")

	// A file has gone from the device: it comes back, and nothing else changes.
	h.set(func(h *host) { h.folder, h.spoil = older, nil })
	read[bool](p, `caches.keys().then(async (names) => {
		const cache = await caches.open(names[0]);
		return cache.delete((await cache.keys()).find((r) => r.url.endsWith("/web/app.wasm")));
	})`)
	p.fetchAnew()
	p.until("the page of before", func() bool { return !p.has(css(".bar.stopped")) && p.has(css("#tab-about")) })
	if now := p.build(); now != was {
		t.Errorf("build %s, it was %s", now, was)
	}
	h.set(func(h *host) { h.away = true })
	p.reload()
	p.aboard()
	h.set(func(h *host) { h.away, h.folder = false, newer })

	// The newer version is taken.
	p.stop()
	p.fetchAnew()
	p.until("the page of the newer version", func() bool { return !p.has(css(".bar.stopped")) && p.has(css("#tab-about")) })
	p.aboard()
	if now := p.build(); now == was {
		t.Error("the older version is still in use")
	}
	p.section("boat")
	p.holds(css("#field-draught"), "1.1")
	p.saved("one earlier state")
}
