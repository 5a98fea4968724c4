//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/andybalholm/brotli"
)

// fakeWasm stands for the app, which need not be built for the tests.
var fakeWasm = []byte("\x00asm\x01\x00\x00\x00" + strings.Repeat("no program, but long enough to pack. ", 100))

// testFiles are the real files with a stand-in for the app.
func testFiles(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(appFiles, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasPrefix(name, "dist/") {
			return err
		}
		data, err := fs.ReadFile(appFiles, name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	w := brotli.NewWriter(&packed)
	_, _ = w.Write(fakeWasm)
	_ = w.Close()
	files[wasmPath] = &fstest.MapFile{Data: packed.Bytes()}
	files[sourcesPath] = &fstest.MapFile{Data: []byte("whose work")}
	return files
}

func testBundle(t *testing.T, base string, inMeta bool) *bundle {
	t.Helper()
	b, err := newBundle(testFiles(t), base, inMeta)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestWithoutTheApp(t *testing.T) {
	files := testFiles(t)
	delete(files, wasmPath)
	if _, err := newBundle(files, "/", false); !errors.Is(err, errNotBuilt) {
		t.Errorf("error %v, want %v", err, errNotBuilt)
	}
	files[wasmPath] = &fstest.MapFile{Data: []byte("not brotli")}
	if _, err := newBundle(files, "/", false); err == nil {
		t.Error("a damaged app is taken")
	}
}

// The version is that of all files: it stays while they stay, and any change
// of any of them changes it.
func TestVersion(t *testing.T) {
	first := testBundle(t, "/", false).version
	if again := testBundle(t, "/", false).version; again != first {
		t.Errorf("versions %s and %s of the same files", first, again)
	}
	for name := range testFiles(t) {
		files := testFiles(t)
		if name == wasmPath || unserved[path.Ext(name)] {
			continue // a packed file with a byte more is damaged
		}
		files[name].Data = append(files[name].Data, ' ')
		b, err := newBundle(files, "/", false)
		if err != nil {
			t.Fatal(err)
		}
		if b.version == first {
			t.Errorf("a change of %s does not change the version", name)
		}
	}
}

// The service worker keeps every file but itself, and names none that is not
// there: one that is missing would keep the app from ever being kept.
func TestServiceWorkerList(t *testing.T) {
	for _, base := range []string{"/", "/x/y/"} {
		b := testBundle(t, base, true)
		script := string(b.assets[workerPath].plain)
		if strings.Contains(script, "{{") {
			t.Errorf("a part of the template is left: %s", script)
		}
		found := regexp.MustCompile(`const files = (\[.*\]);`).FindStringSubmatch(script)
		var list []string
		if found == nil || json.Unmarshal([]byte(found[1]), &list) != nil {
			t.Fatalf("no list of files in %s", script)
		}
		want := []string{base}
		for name := range maps.Keys(b.assets) {
			if name != workerPath && name != indexPath {
				want = append(want, base+name)
			}
		}
		slices.Sort(list)
		slices.Sort(want)
		if !slices.Equal(list, want) {
			t.Errorf("the worker keeps %q, want %q", list, want)
		}
		if !strings.Contains(script, `"`+b.version+`"`) {
			t.Error("the worker does not name the version")
		}
	}
}

// Every address in the page, the manifest and the style is a file of the app.
func TestEveryReferenceIsThere(t *testing.T) {
	address := regexp.MustCompile(`(?:href|src|"src"): ?"([^"]*)"|(?:href|src)="([^"]*)"|url\(([^)]*)\)`)
	for _, base := range []string{"/", "/x/y/"} {
		b := testBundle(t, base, true)
		for _, in := range []string{indexPath, "manifest.webmanifest", "web/style.css"} {
			for _, m := range address.FindAllStringSubmatch(string(b.assets[in].plain), -1) {
				to := m[1] + m[2] + m[3]
				name, below := strings.CutPrefix(to, base)
				if !below || b.assets[name] == nil {
					t.Errorf("%s with base %s: %q is no file of the app", in, base, to)
				}
			}
		}
		app := string(b.assets["app.js"].plain)
		for _, want := range []string{`"` + base + `web/app.wasm"`, `"` + base + workerPath + `"`, `"` + b.version + `"`} {
			if !strings.Contains(app, want) {
				t.Errorf("app.js with base %s does not name %s", base, want)
			}
		}
	}
}

// namespaces are names that look like addresses and are never fetched.
var namespaces = strings.NewReplacer("http://www.w3.org/", "", "http://www.opengis.net/", "")

// No file that the browser runs or shows names another host, comments apart.
func TestNoOtherHosts(t *testing.T) {
	b := testBundle(t, "/", false)
	comment := regexp.MustCompile(`(?m)(^|\s)//.*$`)
	for name, a := range b.assets {
		switch {
		case strings.HasPrefix(name, "web/demo/"), name == "web/app.wasm", name == "web/stations.bin", name == "web/sources.txt":
			continue // data and texts, of which nothing is fetched
		}
		text := namespaces.Replace(comment.ReplaceAllString(string(a.plain), ""))
		if m := regexp.MustCompile(`https?://[a-zA-Z0-9.]+`).FindString(text); m != "" {
			t.Errorf("%s names %s", name, m)
		}
	}
}

// The policy allows no inline script or style: the page must have none.
func TestNothingInline(t *testing.T) {
	page := string(testBundle(t, "/", true).assets[indexPath].plain)
	for _, bad := range []string{`<script>`, ` style="`, `<style`, ` onclick=`, ` onload=`, `javascript:`} {
		if strings.Contains(page, bad) {
			t.Errorf("the page holds %s", bad)
		}
	}
	for _, want := range []string{"A planning aid, not a chart.", "nothing is checked yet"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

func TestBases(t *testing.T) {
	for _, base := range []string{"/", "/keelroom/", "/~me/a.b/x-y_z/"} {
		if err := checkBase(base); err != nil {
			t.Errorf("%q: %v", base, err)
		}
	}
	for _, base := range []string{"", "keelroom", "/keelroom", "keelroom/", "//", "//evil.example/", "/a//b/", "/../", "/a/../b/", "/a b/", "/\"/", "/<x>/", "https://x/"} {
		if err := checkBase(base); err == nil {
			t.Errorf("%q is taken", base)
		}
	}
}
