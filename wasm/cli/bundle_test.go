//go:build !js

package cli

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
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

// The service worker keeps every part, each under the SHA-256 of what it holds,
// and names none that is not there: one that is missing would keep the app from
// ever being kept.
func TestServiceWorkerList(t *testing.T) {
	for _, base := range []string{"/", "/x/y/"} {
		b := testBundle(t, base, true)
		script := string(b.assets[workerPath].plain)
		if strings.Contains(script, "{{") {
			t.Errorf("a part of the template is left: %s", script)
		}
		found := regexp.MustCompile(`const files = (\{.*\});`).FindStringSubmatch(script)
		var list map[string]string
		if found == nil || json.Unmarshal([]byte(found[1]), &list) != nil {
			t.Fatalf("no list of files in %s", script)
		}
		want := map[string]string{}
		for path, a := range b.assets {
			if name, part := strings.CutPrefix(path, "build-"+b.version+"/"); part {
				want[name] = fmt.Sprintf("%x", sha256.Sum256(a.plain))
			} else if path != workerPath && path != indexPath {
				t.Errorf("%s is at an address that does not name the version", path)
			}
		}
		if !maps.Equal(list, want) {
			t.Errorf("the worker keeps %q, want %q", list, want)
		}
		if page := b.assets[indexPath]; list[pagePath] != page.hash() {
			t.Error("the page at the base is another than the one that is kept")
		}
		if !strings.Contains(script, `"`+b.version+`"`) {
			t.Error("the worker does not name the version")
		}
	}
}

// Two versions share no address but those of the page and the service worker: a
// page of one can never be given a file of the other.
func TestVersionsShareNoAddress(t *testing.T) {
	one := testBundle(t, "/", true)
	for path := range otherBundle(t, "a comment").assets {
		if one.assets[path] != nil && path != workerPath && path != indexPath {
			t.Errorf("%s is of both versions", path)
		}
	}
}

// otherBundle is another version: with a comment more in a script.
func otherBundle(t *testing.T, comment string) *bundle {
	t.Helper()
	files := testFiles(t)
	files["store.js"].Data = append(files["store.js"].Data, "// "+comment...)
	b, err := newBundle(files, "/", true)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Every address in the page, the manifest and the style is a file of the app.
func TestEveryReferenceIsThere(t *testing.T) {
	address := regexp.MustCompile(`(?:href|src|"src"): ?"([^"]*)"|(?:href|src)="([^"]*)"|url\(([^)]*)\)`)
	for _, base := range []string{"/", "/x/y/"} {
		b := testBundle(t, base, true)
		home := base + "build-" + b.version + "/"
		for _, in := range []string{pagePath, "manifest.webmanifest", "web/style.css"} {
			for _, m := range address.FindAllStringSubmatch(string(b.parts[in].plain), -1) {
				to := m[1] + m[2] + m[3]
				name, below := strings.CutPrefix(to, home)
				if !below || b.parts[name] == nil {
					t.Errorf("%s with base %s: %q is no file of this version of the app", in, base, to)
				}
			}
		}
	}
}

// The page names the hash of every script and style that it loads: the browser
// then uses them only as this version has them (W3C Subresource Integrity).
func TestPageNamesHashes(t *testing.T) {
	b := testBundle(t, "/x/y/", true)
	tags := regexp.MustCompile(`<script[^>]*>|<link rel="(?:stylesheet|modulepreload)"[^>]*>`).FindAllString(string(b.parts[pagePath].plain), -1)
	modules, err := b.modules()
	if err != nil {
		t.Fatal(err)
	}
	if want := 1 + len(classicScripts) + len(modules) + len(styles); len(tags) != want {
		t.Errorf("%d scripts and styles in the page, want %d", len(tags), want)
	}
	for _, tag := range tags {
		m := regexp.MustCompile(`(?:src|href)="/x/y/build-[0-9a-f]+/([^"]*)" integrity="sha256-([^"]*)"`).FindStringSubmatch(tag)
		if m == nil {
			t.Errorf("%s has no hash", tag)
			continue
		}
		sum := sha256.Sum256(b.parts[m[1]].plain)
		if m[2] != base64.StdEncoding.EncodeToString(sum[:]) {
			t.Errorf("%s: the hash is of something else", tag)
		}
	}
}

// Every script of the views is reached from the page's module, each after what it
// imports: none is served for nothing, and none is left to be found on the way.
func TestModules(t *testing.T) {
	b := testBundle(t, "/", false)
	modules, err := b.modules()
	if err != nil {
		t.Fatal(err)
	}
	apart := map[string]bool{"web/first.js": true, "web/engine.js": true, "web/vendor/ol/ol.js": true}
	for name := range b.parts {
		if strings.HasPrefix(name, "web/") && path.Ext(name) == ".js" && !apart[name] && !slices.Contains(modules, name) {
			t.Errorf("%s is imported by nothing", name)
		}
	}
	if last := modules[len(modules)-1]; last != entryModule {
		t.Errorf("the last module is %s", last)
	}
	for name, kept := range map[string]string{"start.js": "import { chart } from \"./chart/none.js\";\n", "strip/strip.js": "import \"../../none.js\";\n"} {
		files := testFiles(t)
		files[name] = &fstest.MapFile{Data: []byte(kept)}
		if _, err := newBundle(files, "/", false); err == nil || !strings.Contains(err.Error(), "none.js is imported, and there is no such file") {
			t.Errorf("%s imports what is not there: %v", name, err)
		}
	}
}

// A module is written so that its imports are found.
func TestImportsAreFound(t *testing.T) {
	files := testFiles(t)
	for name, f := range files {
		if path.Ext(name) != ".js" || strings.HasPrefix(name, "vendor/") {
			continue
		}
		for line := range strings.Lines(string(f.Data)) {
			if words := regexp.MustCompile(`\bimport\b|\bfrom "`).FindString(line); words == "" || strings.HasPrefix(strings.TrimSpace(line), "//") {
				continue
			}
			if !imported.MatchString(line) && !strings.Contains(line, "import.meta") {
				t.Errorf("%s: an import that is not found: %s", name, line)
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
	for name, a := range b.parts {
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
