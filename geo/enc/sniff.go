package enc

import (
	"bytes"
	"path"
	"strings"

	"keelroom/geo/layer"
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

// KindOf tells what a file is by its first bytes, and by its name where they
// are not enough.
func KindOf(f layer.File) Kind {
	switch {
	case namesArchive(f.Name) || bytes.HasPrefix(f.Data, []byte("PK\x03\x04")) || bytes.HasPrefix(f.Data, []byte("PK\x05\x06")):
		return Archive
	case strings.EqualFold(baseName(f.Name), CatalogueName) || looksLikeLeader(f.Data) && isCatalogue(f.Data):
		return Catalogue
	case looksLikeLeader(f.Data):
		return CellFile
	case cellName(f.Name) && !looksLikeText(f.Data):
		return Locked
	}
	return Other
}

// Is tells whether a file is for this package to decode, or to refuse in plain
// words.
func Is(f layer.File) bool { return KindOf(f) != Other }

// looksLikeLeader tells whether a file begins as ISO/IEC 8211 does.
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

// cellName tells whether a file is named as a cell or an update is: eight
// letters and digits, a dot, three digits (ENC Product Specification, 5.6.3).
func cellName(name string) bool {
	stem, extension, ok := strings.Cut(baseName(name), ".")
	if !ok || len(stem) != 8 || len(extension) != 3 {
		return false
	}
	_, ok = digits([]byte(extension))
	return ok && !strings.ContainsFunc(stem, func(r rune) bool {
		return !(r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r == '_')
	})
}

// NamesCell tells whether a file is named as a cell, an update, a catalogue or an
// archive is. Folders before the name do not matter.
func NamesCell(name string) bool {
	return wantedName(name) || namesArchive(name)
}

// numbered tells a file whose name ends as those of cells do, whatever stands before,
// such as a copy called "US5XX11M (1).000".
func numbered(name string) bool {
	extension := path.Ext(baseName(name))
	if len(extension) != 4 {
		return false
	}
	_, ok := digits([]byte(extension[1:]))
	return ok
}

func namesArchive(name string) bool { return strings.EqualFold(path.Ext(baseName(name)), ".zip") }

// NamesPaper tells whether a file is named as the texts are that come with cells: the
// producer's terms, and what objects refer to with TXTDSC.
func NamesPaper(name string) bool { return strings.EqualFold(path.Ext(baseName(name)), ".txt") }

// Holds tells whether a file whose name says nothing is for this package all the
// same, such as a copy called "US5XX11M (1).000". Its first bytes are enough.
func Holds(data []byte) bool { return KindOf(layer.File{Data: data}) != Other }

// NamesLayer tells whether a file is named as a GeoJSON layer is.
func NamesLayer(name string) bool {
	extension := path.Ext(baseName(name))
	return strings.EqualFold(extension, ".geojson") || strings.EqualFold(extension, ".json")
}
