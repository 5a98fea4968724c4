//go:build !js

package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// runSite writes the app as static files.
func runSite(args []string, _, diag io.Writer) error {
	f := flags("site")
	base := f.String("base", "/", "the path that the host serves the folder at")
	if err := f.Parse(args); err != nil {
		return err
	}
	if f.NArg() != 1 {
		return fmt.Errorf("%d folders after the flags; one is wanted", f.NArg())
	}
	b, err := newBundle(appFiles, *base, true)
	if err != nil {
		return err
	}
	tidied, err := b.write(f.Arg(0))
	if err != nil {
		return err
	}
	fmt.Fprintf(diag, "%s: build %s, %d files, to be served at %s\n%s", f.Arg(0), b.version, len(b.assets), b.base, tidied)
	return nil
}

// write writes the bundle into a folder: the page and the service worker, which
// name the other files, last, so that nobody is sent to what is not there yet.
// Then it takes away what earlier versions left, and tells of them.
func (b *bundle) write(folder string) (tidied string, err error) {
	if err := checkFolder(folder); err != nil {
		return "", err
	}
	list, err := readSiteList(folder)
	if err != nil {
		return "", err
	}
	// Listed before it is written: what is broken off is known to the next time.
	list.add(b)
	if err := list.write(folder); err != nil {
		return "", err
	}
	last := []string{indexPath, workerPath}
	first := slices.DeleteFunc(b.names(), func(name string) bool { return slices.Contains(last, name) })
	for _, name := range slices.Concat(first, last) {
		if err := writeFile(filepath.Join(folder, filepath.FromSlash(name)), b.assets[name].plain); err != nil {
			return "", err
		}
	}
	return list.tidy(folder)
}

// checkFolder wants a folder that is new, empty, or holds the app already.
func checkFolder(folder string) error {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	holds := func(name string) bool {
		return slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == name })
	}
	before := holds(workerPath) && holds(indexPath) && holds("wasm_exec.js") // written when there was no list yet
	if len(entries) > 0 && !before && !holds(siteListName) {
		return fmt.Errorf("%s is not empty and holds no Keelroom; a new or empty folder is wanted", folder)
	}
	return nil
}

// writeFile writes a file whole or not at all.
func writeFile(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	beside := path + ".new"
	if err := os.WriteFile(beside, data, 0o644); err != nil {
		return err
	}
	if err := os.Rename(beside, path); err != nil {
		_ = os.Remove(beside)
		return err
	}
	return nil
}
