package enc

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// given is a file as it was given.
type given struct {
	layer.File
	archive int  // that it was in, 0 none
	proved  bool // its bytes are as a catalogue states
}

// unpack replaces archives by the cells and catalogues in them. What an archive
// says about sizes is not believed: what comes out is counted.
func (j *job) unpack(files []layer.File) (out []given, err error) {
	looked := 0
	for i, f := range files {
		if looked++; KindOf(f) != Archive {
			j.room -= len(f.Data)
			out = append(out, given{File: f})
			continue
		}
		inside, err := j.archive(f, &looked)
		if err != nil {
			return nil, err
		}
		for _, f := range inside {
			out = append(out, given{File: f, archive: i + 1})
		}
	}
	if j.room < 0 || looked > MaxFiles {
		j.say(chart.Message{Level: chart.FileError, Code: "E-SIZE", Found: "more than is read at once",
			Wanted: fmt.Sprintf("%d bytes in %d files or fewer, unpacked", MaxBytes, MaxFiles)})
		return nil, nil
	}
	return out, nil
}

// archive unpacks what of an archive is a cell, an update or a catalogue. The
// error is that of between.
func (j *job) archive(f layer.File, looked *int) (out []layer.File, err error) {
	name := baseName(f.Name)
	z, err := zip.NewReader(bytes.NewReader(f.Data), int64(len(f.Data)))
	if err != nil {
		j.refuse(name, &fault{"E-ZIP", "", "an archive that cannot be read: " + err.Error(), "a whole zip file"})
		return nil, nil
	}
	if *looked += len(z.File); *looked > MaxFiles {
		return nil, nil
	}
	for _, entry := range z.File {
		if err := j.between(); err != nil {
			return nil, err
		}
		if namesArchive(entry.Name) {
			j.say(chart.Message{Level: chart.Warning, Code: "W-ZIP", File: name, Path: entry.Name, Found: "an archive within the archive, which is not looked into", Wanted: "files of cells; unpack it first"})
			continue
		}
		named := wantedName(entry.Name)
		if !named && !numbered(entry.Name) && !(j.papers && NamesPaper(entry.Name) && entry.UncompressedSize64 <= mostPaper) {
			continue
		}
		data, why := j.extract(entry)
		if why != nil {
			if said := why.message(chart.FileError, name); cellName(entry.Name) { // it belongs to its cell
				said.File, said.Path = baseName(entry.Name), "in "+name
				j.say(said)
			} else {
				j.say(said)
			}
			continue
		}
		if !named && numbered(entry.Name) && !Holds(data) {
			continue
		}
		out = append(out, layer.File{Name: entry.Name, Data: data})
	}
	if !slices.ContainsFunc(out, func(f layer.File) bool { return !NamesPaper(f.Name) }) {
		j.refuse(name, &fault{"E-ZIP", "", "an archive without a cell", "files such as US5XX11M.000 in it"})
	}
	return out, nil
}

// wantedName tells a cell, an update or a catalogue by its name.
func wantedName(name string) bool {
	return cellName(name) || strings.EqualFold(baseName(name), CatalogueName)
}

// CatalogueName is how the catalogue of an exchange set is called.
const CatalogueName = "CATALOG.031"

// extract unpacks one entry, no more than there is room for.
func (j *job) extract(entry *zip.File) ([]byte, *fault) {
	const locked = 1 // the flag of an entry with a password (APPNOTE 4.4.4)
	if entry.Flags&locked != 0 {
		return nil, &fault{"E-LOCKED", entry.Name, "an entry with a password", "an archive without"}
	}
	r, err := entry.Open()
	if err != nil {
		return nil, &fault{"E-ZIP", entry.Name, err.Error(), "an entry that can be unpacked"}
	}
	defer r.Close()
	most := min(j.room, layer.MaxBytes)
	data, err := io.ReadAll(io.LimitReader(r, int64(most)+1))
	switch {
	case len(data) > most:
		return nil, &fault{"E-SIZE", entry.Name, fmt.Sprintf("more than %d bytes", most), fmt.Sprintf("%d or fewer in a file, %d in all", layer.MaxBytes, MaxBytes)}
	case err != nil:
		return nil, &fault{"E-ZIP", entry.Name, err.Error(), "an entry that can be unpacked"}
	}
	j.room -= len(data)
	return data, nil
}
