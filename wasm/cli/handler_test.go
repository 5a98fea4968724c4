//go:build !js

package cli

import (
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/brotli"
)

// ask asks a handler for a path as it stands, without cleaning it.
func ask(h http.Handler, method, path string, headers ...string) *http.Response {
	r := httptest.NewRequest(method, "http://localhost/", nil)
	r.URL.Path = path
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) []byte {
	t.Helper()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// part is the path of a part of a bundle, such as /web/style.css, as it is asked for.
func (b *bundle) part(path string) string { return b.home() + strings.TrimPrefix(path, "/") }

func TestContentTypes(t *testing.T) {
	b := testBundle(t, "/", false)
	for path, want := range map[string]string{
		"/page.html": "text/html; charset=utf-8", "/web/start.js": "text/javascript; charset=utf-8",
		"/wasm_exec.js": "text/javascript; charset=utf-8", "/web/app.wasm": "application/wasm", "/web/style.css": "text/css; charset=utf-8",
		"/web/icon.svg": "image/svg+xml", "/web/icon-192.png": "image/png", "/manifest.webmanifest": "application/manifest+json",
		"/web/demo/plan.geojson": "application/geo+json", "/web/demo/index.json": "application/json",
	} {
		r := ask(b, "GET", b.part(path))
		if got := r.Header.Get("Content-Type"); r.StatusCode != 200 || got != want {
			t.Errorf("%s: status %d, type %q, want %q", path, r.StatusCode, got, want)
		}
	}
	for path, want := range map[string]string{"/": "text/html; charset=utf-8", "/app-worker.js": "text/javascript; charset=utf-8"} {
		if r := ask(b, "GET", path); r.StatusCode != 200 || r.Header.Get("Content-Type") != want {
			t.Errorf("%s: status %d, type %q, want %q", path, r.StatusCode, r.Header.Get("Content-Type"), want)
		}
	}
}

// Every answer, an error too, carries the security headers.
func TestSecurityHeaders(t *testing.T) {
	b := testBundle(t, "/", false)
	for _, path := range []string{"/", b.part("/web/app.wasm"), b.part("/web/engine.js"), "/none"} {
		h := ask(b, "GET", path).Header
		csp := h.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'self'", "script-src 'self' 'wasm-unsafe-eval'", "object-src 'none'", "base-uri 'self'", "form-action 'none'", "frame-ancestors 'none'"} {
			if !strings.Contains(csp, want) {
				t.Errorf("%s: the policy lacks %s: %s", path, want, csp)
			}
		}
		if strings.Contains(csp, "unsafe-inline") || strings.Contains(csp, "'unsafe-eval'") || strings.Contains(csp, "*") {
			t.Errorf("%s: the policy is too wide: %s", path, csp)
		}
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY", "Referrer-Policy": "no-referrer",
			"Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-cache",
		} {
			if got := h.Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", path, name, got, want)
			}
		}
	}
}

func TestEncodings(t *testing.T) {
	b := testBundle(t, "/", false)
	for _, test := range []struct{ accept, want string }{
		{"", ""}, {"gzip, deflate, br", "br"}, {"gzip", "gzip"}, {"GZIP;q=0.5", "gzip"}, {"br;q=0, gzip", "gzip"},
		{"br;q=0, *", "gzip"}, {"*", "br"}, {"*;q=0", ""}, {"identity", ""}, {"br;q=x", ""}, {"brotli", ""},
	} {
		for _, path := range []string{"/web/app.wasm", "/web/demo/chart/DEPARE.geojson", "/wasm_exec.js"} {
			r := ask(b, "GET", b.part(path), "Accept-Encoding", test.accept)
			got := body(t, r)
			if r.Header.Get("Content-Encoding") != test.want || r.Header.Get("Vary") != "Accept-Encoding" {
				t.Errorf("%s for %q: encoding %q, want %q; vary %q", path, test.accept, r.Header.Get("Content-Encoding"), test.want, r.Header.Get("Vary"))
			}
			if r.Header.Get("Content-Length") != strconv.Itoa(len(got)) {
				t.Errorf("%s for %q: length %s of %d bytes", path, test.accept, r.Header.Get("Content-Length"), len(got))
			}
			if !bytes.Equal(unpack(t, got, test.want), b.parts[path[1:]].plain) {
				t.Errorf("%s for %q: other bytes", path, test.accept)
			}
		}
	}
	if r := ask(b, "GET", b.part("/web/icon-512.png"), "Accept-Encoding", "br"); r.Header.Get("Content-Encoding") != "" {
		t.Error("a picture is packed again")
	}
}

func unpack(t *testing.T, b []byte, encoding string) []byte {
	t.Helper()
	var r io.Reader = bytes.NewReader(b)
	switch encoding {
	case "br":
		r = brotli.NewReader(r)
	case "gzip":
		z, err := gzip.NewReader(r)
		if err != nil {
			t.Fatal(err)
		}
		r = z
	}
	plain, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return plain
}

func TestRevalidation(t *testing.T) {
	b := testBundle(t, "/", false)
	br, plain := ask(b, "GET", b.part("/wasm_exec.js"), "Accept-Encoding", "br"), ask(b, "GET", b.part("/wasm_exec.js"))
	tag := br.Header.Get("ETag")
	if tag == "" || tag == plain.Header.Get("ETag") {
		t.Fatalf("tags %q and %q: each form has its own", tag, plain.Header.Get("ETag"))
	}
	for header, want := range map[string]int{tag: 304, "W/" + tag: 304, `"x", ` + tag: 304, "*": 304, `"x"`: 200, "": 200} {
		r := ask(b, "GET", b.part("/wasm_exec.js"), "Accept-Encoding", "br", "If-None-Match", header)
		if r.StatusCode != want || want == 304 && len(body(t, r)) > 0 {
			t.Errorf("If-None-Match %s: status %d, want %d", header, r.StatusCode, want)
		}
	}
}

func TestNothingElseIsServed(t *testing.T) {
	b := testBundle(t, "/", false)
	for _, path := range []string{
		"/none", "/web", "/web/", "/web/demo", "/web/demo/", "/web/../go.mod", "/../go.mod", "/web/..%2f..%2fgo.mod", "//etc/passwd",
		"/web/./style.css", "/web//style.css", "/web/dist/app.wasm.br", "/web/app-worker.js", "/web/web.go", "/web/style.css/", "/web/style.css\x00", "",
		"/Index.html", "/.git/config", "/wasm_exec.js", "/web/style.css", "/build-0/wasm_exec.js", b.home(), b.part("/web"), b.part("/web/"), b.part("/web/../wasm_exec.js"),
		b.part("/web//style.css"), b.part("/index.html"), b.part("/app-worker.js"), b.part("/web/web.go"), "/build-" + strings.Repeat("0", 16) + "/wasm_exec.js",
	} {
		if r := ask(b, "GET", path); r.StatusCode != http.StatusNotFound {
			t.Errorf("%q: status %d, want 404", path, r.StatusCode)
		}
	}
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS"} {
		if r := ask(b, method, "/"); r.StatusCode != http.StatusMethodNotAllowed || r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: status %d, want 405", method, r.StatusCode)
		}
	}
	if r := ask(b, "HEAD", b.part("/wasm_exec.js")); r.StatusCode != 200 || len(body(t, r)) != 0 || r.Header.Get("Content-Length") == "0" {
		t.Errorf("HEAD: status %d, length %s", r.StatusCode, r.Header.Get("Content-Length"))
	}
	if r := ask(b, "GET", "/index.html"); r.StatusCode != http.StatusMovedPermanently || r.Header.Get("Location") != "/" {
		t.Errorf("/index.html: status %d to %q", r.StatusCode, r.Header.Get("Location"))
	}
}

// The server says where it is, answers, and ends when it is told to.
func TestServeUntilTold(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	said, diag := io.Pipe()
	ended := make(chan error, 1)
	b := testBundle(t, "/", false)
	go func() { ended <- serve(ctx, "localhost:0", b, diag) }()
	line := make([]byte, 200)
	n, err := said.Read(line)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(line[:n]), "http://")
	address, _, found := strings.Cut(rest, "/")
	if !found || !strings.HasPrefix(address, "localhost:") {
		t.Fatalf("said %q", line[:n])
	}
	r, err := http.Get("http://" + address + b.part("/web/style.css"))
	if err != nil || r.StatusCode != 200 {
		t.Fatalf("%v %v", r, err)
	}
	r.Body.Close()
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(2 * shutdownWait):
		t.Error("the server does not end")
	}
}
