package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestPack(t *testing.T) {
	folder := t.TempDir()
	from, to := filepath.Join(folder, "app.wasm"), filepath.Join(folder, "app.wasm.br")
	plain := []byte(strings.Repeat("no program ", 1000))
	if err := os.WriteFile(from, plain, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := run([]string{"-level", "5", from, to}); err != nil {
		t.Fatal(err)
	}
	if !holds(to, plain) || holds(to, plain[1:]) || holds(from, plain) {
		t.Error("the packed file does not hold the app, or anything would do")
	}
	old := time.Now().Add(-time.Hour)
	if err := os.Chtimes(to, old, old); err != nil {
		t.Fatal(err)
	}
	if err := run([]string{from, to}); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(to); err != nil || time.Since(info.ModTime()) < time.Minute {
		t.Error("a file that holds the same app was packed again")
	}
	for _, args := range [][]string{nil, {from}, {"-level", "12", from, to}, {filepath.Join(folder, "none"), to}} {
		if run(args) == nil {
			t.Errorf("%q is taken", args)
		}
	}
}

// Files are packed under the hash of what they hold; what is no longer wanted
// goes, what is there stays as it is.
func TestPackIntoAFolder(t *testing.T) {
	dir := t.TempDir()
	one, two, into := filepath.Join(dir, "one"), filepath.Join(dir, "two"), filepath.Join(dir, "packed")
	for path, text := range map[string]string{one: strings.Repeat("one ", 999), two: strings.Repeat("two ", 999)} {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	names := func() (list []string) {
		entries, err := os.ReadDir(into)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			list = append(list, e.Name())
		}
		return list
	}
	if err := run([]string{"-into", into, one, two}); err != nil {
		t.Fatal(err)
	}
	if n := len(names()); n != 2 {
		t.Fatalf("%d files", n)
	}
	if err := run([]string{"-into", into, two}); err != nil {
		t.Fatal(err)
	}
	left := names()
	if len(left) != 1 || !holds(filepath.Join(into, left[0]), []byte(strings.Repeat("two ", 999))) {
		t.Errorf("left are %v", left)
	}
	if err := run([]string{"-into", into, filepath.Join(dir, "away")}); err == nil {
		t.Error("a file that is not there is packed")
	}
}
