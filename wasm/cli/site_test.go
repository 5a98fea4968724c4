//go:build !js

package cli

import (
	"bytes"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// A site served by a plain file server below a path has every file that the
// page and the service worker ask for, and the same bytes.
func TestSiteBelowAPath(t *testing.T) {
	b := testBundle(t, "/x/y/", true)
	folder := filepath.Join(t.TempDir(), "site")
	if _, err := b.write(folder); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(http.StripPrefix("/x/y/", http.FileServer(http.Dir(folder))))
	defer server.Close()
	for name, a := range b.assets {
		path := b.base + name
		if name == indexPath {
			path = b.base
		}
		r, err := http.Get(server.URL + path)
		if err != nil {
			t.Fatal(err)
		}
		if got := body(t, r); r.StatusCode != 200 || !bytes.Equal(got, a.plain) {
			t.Errorf("%s: status %d, %d bytes, want %d", path, r.StatusCode, len(got), len(a.plain))
		}
	}
	if there, want := written(t, folder), withList(b.names()); !slices.Equal(there, want) {
		t.Errorf("written %q, want %q", there, want)
	}
}

// written are the files in a folder, in order.
func written(t *testing.T, folder string) (there []string) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			name, _ := filepath.Rel(folder, path)
			there = append(there, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(there)
	return there
}

// withList are the files of bundles and the list of them, in order, each once.
func withList(names ...[]string) []string {
	all := append(slices.Concat(names...), siteListName)
	slices.Sort(all)
	return slices.Compact(all)
}

// The policy is in the page, without frame-ancestors, which is not valid there.
func TestSitePolicy(t *testing.T) {
	page := string(testBundle(t, "/x/y/", true).assets[indexPath].plain)
	found := regexp.MustCompile(`<meta http-equiv="Content-Security-Policy" content="([^"]*)">`).FindStringSubmatch(page)
	if found == nil {
		t.Fatal("no policy in the page")
	}
	if !strings.Contains(found[1], "default-src &#39;self&#39;") || strings.Contains(found[1], "frame-ancestors") {
		t.Errorf("policy %s", found[1])
	}
	if strings.Index(page, found[0]) > strings.Index(page, "<link") {
		t.Error("the policy comes after the first file asked for")
	}
	if strings.Contains(string(testBundle(t, "/", false).assets[indexPath].plain), "http-equiv") {
		t.Error("the served page has the policy twice")
	}
}

func TestSiteFolder(t *testing.T) {
	b := testBundle(t, "/", true)
	folder := t.TempDir()
	for range 2 { // into an empty folder, and over what is there
		if _, err := b.write(folder); err != nil {
			t.Fatal(err)
		}
	}
	other := t.TempDir()
	if err := os.WriteFile(filepath.Join(other, "letter.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := b.write(other); err == nil || !strings.Contains(err.Error(), "a new or empty folder is wanted") {
		t.Errorf("a folder with other things: %v", err)
	}
	if _, err := b.write(filepath.Join(other, "letter.txt")); err == nil {
		t.Error("a file is taken as a folder")
	}
}

// What an earlier version wrote is removed when the version after the next one is
// written: the one before the newest may still be open somewhere. What others put
// into the folder, or changed, stays.
func TestSiteRemovesWhatIsStale(t *testing.T) {
	a, b, c := testBundle(t, "/", true), otherBundle(t, "b"), otherBundle(t, "c")
	folder := t.TempDir()
	write := func(what *bundle) string {
		t.Helper()
		told, err := what.write(folder)
		if err != nil {
			t.Fatal(err)
		}
		return told
	}
	write(a)
	mine := []string{"CNAME", "build-" + a.version + "/mine.txt"}
	for _, name := range mine {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("mine"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	changed := "build-" + a.version + "/web/style.css"
	if err := os.WriteFile(filepath.Join(folder, changed), []byte("changed"), 0o644); err != nil {
		t.Fatal(err)
	}
	if told := write(b); !strings.Contains(told, a.version+" stays") {
		t.Errorf("told %q", told)
	}
	write(b) // again: the one before stays the one before
	if got, want := written(t, folder), withList(a.names(), b.names(), mine); !slices.Equal(got, want) {
		t.Errorf("after the second version there are %q, want %q", got, want)
	}
	if told := write(c); !strings.Contains(told, a.version+" is removed") || !strings.Contains(told, b.version+" stays") {
		t.Errorf("told %q", told)
	}
	if got, want := written(t, folder), withList(b.names(), c.names(), mine, []string{changed}); !slices.Equal(got, want) {
		t.Errorf("after the third version there are %q, want %q", got, want)
	}
	if read(t, filepath.Join(folder, indexPath)) != string(c.assets[indexPath].plain) {
		t.Error("the page is not the newest")
	}
}

// A version whose writing was broken off takes the place of none that was whole.
func TestSiteBrokenOff(t *testing.T) {
	a, b, c := testBundle(t, "/", true), otherBundle(t, "b"), otherBundle(t, "c")
	folder := t.TempDir()
	if _, err := a.write(folder); err != nil {
		t.Fatal(err)
	}
	// A folder where a file is to be breaks the writing off.
	if err := os.MkdirAll(filepath.Join(folder, "build-"+b.version, "web", "style.css", "in-the-way"), 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := b.write(folder); err == nil {
		t.Fatal("written over a folder")
	}
	if read(t, filepath.Join(folder, indexPath)) != string(a.assets[indexPath].plain) {
		t.Error("the page names files of a version that is not there whole")
	}
	if err := os.RemoveAll(filepath.Join(folder, "build-"+b.version, "web", "style.css")); err != nil {
		t.Fatal(err)
	}
	if _, err := c.write(folder); err != nil {
		t.Fatal(err)
	}
	if there, want := written(t, folder), withList(a.names(), c.names()); !slices.Equal(there, want) {
		t.Errorf("there are %q, want %q", there, want)
	}
}

// A list that names what is not of its build, or lies outside the folder, removes
// nothing of it; one that cannot be read is refused before anything is written.
func TestSiteListIsNotTrusted(t *testing.T) {
	a := testBundle(t, "/", true)
	outside := t.TempDir()
	folder := filepath.Join(outside, "site")
	if _, err := a.write(folder); err != nil {
		t.Fatal(err)
	}
	victims := []string{filepath.Join(outside, "letter.txt"), filepath.Join(folder, "letter.txt")}
	for _, name := range victims {
		if err := os.WriteFile(name, []byte("mine"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(folder, "build-x"), 0o755); err != nil {
		t.Fatal(err)
	}
	sum := newAsset("", []byte("mine")).hash()
	list := `{"builds":[{"build":"x","files":{"build-x/../letter.txt":"` + sum + `","build-x/../../letter.txt":"` + sum + `","letter.txt":"` + sum + `"}}]}`
	at := filepath.Join(folder, siteListName)
	if err := os.WriteFile(at, []byte(list), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := otherBundle(t, "b").write(folder); err != nil {
		t.Fatal(err)
	}
	for _, name := range victims {
		if read(t, name) != "mine" {
			t.Errorf("%s is gone", name)
		}
	}
	before := written(t, folder)
	if err := os.WriteFile(at, []byte("[1"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := otherBundle(t, "c").write(folder); err == nil || !strings.Contains(err.Error(), "is no list of builds, so nothing was written") {
		t.Errorf("error %v", err)
	}
	if got := written(t, folder); !slices.Equal(got, before) {
		t.Errorf("there are %q, want %q", got, before)
	}
}
