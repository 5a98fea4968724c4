// Command slim puts go-app for the browser together: the module's files without
// its server's and some that this app does not need, and files of ours in their
// place. The folder _go-app holds those and says what differs, and why. Nothing of
// the module's text is changed.
//
// usage: slim FOLDER
//
// It writes FOLDER/go-app, FOLDER/uuid, FOLDER/browser.mod and FOLDER/browser.sum, for
// `go build -modfile=FOLDER/browser.mod`. Everything else builds with go.mod and
// the module as it is.
package main

import (
	"crypto/sha256"
	_ "embed"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

const (
	module = "github.com/maxence-charriere/go-app/v10"
	within = "pkg/app"
)

// left are the files that are left out, with the SHA-256 of each as our files stand
// for it.
var left = map[string]string{
	"pkg/app/crypto.go":   "c0fc14126207dc9fa15fb8869bd882874486654919835dc35d5bef8a6122aa97",
	"pkg/app/http.go":     "0601189a9f611378e9b24ab4bdf42780a03cbf95c1bbebd4171b523ddbe9a32d",
	"pkg/app/resource.go": "6b52ab4ec2f4171d403384bffe159e9ec22699933e768ef5868f2851a1b84baa",
	"pkg/app/route.go":    "3252c7f2876cba69c3fbb203b0b4d5770ddd4651cdaf3ad69e5c33bfd1ccf5bd",
	"pkg/app/state.go":    "b41c94e804ab69a8a6341d58c09ac79d8cc8b0022bddd6c74c0f107a9f31480b",
}

// What takes the place of the files that are left out.
var (
	//go:embed _go-app/server_js.go
	serverInPlace []byte
	//go:embed _go-app/unused_js.go
	unusedInPlace []byte
)

// The module that go-app makes random names with, and what takes its place: only
// functions that this app does not call ask for such names.
const uuid = "github.com/google/uuid"

//go:embed _go-app/uuid/uuid.go
var uuidInPlace []byte

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: slim FOLDER")
		os.Exit(2)
	}
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "slim:", err)
		os.Exit(1)
	}
}

func run(folder string) error {
	from, err := find()
	if err != nil {
		return err
	}
	to, err := filepath.Abs(filepath.Join(folder, "go-app"))
	if err != nil {
		return err
	}
	if err := os.RemoveAll(to); err != nil {
		return err
	}
	if err := together(from, to); err != nil {
		return err
	}
	names := filepath.Join(filepath.Dir(to), "uuid")
	if err := writeUUID(names); err != nil {
		return err
	}
	return modfile(folder, map[string]string{module: to, uuid: names})
}

// find asks the go command where the module is, which it fetches if need be.
func find() (string, error) {
	cmd := exec.Command("go", "mod", "download", module)
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		return "", fmt.Errorf("go mod download: %w", err)
	}
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", module).Output()
	if err != nil {
		return "", fmt.Errorf("go list: %w", err)
	}
	return strings.TrimSpace(string(out)), nil
}

// together writes the module without the files that are left out, with ours in
// their place.
func together(from, to string) error {
	if err := asKnown(from); err != nil {
		return err
	}
	if err := copyModule(from, to); err != nil {
		return err
	}
	for name, text := range map[string][]byte{"server_js.go": serverInPlace, "unused_js.go": unusedInPlace} {
		if err := os.WriteFile(filepath.Join(to, filepath.FromSlash(within), name), text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

func writeUUID(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(folder, "go.mod"), []byte("module "+uuid+"\n"), 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "uuid.go"), uuidInPlace, 0o644)
}

// asKnown refuses a module of which a file that is replaced is another.
func asKnown(from string) error {
	for _, name := range slices.Sorted(maps.Keys(left)) {
		text, err := os.ReadFile(filepath.Join(from, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		if sum := fmt.Sprintf("%x", sha256.Sum256(text)); sum != left[name] {
			return fmt.Errorf("%s of %s is another: its SHA-256 is %s; see wasm/slim/_go-app/README.md, then write the sum into wasm/slim/main.go", name, module, sum)
		}
	}
	return nil
}

// copyModule copies what is needed to build, but for what is left out: Go files of the
// module's packages, its go.mod and its licence.
func copyModule(from, to string) error {
	return filepath.WalkDir(from, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !needed(entry.Name()) {
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		if _, isLeft := left[filepath.ToSlash(rel)]; isLeft {
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		target := filepath.Join(to, rel)
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		return os.WriteFile(target, data, 0o644)
	})
}

func needed(name string) bool {
	isGo := strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go")
	return isGo || name == "go.mod" || name == "go.sum" || strings.HasPrefix(name, "LICENSE")
}

// modfile writes the go.mod that takes the copies. It names them from where
// go.mod is: the names go into the program, which must not tell of the machine
// that built it, nor differ from one to the next.
func modfile(folder string, copies map[string]string) error {
	mod, err := os.ReadFile("go.mod")
	if err != nil {
		return err
	}
	sum, err := os.ReadFile("go.sum")
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(copies)) {
		to, err := fromHere(copies[name])
		if err != nil {
			return err
		}
		mod = fmt.Appendf(mod, "\nreplace %s => %q\n", name, to)
	}
	if err := os.WriteFile(filepath.Join(folder, "browser.mod"), mod, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "browser.sum"), sum, 0o644)
}

// fromHere is a folder's path as a module file names it.
func fromHere(folder string) (string, error) {
	here, err := os.Getwd()
	if err != nil {
		return "", err
	}
	to, err := filepath.Rel(here, folder)
	if err != nil {
		return "", err
	}
	if to = filepath.ToSlash(to); !strings.HasPrefix(to, "../") {
		to = "./" + to
	}
	return to, nil
}
