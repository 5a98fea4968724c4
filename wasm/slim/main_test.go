package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var replacement = regexp.MustCompile(`(?m)^replace \S+ => "(.*)"$`)

// The browser's program built with the copy links no server and no TLS; with the
// module as it is it links both.
func TestCopyHasNoServer(t *testing.T) {
	t.Chdir("../..")
	folder := filepath.Join(t.TempDir(), "a folder")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := run(folder); err != nil {
		t.Fatal(err)
	}
	mod, err := os.ReadFile(filepath.Join(folder, "browser.mod"))
	if err != nil {
		t.Fatal(err)
	}
	if named := replacement.FindSubmatch(mod); named == nil || !strings.HasPrefix(string(named[1]), ".") {
		t.Errorf("the copy is not named from where go.mod is: %s", mod)
	}
	for _, test := range []struct {
		flags []string
		want  bool
	}{{nil, true}, {[]string{"-modfile=" + filepath.Join(folder, "browser.mod")}, false}} {
		args := append(append([]string{"list", "-deps"}, test.flags...), "./wasm")
		cmd := exec.Command("go", args...)
		cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		cmd.Stderr = os.Stderr
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		deps := "\n" + string(out)
		if !strings.Contains(deps, "\nkeelroom/app/screen\n") {
			t.Fatalf("%v: the app itself is not listed", test.flags)
		}
		for _, name := range []string{"net/http", "crypto/tls"} {
			if got := strings.Contains(deps, "\n"+name+"\n"); got != test.want {
				t.Errorf("%v: %s linked: %v, want %v", test.flags, name, got, test.want)
			}
		}
	}
	if _, err := os.Stat(filepath.Join(folder, "go-app", "LICENSE")); err != nil {
		t.Error(err)
	}
}

// A module whose files are others than expected is refused, not built by halves.
func TestOtherModuleIsRefused(t *testing.T) {
	for name, files := range map[string]map[string]string{
		"no server":       {"http.go": "package app\n", "resource.go": "package app\n"},
		"constrained":     {"http.go": "//go:build !wasm\n\npackage app\n\nimport \"net/http\"\n", "resource.go": ""},
		"without a piece": {"http.go": "package app\nimport \"net/http\"\n", "resource.go": "package app\nimport \"net/http\"\n"},
		"nothing":         {},
	} {
		dir := t.TempDir()
		for file, text := range files {
			if err := os.WriteFile(filepath.Join(dir, file), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if err := trim(dir); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}
