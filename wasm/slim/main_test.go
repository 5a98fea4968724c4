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

// The browser's program built with the copies links no server, no TLS and nothing
// else of what only the files left out want; with the modules as they are it links
// all of it.
func TestCopyLinksLess(t *testing.T) {
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
	named := replacement.FindAllSubmatch(mod, -1)
	if len(named) != 2 {
		t.Errorf("%d modules are replaced", len(named))
	}
	for _, n := range named {
		if !strings.HasPrefix(string(n[1]), ".") {
			t.Errorf("the copy is not named from where go.mod is: %s", mod)
		}
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
		for _, name := range []string{"net/http", "crypto/tls", "regexp", "crypto/aes", "crypto/rand", "math/big"} {
			if got := strings.Contains(deps, "\n"+name+"\n"); got != test.want {
				t.Errorf("%v: %s linked: %v, want %v", test.flags, name, got, test.want)
			}
		}
	}
	if _, err := os.Stat(filepath.Join(folder, "go-app", "LICENSE")); err != nil {
		t.Error(err)
	}
}

// A module of which a file that is replaced is another than expected is refused, not built by halves.
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

// The copy is the module's files as they are, but for those left out, which are not
// there, and for ours.
func TestWhatDiffers(t *testing.T) {
	t.Chdir("../..")
	from, to := copied(t)
	for name := range left {
		if _, err := os.Stat(filepath.Join(to, filepath.FromSlash(name))); err == nil {
			t.Errorf("%s is there", name)
		}
	}
	same := 0
	err := filepath.WalkDir(to, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || entry.Name() == "server_js.go" || entry.Name() == "unused_js.go" {
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
}

func copied(t *testing.T) (from, to string) {
	t.Helper()
	from, err := find()
	if err != nil {
		t.Fatal(err)
	}
	to = filepath.Join(t.TempDir(), "copy")
	if err := together(from, to); err != nil {
		t.Fatal(err)
	}
	return from, to
}

// Functions in the place of the server's are the module's, word for word.
func TestFunctionsAreTheServers(t *testing.T) {
	t.Chdir("../..")
	from, _ := copied(t)
	originals := read(t, filepath.Join(from, "pkg", "app", "resource.go"))
	functions := regexp.MustCompile(`(?ms)^func .*?^}$`).FindAllString(string(serverInPlace), -1)
	if len(functions) != 3 {
		t.Errorf("%d functions", len(functions))
	}
	for _, f := range functions {
		if !strings.Contains(originals, "\n"+f+"\n") {
			t.Errorf("not word for word: %s", f)
		}
	}
}

// What is left out besides the server is called by nothing of this app's: state
// kept by the module, encryption, routes by pattern, names of devices.
func TestNothingLeftOutIsCalled(t *testing.T) {
	t.Chdir("../..")
	calls := regexp.MustCompile(`\.(ObserveState|GetState|SetState|DelState|Encrypt|Decrypt|DeviceID|RouteWithRegexp|PersistWithEncryption)\(`)
	seen := 0
	for _, folder := range []string{"app", "wasm"} {
		err := filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.Contains(path, "wasm/slim") {
				return err
			}
			seen++
			if call := calls.FindString(read(t, path)); call != "" {
				t.Errorf("%s calls %s, which is left out: see wasm/slim/_go-app", path, call)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 100 {
		t.Errorf("%d files were looked at", seen)
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
