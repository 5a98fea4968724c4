// Command sources writes, on standard output, whose work Keelroom is made
// of: the licence texts of Go and of every module that the app or the native
// program links, of the vendored scripts, and the attributions of the tide stations.
//
// usage: sources WEB-FOLDER
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"keelroom/hazards/tide"
	"keelroom/hazards/tide/stationdata"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: sources WEB-FOLDER")
		os.Exit(2)
	}
	if err := run(os.Stdout, os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "sources:", err)
		os.Exit(1)
	}
}

func run(out io.Writer, web string) error {
	var b bytes.Buffer
	fmt.Fprintln(&b, "Keelroom: sources and licences")
	for _, add := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return licence(b, "Keelroom", filepath.Join(web, "..")) },
		goItself, modules,
		func(b *bytes.Buffer) error { return vendored(b, filepath.Join(web, "vendor")) },
		stations,
	} {
		if err := add(&b); err != nil {
			return err
		}
	}
	_, err := out.Write(b.Bytes())
	return err
}

// goItself is Go with its library, and the time zones that come with it, which
// are in the public domain.
func goItself(b *bytes.Buffer) error {
	if err := licence(b, "Go and its standard library, "+runtime.Version(), runtime.GOROOT()); err != nil {
		return err
	}
	heading(b, "Time zones: the IANA Time Zone Database")
	fmt.Fprintln(b, "In the public domain (https://www.iana.org/time-zones), as it comes with Go.")
	return nil
}

// module is what the go command says of one.
type module struct {
	Path, Version, Dir string
	Main               bool
}

// builds are the two programs made of package wasm, as settings of the go command:
// the app for the browser, and the native one that carries it, serves it and
// packs it.
var builds = [][]string{{"GOOS=js", "GOARCH=wasm"}, {"GOOS=" + runtime.GOOS, "GOARCH=" + runtime.GOARCH}}

// linked lists the modules that the two programs link, each once.
func linked() (list []module, err error) {
	for _, build := range builds {
		more, err := linkedBy(build)
		if err != nil {
			return nil, err
		}
		for _, m := range more {
			if !slices.ContainsFunc(list, func(o module) bool { return o.Path == m.Path }) {
				list = append(list, m)
			}
		}
	}
	return list, nil
}

// linkedBy lists the module of each package that one program links.
func linkedBy(build []string) (list []module, err error) {
	cmd := exec.Command("go", "list", "-deps", "-json=Module", "./wasm")
	cmd.Env = append(os.Environ(), build...)
	cmd.Stderr = os.Stderr
	text, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	for d := json.NewDecoder(bytes.NewReader(text)); ; {
		var p struct{ Module *module }
		switch err := d.Decode(&p); {
		case errors.Is(err, io.EOF):
			return list, nil
		case err != nil:
			return nil, err
		}
		if p.Module != nil && !p.Module.Main {
			list = append(list, *p.Module)
		}
	}
}

func modules(b *bytes.Buffer) error {
	list, err := linked()
	if err != nil {
		return err
	}
	slices.SortFunc(list, func(x, y module) int { return strings.Compare(x.Path, y.Path) })
	for _, m := range list {
		if err := licence(b, m.Path+" "+m.Version, m.Dir); err != nil {
			return err
		}
	}
	return nil
}

func vendored(b *bytes.Buffer, folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	for _, e := range entries {
		dir := filepath.Join(folder, e.Name())
		about, err := os.ReadFile(filepath.Join(dir, "README.md"))
		if err != nil {
			return err
		}
		title, _, _ := strings.Cut(strings.TrimPrefix(string(about), "# "), "\n")
		if err := licence(b, title, dir); err != nil {
			return err
		}
	}
	return nil
}

// stations are the attributions of the tide stations, which must be shown.
func stations(b *bytes.Buffer) error {
	list, err := tide.LoadStations(stationdata.Bytes)
	if err != nil {
		return err
	}
	heading(b, fmt.Sprintf("Tide stations: harmonic constituents of %d stations", list.Len()))
	for _, a := range list.Attributions() {
		fmt.Fprintln(b, a)
	}
	return nil
}

// licence writes the licence files of a folder; one without any is an error.
func licence(b *bytes.Buffer, name, dir string) error {
	found := false
	heading(b, name)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	for _, e := range entries {
		upper := strings.ToUpper(e.Name())
		if e.IsDir() || !(strings.HasPrefix(upper, "LICEN") || strings.HasPrefix(upper, "COPYING") || strings.HasPrefix(upper, "NOTICE") || strings.HasPrefix(upper, "PATENTS")) {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return err
		}
		fmt.Fprintf(b, "%s\n", bytes.TrimSpace(text))
		found = true
	}
	if !found {
		return fmt.Errorf("%s: no licence in its folder: %w", name, fs.ErrNotExist)
	}
	return nil
}

func heading(b *bytes.Buffer, name string) {
	fmt.Fprintf(b, "\n\n%s\n%s\n\n", name, strings.Repeat("=", len(name)))
}
