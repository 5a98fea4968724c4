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
