package main

import (
	"io/fs"
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

// A module whose server is another than expected is refused, not built by halves.
func TestOtherModuleIsRefused(t *testing.T) {
	for name, files := range map[string]map[string]string{
		"another server": {"http.go": "package app\n", "resource.go": "package app\n"},
		"no server":      {},
	} {
		from, to := t.TempDir(), filepath.Join(t.TempDir(), "copy")
		for file, text := range files {
			at := filepath.Join(from, "pkg", "app", file)
			if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(at, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if err := together(from, to); err == nil {
			t.Errorf("%s: taken", name)
		}
		if _, err := os.Stat(to); err == nil {
			t.Errorf("%s: something was written", name)
		}
	}
}

// The copy is the module's files as they are, but for the server's, which are not
// there, and for ours, whose functions are the server's word for word.
func TestWhatDiffers(t *testing.T) {
	t.Chdir("../..")
	from, err := find()
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "copy")
	if err := together(from, to); err != nil {
		t.Fatal(err)
	}
	for name := range serverFiles {
		if _, err := os.Stat(filepath.Join(to, filepath.FromSlash(name))); err == nil {
			t.Errorf("%s is there", name)
		}
	}
	same := 0
	err = filepath.WalkDir(to, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || entry.Name() == "server_js.go" {
			return err
		}
		rel, _ := filepath.Rel(to, path)
		ours, theirs := read(t, path), read(t, filepath.Join(from, rel))
		if ours != theirs {
			t.Errorf("%s is not the module's", rel)
		}
		same++
		return nil
	})
	if err != nil || same < 40 {
		t.Errorf("%d files are the module's, %v", same, err)
	}
	originals := read(t, filepath.Join(from, "pkg", "app", "resource.go"))
	functions := regexp.MustCompile(`(?ms)^func .*?^}$`).FindAllString(string(inPlace), -1)
	if len(functions) != 3 {
		t.Errorf("%d functions", len(functions))
	}
	for _, f := range functions {
		if !strings.Contains(originals, "\n"+f+"\n") {
			t.Errorf("not word for word: %s", f)
		}
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
