package enc

import (
	"errors"
	"fmt"
	"hash/crc32"
	"path"
	"strconv"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/library"
)

// listed is a file that the catalogue of an exchange set lists.
type listed struct {
	path string // with slashes, in upper case
	crc  string // hexadecimal, may be empty
}

// checkCatalogues compares the files with the catalogues among them and leaves
// out those whose bytes are not as listed: nothing else guards a position
// against a flipped bit.
func (j *job) checkCatalogues(files []given) ([]given, error) {
	byName := map[string][]int{}
	for i, f := range files {
		name := path.Base(plainPath(f.Name))
		byName[name] = append(byName[name], i)
	}
	damaged := map[int]bool{}
	for _, c := range files {
		if KindOf(c.File) != Catalogue {
			continue
		}
		entries, err := readCatalogue(c.Data)
		if err != nil {
			j.refuse(library.BaseName(c.Name), err)
			continue
		}
		for _, e := range entries {
			if err := j.between(); err != nil {
				return nil, err
			}
			for _, at := range j.compare(files, byName[path.Base(e.path)], e, c) {
				damaged[at] = true
			}
		}
	}
	kept := make([]given, 0, len(files))
	for i, f := range files {
		if !damaged[i] {
			kept = append(kept, f)
		}
	}
	return kept, nil
}

// compare says which files are not as listed, of those with the name that may be
// meant. A cell file that is listed and not there is a warning.
func (j *job) compare(files []given, named []int, e listed, catalogue given) (bad []int) {
	if !library.NamesCellFile(e.path) {
		return nil
	}
	folder, found := folderOf(catalogue.Name), false
	want, err := strconv.ParseUint(e.crc, 16, 32)
	for _, at := range named {
		if files[at].archive != catalogue.archive || !samePath(files[at].Name, folder, e.path) {
			continue
		}
		found = true
		got := crc32.ChecksumIEEE(files[at].Data)
		if e.crc == "" || err == nil && uint32(want) == got {
			files[at].proved = files[at].proved || e.crc != ""
			continue
		}
		bad = append(bad, at)
		j.refuse(library.BaseName(files[at].Name), &fault{"E-CRC", "", fmt.Sprintf("bytes with the CRC-32 %08X", got), e.crc + ", as the catalogue states: the file is damaged or another"})
	}
	if !found {
		j.say(chart.Message{Level: chart.Warning, Code: "W-CATALOG", File: path.Base(e.path), Found: e.path + ", listed in " + library.BaseName(catalogue.Name) + ", is not there", Wanted: "all files of the exchange set"})
	}
	return bad
}

// samePath reports whether a file is the one that a catalogue in a folder lists: by its
// path from there, or from the folder above, which is the root of the medium; or
// beside the catalogue, where files came without their folders.
func samePath(name, folder, want string) bool {
	name = plainPath(name)
	return name == path.Join(folder, want) || name == path.Join(folder, path.Base(want)) || folder != "." && name == path.Join(path.Dir(folder), want)
}

// plainPath is a path with slashes, in upper case, without what browsers write into
// the name of a second copy: "US5XX11M (1).000".
func plainPath(name string) string {
	name = strings.ToUpper(strings.ReplaceAll(name, `\`, "/"))
	extension := path.Ext(name)
	if i := strings.LastIndex(name, " ("); i > strings.LastIndex(name, "/") && strings.HasSuffix(name, ")"+extension) {
		name = name[:i] + extension
	}
	return path.Clean(name)
}

func folderOf(name string) string {
	return path.Dir(strings.ToUpper(strings.ReplaceAll(name, `\`, "/")))
}

// readCatalogue reads the entries of CATALOG.031 (S-57 Part 3, 7.4; ENC Product
// Specification, 5.6.3: its subfields are text).
func readCatalogue(data []byte) (list []listed, err error) {
	c := container{data: data}
	if err := c.descriptive(); err != nil {
		return nil, err
	}
	for {
		ok, err := c.next()
		if err != nil || !ok {
			return list, err
		}
		f, ok := c.field("CATD")
		if !ok || !c.known["CATD"] {
			return nil, broken(c.place("CATD"), "nothing", "an entry of the catalogue")
		}
		e, err := entryOfCatalogue(f)
		if err != nil {
			return nil, broken(c.place("CATD"), err.Error(), "RCNM CD and 11 more subfields")
		}
		list = append(list, e)
	}
}

func entryOfCatalogue(f field) (e listed, err error) {
	c := cursorOf(f)
	kind := c.fixed(2)
	c.fixed(10) // RCID
	e.path = strings.ToUpper(path.Clean(strings.ReplaceAll(latin(c.text()), `\`, "/")))
	c.text() // LFIL
	c.text() // VOLM
	c.fixed(3)
	for range 4 {
		c.text() // the box
	}
	e.crc = strings.TrimSpace(c.text())
	c.text() // COMT
	if !c.done() || kind != "CD" {
		return e, errors.New("subfields of another length")
	}
	return e, nil
}
