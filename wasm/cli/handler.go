//go:build !js

package cli

import (
	"net/http"
	"strconv"
	"strings"
)

// securityHeaders go with every answer.
var securityHeaders = map[string]string{
	"Content-Security-Policy":      framePolicy,
	"X-Content-Type-Options":       "nosniff",
	"X-Frame-Options":              "DENY",
	"Referrer-Policy":              "no-referrer",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Permissions-Policy":           "camera=(), microphone=(), payment=(), usb=(), geolocation=(self), screen-wake-lock=(self)",
}

// ServeHTTP answers with the file that the path names, and with nothing that is
// not in the bundle. Caches must ask each time; asking costs little, as the
// answer to an unchanged file is empty.
func (b *bundle) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	for name, value := range securityHeaders {
		w.Header().Set(name, value)
	}
	w.Header().Set("Cache-Control", "no-cache")
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "only reading is possible here", http.StatusMethodNotAllowed)
		return
	}
	name, below := strings.CutPrefix(r.URL.Path, b.base)
	if below && name == indexPath {
		http.Redirect(w, r, b.base, http.StatusMovedPermanently)
		return
	}
	if name == "" {
		name = indexPath
	}
	a := b.assets[name]
	if !below || a == nil {
		http.NotFound(w, r)
		return
	}
	a.serve(w, r)
}

func (a *asset) serve(w http.ResponseWriter, r *http.Request) {
	body, encoding := a.packed(r.Header.Get("Accept-Encoding"))
	h := w.Header()
	h.Set("Content-Type", a.kind)
	tag := a.hash()
	if a.brotli != nil {
		h.Set("Vary", "Accept-Encoding")
	}
	if encoding != "" {
		h.Set("Content-Encoding", encoding)
		tag += "-" + encoding
	}
	tag = strconv.Quote(tag)
	h.Set("ETag", tag)
	if matches(r.Header.Get("If-None-Match"), tag) {
		h.Del("Content-Encoding")
		w.WriteHeader(http.StatusNotModified)
		return
	}
	h.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodGet {
		_, _ = w.Write(body) // a reader who has gone is no concern of ours
	}
}

// packed is the smallest form that a client takes: RFC 9110 section 12.5.3.
func (a *asset) packed(accept string) (body []byte, encoding string) {
	for _, form := range []struct {
		name string
		pack func() []byte
	}{{"br", a.brotli}, {"gzip", a.gzip}} {
		if form.pack == nil || !takes(accept, form.name) {
			continue
		}
		if body := form.pack(); body != nil {
			return body, form.name
		}
	}
	return a.plain, ""
}

// takes says whether an Accept-Encoding header names a coding, or names * and
// not the coding, with a weight above 0.
func takes(accept, coding string) bool {
	any := false
	for part := range strings.SplitSeq(accept, ",") {
		name, parameters, _ := strings.Cut(part, ";")
		name = strings.ToLower(strings.TrimSpace(name))
		if name != coding && name != "*" {
			continue
		}
		weight := 1.0
		if q, ok := strings.CutPrefix(strings.ToLower(strings.TrimSpace(parameters)), "q="); ok {
			weight, _ = strconv.ParseFloat(q, 64) // what is no number counts as 0
		}
		if name == coding {
			return weight > 0
		}
		any = weight > 0
	}
	return any
}

// matches says whether an If-None-Match header names a tag; weak tags match,
// as RFC 9110 section 13.1.2 wants.
func matches(header, tag string) bool {
	for part := range strings.SplitSeq(header, ",") {
		part = strings.TrimSpace(part)
		if part == "*" || strings.TrimPrefix(part, "W/") == tag {
			return true
		}
	}
	return false
}
