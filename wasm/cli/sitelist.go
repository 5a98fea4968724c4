//go:build !js

package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// siteListName is the list that site keeps of what it has written into a folder.
const siteListName = "keelroom-site.json"

// siteList are the builds in a folder, the newest last. Only what is listed is
// ever removed, and only while it is as it was written.
type siteList struct {
	Builds []siteBuild `json:"builds"`
}

// siteBuild is one of them, with the SHA-256 of each of its files by its path.
// Whole is false of one whose writing was broken off.
type siteBuild struct {
	Build string            `json:"build"`
	Whole bool              `json:"whole"`
	Files map[string]string `json:"files"`
}

// readSiteList reads the list of a folder, which is empty where there is none.
func readSiteList(folder string) (list siteList, err error) {
	at := filepath.Join(folder, siteListName)
	text, err := os.ReadFile(at)
	if errors.Is(err, fs.ErrNotExist) {
		return list, nil
	}
	if err != nil {
		return list, err
	}
	if err := json.Unmarshal(text, &list); err != nil {
		return list, fmt.Errorf("%s is no list of builds, so nothing was written: %w; a new or empty folder is wanted", at, err)
	}
	return list, nil
}

func (l *siteList) write(folder string) error {
	text, err := json.MarshalIndent(l, "", " ")
	if err != nil {
		return err
	}
	return writeFile(filepath.Join(folder, siteListName), append(text, '\n'))
}

// add makes a bundle the newest build.
func (l *siteList) add(b *bundle) {
	l.Builds = slices.DeleteFunc(l.Builds, func(o siteBuild) bool { return o.Build == b.version })
	files := map[string]string{}
	for name, a := range b.parts {
		files[folderOf(b.version)+name] = a.hash()
	}
	l.Builds = append(l.Builds, siteBuild{b.version, false, files})
}

// tidy notes that the newest build is whole and removes all others but the one
// before it, whose page may be open or on its way to somebody, also out of a cache
// between the host and the reader. It tells what it did.
func (l *siteList) tidy(folder string) (told string, err error) {
	root, err := os.OpenRoot(folder) // nothing outside is reached, whatever the list says
	if err != nil {
		return "", err
	}
	defer root.Close()
	last := len(l.Builds) - 1
	l.Builds[last].Whole = true
	var words strings.Builder
	stay := []siteBuild{l.Builds[last]}
	for _, one := range slices.Backward(l.Builds[:last]) {
		if one.Whole && len(stay) == 1 {
			stay = append(stay, one)
			fmt.Fprintf(&words, "build %s stays for those who have its page open, until the next build is written\n", one.Build)
			continue
		}
		n, err := one.remove(root)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&words, "build %s is removed: %d of its %d files\n", one.Build, n, len(one.Files))
	}
	slices.Reverse(stay)
	l.Builds = stay
	return words.String(), l.write(folder)
}

// remove removes the files of a build that are as they were written, and the
// folders that are empty then.
func (s siteBuild) remove(root *os.Root) (n int, err error) {
	folders := map[string]bool{}
	for name, sum := range s.Files {
		if path.Clean(name) != name || !strings.HasPrefix(name, folderOf(s.Build)) || !holdsStill(root, name, sum) {
			continue
		}
		if err := root.Remove(filepath.FromSlash(name)); err != nil {
			return n, err
		}
		n++
		for up := path.Dir(name); up != "."; up = path.Dir(up) {
			folders[up] = true
		}
	}
	for _, name := range deepestFirst(folders) {
		_ = root.Remove(filepath.FromSlash(name)) // one with other things in it stays
	}
	return n, nil
}

func deepestFirst(folders map[string]bool) (names []string) {
	for name := range folders {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int { return strings.Count(b, "/") - strings.Count(a, "/") })
	return names
}

// holdsStill says whether a file is a plain one with these bytes.
func holdsStill(root *os.Root, name, sum string) bool {
	info, err := root.Lstat(filepath.FromSlash(name))
	if err != nil || !info.Mode().IsRegular() {
		return false
	}
	f, err := root.Open(filepath.FromSlash(name))
	if err != nil {
		return false
	}
	defer f.Close()
	h := sha256.New()
	_, err = io.Copy(h, f)
	return err == nil && hex.EncodeToString(h.Sum(nil)) == sum
}
