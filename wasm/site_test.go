//go:build !js

package main

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
	if err := b.write(folder); err != nil {
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
	var there []string
	_ = filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			name, _ := filepath.Rel(folder, path)
			there = append(there, filepath.ToSlash(name))
		}
		return err
	})
	if slices.Sort(there); !slices.Equal(there, b.names()) {
		t.Errorf("written %q, want %q", there, b.names())
	}
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
		if err := b.write(folder); err != nil {
			t.Fatal(err)
		}
	}
	other := t.TempDir()
	if err := os.WriteFile(filepath.Join(other, "letter.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := b.write(other); err == nil || !strings.Contains(err.Error(), "a new or empty folder is wanted") {
		t.Errorf("a folder with other things: %v", err)
	}
	if err := b.write(filepath.Join(other, "letter.txt")); err == nil {
		t.Error("a file is taken as a folder")
	}
}
