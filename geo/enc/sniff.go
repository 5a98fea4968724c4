package enc

import (
	"bytes"

	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// Kind is what a file looks like to this package.
type Kind uint8

// The kinds. Locked is a file named like a cell that is no container: an
// encrypted cell or a damaged one.
const (
	Other Kind = iota
	CellFile
	Catalogue
	Archive
	Locked
)

// KindOf says what a file is by its first bytes, and by its name where they
// are not enough.
func KindOf(f layer.File) Kind {
	switch {
	case library.NamesArchive(f.Name) || bytes.HasPrefix(f.Data, []byte("PK\x03\x04")) || bytes.HasPrefix(f.Data, []byte("PK\x05\x06")):
		return Archive
	case library.NamesCatalogue(f.Name) || looksLikeLeader(f.Data) && isCatalogue(f.Data):
		return Catalogue
	case looksLikeLeader(f.Data):
		return CellFile
	case library.NamesCellFile(f.Name) && !looksLikeText(f.Data):
		return Locked
	}
	return Other
}

// Is reports whether a file is for this package to decode, or to refuse in plain
// words.
func Is(f layer.File) bool { return KindOf(f) != Other }

// looksLikeLeader reports whether a file begins as ISO/IEC 8211 does.
func looksLikeLeader(b []byte) bool {
	if len(b) < leaderLength || b[6] != 'L' {
		return false
	}
	_, ok1 := digits(b[:5])
	_, ok2 := digits(b[12:17])
	_, ok3 := digits(b[20:24])
	return ok1 && ok2 && ok3
}

// isCatalogue looks for the field of a catalogue in the descriptive record.
func isCatalogue(b []byte) bool {
	start := b[:min(len(b), 4096)]
	return bytes.Contains(start, []byte("CATD")) && !bytes.Contains(start, []byte("FRID"))
}

// looksLikeText tells a layer file from an encrypted cell, whatever its name.
func looksLikeText(b []byte) bool {
	b = bytes.TrimLeft(bytes.TrimPrefix(b, []byte("\xEF\xBB\xBF")), " \t\r\n")
	return len(b) > 0 && (b[0] == '{' || b[0] == '[')
}

// Holds reports whether a file whose name says nothing is for this package all the
// same, such as a copy called "US5XX11M (1).000". Its first bytes are enough.
func Holds(data []byte) bool { return KindOf(layer.File{Data: data}) != Other }
