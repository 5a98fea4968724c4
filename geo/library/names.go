package library

import (
	"path"
	"slices"
	"strconv"
	"strings"
)

// CatalogueName is how the catalogue of an exchange set is called.
const CatalogueName = "CATALOG.031"

// CancelFolder stands before the name of an update that cancels a cell: it may have
// the number of another.
const CancelFolder = "cancelled/"

// BaseName is the name of a file without its folders, whichever way they are written.
func BaseName(file string) string { return file[strings.LastIndexAny(file, `/\`)+1:] }

// NamesCellFile says whether a file is named as a cell or an update is: eight letters
// and digits, a dot, three digits (ENC Product Specification, 5.6.3).
func NamesCellFile(name string) bool {
	stem, extension, ok := strings.Cut(BaseName(name), ".")
	return ok && len(stem) == 8 && isNumber(extension) && !strings.ContainsFunc(stem, func(r rune) bool {
		return !(r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r == '_')
	})
}

// NamesCell says whether a file is named as a cell, an update, a catalogue or an
// archive is. Folders before the name do not matter.
func NamesCell(name string) bool {
	return NamesCellFile(name) || NamesCatalogue(name) || NamesArchive(name)
}

// NamesCatalogue says whether a file is named as the catalogue of an exchange set.
func NamesCatalogue(name string) bool { return strings.EqualFold(BaseName(name), CatalogueName) }

// NamesArchive says whether a file is named as a zip is.
func NamesArchive(name string) bool { return extension(name) == ".zip" }

// NamesNumbered says whether a name ends as those of cells do, whatever stands before,
// such as a copy called "US5XX11M (1).000".
func NamesNumbered(name string) bool { return isNumber(strings.TrimPrefix(extension(name), ".")) }

// NamesText says whether a file is named as the texts are that come with cells: the
// producer's terms, and what objects refer to with TXTDSC.
func NamesText(name string) bool { return extension(name) == ".txt" }

// NamesLayer says whether a file is named as a GeoJSON layer is.
func NamesLayer(name string) bool {
	e := extension(name)
	return e == ".geojson" || e == ".json"
}

// NamesOtherProduct says whether a file is named as a data set of the products that
// exchange sets of the S-100 family carry beside charts: HDF5 (S-102, S-104, S-111) and
// GML (S-122 to S-129).
func NamesOtherProduct(name string) bool {
	return slices.Contains([]string{".h5", ".hdf5", ".gml"}, extension(name))
}

func extension(name string) string { return strings.ToLower(path.Ext(BaseName(name))) }

// isNumber says whether an extension is the number of an update: three digits.
func isNumber(extension string) bool {
	return len(extension) == 3 && strings.Trim(extension, "0123456789") == ""
}

// CellOf is the cell that a file belongs to by its name, "" for an archive, a catalogue
// or a layer.
func CellOf(file string) string {
	name := BaseName(file)
	stem, extension, _ := strings.Cut(name, ".")
	stem, _, _ = strings.Cut(stem, " (") // a second copy, as browsers call it
	if _, err := strconv.Atoi(extension); err != nil || NamesCatalogue(name) {
		return ""
	}
	return strings.ToUpper(stem)
}

// NumberOf is the number of an update by the name of its file, 0 for a base.
func NumberOf(file string) int { return Number(strings.TrimPrefix(path.Ext(file), ".")) }

// OneCell is the cell that all files belong to by their names, and whether some of them
// must be looked into to know: there are archives, catalogues or several cells.
func OneCell(files []File) (cell string, mixed bool) {
	for _, f := range files {
		if NamesText(f.Name) {
			continue
		}
		of := CellOf(f.Name)
		mixed = mixed || of == "" && NamesCell(f.Name) || cell != "" && of != cell
		cell = of
	}
	return cell, mixed
}

// HasBase says whether the base of a cell is among its files.
func HasBase(files []File) bool {
	return slices.ContainsFunc(files, func(f File) bool { return CellOf(f.Name) != "" && NumberOf(f.Name) == 0 })
}

// waitingName is how an update is called that is kept for a base that is not there: in
// a folder called after its edition, as another edition may have the same number.
func waitingName(f CellFile) string {
	if f.Role == Cancellation {
		return f.Name
	}
	return strings.TrimSpace(f.Edition) + "/" + BaseName(f.Name)
}

// Waits says by the name of a stored file whether it waits for its base, and is no part
// of the chart yet.
func Waits(name string) bool {
	return strings.Contains(name, "/") && !cancels(name)
}

// cancels says by the name of a stored file whether it cancels the cell.
func cancels(name string) bool { return strings.HasPrefix(name, CancelFolder) }

// editionOf is the edition that a waiting file is of, by its folder.
func editionOf(name string) int { return Number(path.Dir(name)) }
