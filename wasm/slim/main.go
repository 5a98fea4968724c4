// Command slim prepares a copy of go-app for the browser without go-app's server.
//
// go-app's package holds its HTTP server beside what a browser runs. Nothing of
// the server is called there, but its imports bring net/http, TLS and cryptography
// into the program: 1.7 MB of it, 0.3 MB of every first download. The copy differs
// in build constraints only: the files of the server are left out under js, and a
// file of declarations that the rest asks for is added, taken word for word from
// the originals. go-app is MIT licensed; its licence stays with the copy.
//
// usage: slim FOLDER
//
// It writes FOLDER/go-app, FOLDER/browser.mod and FOLDER/browser.sum, for
// `go build -modfile=FOLDER/browser.mod`. Everything else builds with go.mod and
// the module as it is.
package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const (
	module = "github.com/maxence-charriere/go-app/v10"
	within = "pkg/app"
)

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
	if err := copyModule(from, to); err != nil {
		return err
	}
	if err := trim(filepath.Join(to, filepath.FromSlash(within))); err != nil {
		return fmt.Errorf("%s is not as it was: %w; look at its newer files and change this command", module, err)
	}
	return modfile(folder, to)
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

// copyModule copies what is needed to build: Go files of the module's packages,
// its go.mod and its licence.
func copyModule(from, to string) error {
	return filepath.WalkDir(from, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := entry.Name()
		if entry.IsDir() || strings.HasSuffix(name, "_test.go") ||
			!(strings.HasSuffix(name, ".go") || name == "go.mod" || name == "go.sum" || strings.HasPrefix(name, "LICENSE")) {
			return nil
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
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

// trim leaves the server's files out under js, and adds what the rest needs of
// them.
func trim(dir string) error {
	for _, name := range []string{"http.go", "resource.go"} {
		path := filepath.Join(dir, name)
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if !strings.Contains(string(text), `"net/http"`) || strings.Contains(string(text), "//go:build") {
			return errors.New(name + " is not the server's file without a build constraint")
		}
		if err := os.WriteFile(path, append([]byte("//go:build !js\n\n"), text...), 0o644); err != nil {
			return err
		}
	}
	text, err := os.ReadFile(filepath.Join(dir, "resource.go"))
	if err != nil {
		return err
	}
	rest := "package app\n\nimport \"strings\"\n\n// Handler is the server's; under js only its name is asked for.\ntype Handler struct{}\n"
	for _, name := range []string{"clientResourceResolver", "remoteLocation", "webLocation"} {
		body, err := function(string(text), name)
		if err != nil {
			return err
		}
		rest += "\n" + body
	}
	return os.WriteFile(filepath.Join(dir, "server_js.go"), []byte(rest), 0o644)
}

// function is the text of a top-level function.
func function(text, name string) (string, error) {
	from := strings.Index(text, "\nfunc "+name+"(")
	if from < 0 {
		return "", fmt.Errorf("no function %s in resource.go", name)
	}
	length := strings.Index(text[from:], "\n}\n")
	if length < 0 {
		return "", fmt.Errorf("no end of function %s in resource.go", name)
	}
	return text[from+1 : from+length+3], nil
}

// modfile writes the go.mod that takes the copy. It names the copy from where
// go.mod is: the name goes into the program, which must not tell of the machine
// that built it, nor differ from one to the next.
func modfile(folder, to string) error {
	root, err := os.Getwd()
	if err != nil {
		return err
	}
	to, err = filepath.Rel(root, to)
	if err != nil {
		return err
	}
	if to = filepath.ToSlash(to); !strings.HasPrefix(to, "../") {
		to = "./" + to
	}
	mod, err := os.ReadFile("go.mod")
	if err != nil {
		return err
	}
	sum, err := os.ReadFile("go.sum")
	if err != nil {
		return err
	}
	mod = append(mod, []byte(fmt.Sprintf("\nreplace %s => %q\n", module, to))...)
	if err := os.WriteFile(filepath.Join(folder, "browser.mod"), mod, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "browser.sum"), sum, 0o644)
}
