//go:build !js

package browser

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
)

// host is a web host with the app as static files, which can move on to another
// version, fail, and spoil what it gives.
type host struct {
	*httptest.Server
	mu     sync.Mutex
	folder string
	away   bool                                          // gives nothing at all
	spoil  func(path string, body []byte) ([]byte, bool) // what is given instead, if it says so
	asked  func(path string)                             // hears of each file asked for
}

// written is the app of a program as static files for the root of a host.
func written(t *testing.T, program string) (folder string) {
	t.Helper()
	folder = t.TempDir()
	if out, err := exec.Command(program, "site", folder).CombinedOutput(); err != nil {
		t.Fatalf("site: %v\n%s", err, out)
	}
	return folder
}

// remade is another version of an app in a folder, in which every file is another:
// with more at its end that says nothing. It has the name of a letter.
func remade(t *testing.T, folder, letter string) string {
	t.Helper()
	worker := string(fileAt(folder, "/app-worker.js"))
	found := regexp.MustCompile(`"([0-9a-f]{16})"`).FindStringSubmatch(worker)
	if found == nil {
		t.Fatal("the service worker names no version")
	}
	to := t.TempDir()
	named := strings.NewReplacer(found[1], strings.Repeat(letter, 16))
	var sums []string // before and after, as the page and the service worker name them
	last := map[string]bool{"index.html": true, "page.html": true, "app-worker.js": true}
	err := filepath.WalkDir(folder, func(at string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || last[entry.Name()] {
			return err
		}
		was, err := os.ReadFile(at)
		is := append([]byte(named.Replace(string(was))), nothingMore(path.Ext(at), letter)...)
		a, b := sha256.Sum256(was), sha256.Sum256(is)
		sums = append(sums, fmt.Sprintf("%x", a), fmt.Sprintf("%x", b), base64.StdEncoding.EncodeToString(a[:]), base64.StdEncoding.EncodeToString(b[:]))
		put(t, to, named.Replace(strings.TrimPrefix(at, folder)), is)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	page := string(fileAt(folder, "/"))
	is := strings.NewReplacer(sums...).Replace(named.Replace(page))
	put(t, to, "index.html", []byte(is))
	if strings.Contains(worker, "page.html") {
		put(t, to, "build-"+strings.Repeat(letter, 16)+"/page.html", []byte(is))
		sums = append(sums, fmt.Sprintf("%x", sha256.Sum256([]byte(page))), fmt.Sprintf("%x", sha256.Sum256([]byte(is))))
	}
	put(t, to, "app-worker.js", []byte(strings.NewReplacer(sums...).Replace(named.Replace(worker))))
	return to
}

// nothingMore is what can be put after a file of a kind and says nothing, another
// for each letter: after a program, a custom section of that name (WebAssembly
// Core Specification, section 5.5.3), after data, blanks.
func nothingMore(ext, letter string) string {
	switch ext {
	case ".js", ".css":
		return "\n/* " + letter + " */"
	case ".wasm":
		return "\x00\x02\x01" + letter
	case ".geojson", ".json", ".webmanifest", ".txt":
		return strings.Repeat(" ", 1+int(letter[0]-'a'))
	}
	return letter // pictures and stations, which are only kept here
}

func put(t *testing.T, folder, name string, data []byte) {
	t.Helper()
	at := filepath.Join(folder, name)
	if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(at, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// openHost serves a folder.
func openHost(t *testing.T, folder string) *host {
	h := &host{folder: folder}
	h.Server = httptest.NewServer(http.HandlerFunc(h.serve))
	t.Cleanup(h.Close)
	return h
}

// set changes what the host does; nil leaves a part as it is.
func (h *host) set(change func(h *host)) {
	h.mu.Lock()
	defer h.mu.Unlock()
	change(h)
}

func (h *host) serve(w http.ResponseWriter, r *http.Request) {
	h.mu.Lock()
	folder, away, spoil, asked := h.folder, h.away, h.spoil, h.asked
	h.mu.Unlock()
	if away {
		panic(http.ErrAbortHandler) // as a lost network would
	}
	if asked != nil {
		asked(r.URL.Path)
	}
	if spoil != nil {
		if body, ok := spoil(r.URL.Path, fileAt(folder, r.URL.Path)); ok {
			w.Header().Set("Content-Type", kindOf(r.URL.Path))
			_, _ = w.Write(body)
			return
		}
	}
	// Versions written within a second have files of one time: they are told apart by what they hold.
	w.Header().Set("ETag", fmt.Sprintf(`"%x"`, sha256.Sum256(fileAt(folder, r.URL.Path))))
	http.FileServer(http.Dir(folder)).ServeHTTP(w, r)
}

// kindOf is what a host says that a file is, whatever it gives.
func kindOf(at string) string {
	switch path.Ext(at) {
	case ".js":
		return "text/javascript"
	case ".css":
		return "text/css"
	case ".wasm":
		return "application/wasm"
	case ".geojson", ".bin":
		return "application/octet-stream"
	}
	return "text/html; charset=utf-8"
}

// fileAt is a file of a folder, nil where there is none.
func fileAt(folder, at string) []byte {
	if strings.HasSuffix(at, "/") {
		at += "index.html"
	}
	b, _ := os.ReadFile(filepath.Join(folder, filepath.FromSlash(at)))
	return b
}

// sameFile is the file of another folder that has the place of one: its name
// below the folder of its version.
func sameFile(folder, at string) []byte {
	name := at
	if rest, ok := strings.CutPrefix(at, "/build-"); ok {
		_, name, _ = strings.Cut(rest, "/")
	}
	found, _ := filepath.Glob(filepath.Join(folder, "build-*", filepath.FromSlash(name)))
	if len(found) == 0 {
		return fileAt(folder, at)
	}
	b, _ := os.ReadFile(found[0])
	return b
}

// errorPage is what some hosts give with status 200 when something is wrong.
var errorPage = []byte("<!doctype html><title>Sorry</title><p>Something is wrong. Try again later.")

// half is the first half of a file.
func half(b []byte) []byte { return bytes.Clone(b[:len(b)/2]) }
