package enc

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/geo/library"
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
	name := library.BaseName(f.Name)
	z, err := zip.NewReader(bytes.NewReader(f.Data), int64(len(f.Data)))
	if err != nil {
		j.refuse(name, &fault{"E-ZIP", "", "an archive that cannot be read: " + err.Error(), "a whole zip file"})
		return nil, nil
	}
	if *looked += len(z.File); *looked > MaxFiles {
		return nil, nil
	}
	entries := j.wanted(name, z.File)
	if why := j.tooMuch(entries); why != nil {
		j.refuse(name, why)
		return nil, nil
	}
	for _, entry := range entries {
		data, err := j.entry(name, entry)
		if err != nil {
			return nil, err
		}
		if data != nil {
			out = append(out, layer.File{Name: entry.Name, Data: data})
		}
	}
	if !slices.ContainsFunc(out, func(f layer.File) bool { return !library.NamesText(f.Name) }) {
		j.refuse(name, &fault{"E-ZIP", "", "an archive without a cell", "files such as US5XX11M.000 in it"})
	}
	return out, nil
}

// wanted are the entries that are unpacked.
func (j *job) wanted(archive string, entries []*zip.File) (out []*zip.File) {
	for _, entry := range entries {
		switch name := entry.Name; {
		case library.NamesArchive(name):
			j.say(chart.Message{Level: chart.Warning, Code: "W-ZIP", File: archive, Path: name, Found: "an archive within the archive, which is not looked into", Wanted: "files of cells; unpack it first"})
		case library.NamesOtherProduct(name):
			j.passOver(library.BaseName(name), "in "+archive)
		case wantedName(name), library.NamesNumbered(name), j.apart && library.NamesText(name) && entry.UncompressedSize64 <= MaxText:
			out = append(out, entry)
		}
	}
	return out
}

// tooMuch says why none of some entries is unpacked: they share bytes, as only
// archives made to do harm have it, or state more bytes than there is room for. It
// costs no more than their directory.
func (j *job) tooMuch(entries []*zip.File) *fault {
	type extent struct{ from, to int64 }
	var extents []extent
	stated := uint64(0)
	for _, entry := range entries {
		stated += min(entry.UncompressedSize64, MaxBytes+1) // so that the sum stays a number
		if from, err := entry.DataOffset(); err == nil && entry.CompressedSize64 > 0 {
			extents = append(extents, extent{from, from + int64(min(entry.CompressedSize64, 1<<62))})
		}
	}
	slices.SortFunc(extents, func(a, b extent) int { return cmp.Compare(a.from, b.from) })
	for i := 1; i < len(extents); i++ {
		if extents[i].from < extents[i-1].to {
			return &fault{"E-ZIP", "", "entries that share bytes of the archive", "an archive in which each has its own"}
		}
	}
	if len(entries) > 1 && stated > uint64(max(j.room, 0)) {
		return &fault{"E-SIZE", "", fmt.Sprintf("entries that state %d bytes, unpacked", stated), fmt.Sprintf("%d or fewer in all", MaxBytes)}
	}
	return nil
}

// entry unpacks one entry; nil is one that could not be, which is reported, or is no
// cell. The error is that of between.
func (j *job) entry(archive string, entry *zip.File) ([]byte, error) {
	if !wantedName(entry.Name) && library.NamesNumbered(entry.Name) {
		head, why, err := j.extract(entry, headBytes)
		if err != nil || why == nil && !Holds(head) {
			return nil, err
		}
	}
	data, why, err := j.extract(entry, 0)
	if err != nil || why == nil {
		return data, err
	}
	m := why.message(chart.FileError, archive)
	if library.NamesCellFile(entry.Name) { // it belongs to its cell
		m.File, m.Path = library.BaseName(entry.Name), "in "+archive
	}
	j.say(m)
	return nil, nil
}

// headBytes are enough to know what a file is.
const headBytes = 512

// wantedName accepts a cell, an update or a catalogue by its name.
func wantedName(name string) bool { return library.NamesCellFile(name) || library.NamesCatalogue(name) }

// extract unpacks one entry, or its first bytes, no more than it states and there
// is room for. All that comes out is charged, also of what turns out to be wrong.
// The error is that of between.
func (j *job) extract(entry *zip.File, first int) (data []byte, why *fault, err error) {
	const locked = 1 // the flag of an entry with a password (APPNOTE 4.4.4)
	if entry.Flags&locked != 0 {
		return nil, &fault{"E-LOCKED", entry.Name, "an entry with a password", "an archive without"}, nil
	}
	most := min(j.room, layer.MaxBytes)
	if entry.UncompressedSize64 > uint64(max(most, 0)) {
		return nil, tooLong(entry, most), nil
	}
	r, err := entry.Open()
	if err != nil {
		return nil, &fault{"E-ZIP", entry.Name, err.Error(), "an entry that can be unpacked"}, nil
	}
	defer r.Close()
	size := int(entry.UncompressedSize64)
	if first > 0 {
		size = min(size, first)
	}
	data, failed, err := j.inflate(r, size, first == 0)
	switch {
	case err != nil:
		return nil, nil, err
	case failed != nil:
		return nil, &fault{"E-ZIP", entry.Name, failed.Error(), "an entry that can be unpacked"}, nil
	}
	return data, nil, nil
}

func tooLong(entry *zip.File, most int) *fault {
	return &fault{"E-SIZE", entry.Name, fmt.Sprintf("more than %d bytes", most), fmt.Sprintf("%d or fewer in a file, %d in all", layer.MaxBytes, MaxBytes)}
}

// inflatedAtOnce is how many bytes are unpacked without a rest: a few milliseconds.
const inflatedAtOnce = 1 << 18

var errLonger = errors.New("more bytes than the archive states")

// inflate reads so many bytes, all of them if it is to the end: then the reader must
// end there, and its sum be right.
func (j *job) inflate(r io.Reader, size int, toEnd bool) (data []byte, failed, err error) {
	data = make([]byte, 0, min(size, inflatedAtOnce)+1)
	for len(data) < size && failed == nil {
		data = slices.Grow(data, min(size-len(data), max(inflatedAtOnce, len(data)))) // as append grows: what is stated is not believed
		n := 0
		n, failed = io.ReadFull(r, data[len(data):min(size, len(data)+inflatedAtOnce)])
		data = data[:len(data)+n]
		j.charge(n)
		if err := j.between(); err != nil {
			return nil, nil, err
		}
	}
	if failed == nil && toEnd {
		var one [1]byte
		n, end := r.Read(one[:])
		j.charge(n)
		if n > 0 {
			failed = errLonger
		} else if end != io.EOF {
			failed = end
		}
	}
	return data, failed, nil
}

// charge takes bytes that came out of an archive from the room, and reports how far
// unpacking is.
func (j *job) charge(n int) {
	j.room -= n
	j.unpacked += n
	if j.progress != nil {
		j.progress(j.unpacked)
	}
}
