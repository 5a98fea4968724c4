//go:build !js

package browser

import (
	"fmt"
	"io"
	"mime"
	"net/http"
	"net/http/httptest"
	"path"
	"strings"
	"testing"
)

// pages serves files from memory under a policy like the app's.
func pages(t *testing.T, files map[string]string) *httptest.Server {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		text, ok := files[r.URL.Path]
		if !ok {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Security-Policy", "default-src 'self'; script-src 'self'; img-src * data:; connect-src 'self' http://127.0.0.1:* ws: http://away.example")
		kind := "text/html; charset=utf-8"
		if ext := path.Ext(r.URL.Path); ext != "" {
			kind = mime.TypeByExtension(ext)
		}
		w.Header().Set("Content-Type", kind)
		_, _ = io.WriteString(w, text)
	}))
	t.Cleanup(s.Close)
	return s
}

// The rig itself must hear every fault that the tests of the app rely on.
func TestFaultsAreHeard(t *testing.T) {
	other := pages(t, map[string]string{"/x": ""})
	b := open(t)
	b.book.allow(".") // what is heard is looked at here
	for _, c := range []struct{ name, page, worker, want string }{
		{"console error in the page", `console.error("first", 1)`, "", `page: console.error: "first" 1`},
		{"uncaught in the page", `setTimeout(() => { throw new Error("second") })`, "", "page: uncaught: Uncaught Error: second"},
		{"rejected in the page", `Promise.reject(new Error("third"))`, "", "page: uncaught: Uncaught (in promise) Error: third"},
		{"policy broken in the page", `document.body.setAttribute("style", "color: red")`, "", "page: content security policy: style-src-attr"},
		{"another origin, from the page", `fetch("OTHER/x", { mode: "no-cors" })`, "", "page: asks another origin: OTHER/x"},
		{"another origin, a picture", `new Image().src = "OTHER/x"`, "", "page: asks another origin: OTHER/x"},
		{"a missing file", `fetch("/missing")`, "", "page: network error: Failed to load resource: the server responded with a status of 404"},
		{"a web socket", `new WebSocket("WS/x")`, "", "page: a web socket to WS/x"},
		{"console error in a worker", `new Worker("/worker.js")`, `console.error("fourth")`, `worker: console.error: "fourth"`},
		{"uncaught in a worker", `new Worker("/worker.js")`, `setTimeout(() => { throw new Error("fifth") })`, "uncaught: Uncaught Error: fifth"},
		{"policy broken in a worker", `new Worker("/worker.js")`, `fetch("http://shut.example/x").catch(() => 0)`, "Connecting to 'http://shut.example/x' violates"},
		{"another origin, from a worker", `new Worker("/worker.js")`, `fetch("http://away.example/x", { mode: "no-cors" })`, "proxy: asked for GET http://away.example/x"},
		{"uncaught in the service worker", `navigator.serviceWorker.register("/worker.js").catch(() => 0)`, `throw new Error("sixth")`, "service worker: Uncaught Error: sixth"},
		{"an install that fails", `navigator.serviceWorker.register("/worker.js")`, `addEventListener("install", (e) => e.waitUntil(Promise.reject(new Error("seventh"))))`, "service worker: Uncaught (in promise) Error: seventh"},
		{"policy broken in the service worker", `navigator.serviceWorker.register("/worker.js")`, `fetch("http://shut.example/y").catch(() => 0)`, "service worker: Connecting to 'http://shut.example/y' violates"},
		{"console error in the service worker", `navigator.serviceWorker.register("/worker.js")`, `console.error("eighth")`, "service worker: eighth"},
		{"another origin, from the service worker", `navigator.serviceWorker.register("/worker.js")`, `fetch("http://away.example/x", { mode: "no-cors" })`, "proxy: asked for GET http://away.example/x"},
	} {
		t.Run(c.name, func(t *testing.T) {
			named := strings.NewReplacer("OTHER", other.URL, "WS", "ws"+strings.TrimPrefix(other.URL, "http"))
			s := pages(t, map[string]string{
				"/":          `<!doctype html><link rel="icon" href="data:,"><title>x</title><body><script src="/page.js"></script>`,
				"/page.js":   named.Replace(c.page),
				"/worker.js": named.Replace(c.worker),
			})
			b.book.allowOrigin(s.URL)
			p := b.in(t).tab(s.URL+"/", desk)
			want := named.Replace(c.want)
			wait(t, want, func() bool { return b.book.hears(want) }, func() string { return fmt.Sprint(b.book.heard) })
			p.close()
		})
	}
}

// hears says whether a fault contains a text.
func (l *ledger) hears(part string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, f := range l.faults {
		if strings.Contains(f, part) {
			return true
		}
	}
	return false
}
