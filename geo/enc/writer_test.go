package enc

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"

	"keelroom/geo/layer"
)

// writer makes cells of invented waters: what real cells lack, and what is
// wrong on purpose. It knows ISO/IEC 8211 and S-57 from the standards, not from
// the reader's code.
type writer struct {
	buf     bytes.Buffer
	records int

	entryMap    string // of data records, "2204" where empty
	longRecords bool   // write 00000 for every record's length
}

// part is one field of a record, its terminator included.
type part struct {
	tag  string
	data []byte
}

// le writes numbers little endian: of int8-like kinds by the format b11, b12,
// b14, b24.
func le(format string, values ...int) []byte {
	var out []byte
	for i, f := range strings.Fields(format) {
		switch v := values[i]; f {
		case "1":
			out = append(out, byte(v))
		case "2":
			out = binary.LittleEndian.AppendUint16(out, uint16(v))
		default:
			out = binary.LittleEndian.AppendUint32(out, uint32(v))
		}
	}
	return out
}

func fieldOf(tag string, data ...[]byte) part {
	return part{tag, append(bytes.Join(data, nil), 0x1E)}
}

// record writes one record.
func (w *writer) record(kind byte, parts ...part) {
	entries := w.entryMap
	if entries == "" {
		entries = "6604"
	}
	size, place := int(entries[0]-'0'), int(entries[1]-'0')
	var directory, area bytes.Buffer
	for _, p := range parts {
		fmt.Fprintf(&directory, "%s%0*d%0*d", p.tag, size, len(p.data), place, area.Len())
		area.Write(p.data)
	}
	directory.WriteByte(0x1E)
	base := 24 + directory.Len()
	length := base + area.Len()
	if length > 99_999 || w.longRecords && kind == 'D' {
		length = 0
	}
	fmt.Fprintf(&w.buf, "%05d%c%c%c%c%c%s%05d%s%s", length, '3', kind, 'E', '1', ' ', "09", base, " ! ", entries)
	w.buf.Write(directory.Bytes())
	w.buf.Write(area.Bytes())
	w.records++
}

// data writes a data record with its number.
func (w *writer) data(parts ...part) {
	w.record('D', append([]part{fieldOf("0001", le("2", w.records))}, parts...)...)
}

// The field descriptions of an ENC: S-57 Part 3, 7.3 (from the standard).
var written = []struct{ tag, controls, labels, formats string }{
	{"0001", "0500;&   ", "", "(b12)"},
	{"DSID", "1600;&   ", "RCNM!RCID!EXPP!INTU!DSNM!EDTN!UPDN!UADT!ISDT!STED!PRSP!PSDN!PRED!PROF!AGEN!COMT", "(b11,b14,2b11,3A,2A(8),R(4),b11,2A,b11,b12,A)"},
	{"DSSI", "1600;&   ", "DSTR!AALL!NALL!NOMR!NOCR!NOGR!NOLR!NOIN!NOCN!NOED!NOFA", "(3b11,8b14)"},
	{"DSPM", "1600;&   ", "RCNM!RCID!HDAT!VDAT!SDAT!CSCL!DUNI!HUNI!PUNI!COUN!COMF!SOMF!COMT", "(b11,b14,3b11,b14,4b11,2b14,A)"},
	{"FRID", "1600;&   ", "RCNM!RCID!PRIM!GRUP!OBJL!RVER!RUIN", "(b11,b14,2b11,2b12,b11)"},
	{"FOID", "1600;&   ", "AGEN!FIDN!FIDS", "(b12,b14,b12)"},
	{"ATTF", "2600;&-A ", "*ATTL!ATVL", "(b12,A)"},
	{"NATF", "2600;&%/A", "*ATTL!ATVL", "(b12,A)"},
	{"FFPC", "1600;&   ", "FFUI!FFIX!NFPT", "(b11,2b12)"},
	{"FFPT", "2600;&   ", "*LNAM!RIND!COMT", "(B(64),b11,A)"},
	{"FSPC", "1600;&   ", "FSUI!FSIX!NSPT", "(b11,2b12)"},
	{"FSPT", "2600;&   ", "*NAME!ORNT!USAG!MASK", "(B(40),3b11)"},
	{"VRID", "1600;&   ", "RCNM!RCID!RVER!RUIN", "(b11,b14,b12,b11)"},
	{"ATTV", "2600;&   ", "*ATTL!ATVL", "(b12,A)"},
	{"VRPC", "1600;&   ", "VPUI!VPIX!NVPT", "(b11,2b12)"},
	{"VRPT", "2600;&   ", "*NAME!ORNT!USAG!TOPI!MASK", "(B(40),4b11)"},
	{"SGCC", "1600;&   ", "CCUI!CCIX!CCNC", "(b11,2b12)"},
	{"SG2D", "2500;&   ", "*YCOO!XCOO", "(2b24)"},
	{"SG3D", "2600;&   ", "*YCOO!XCOO!VE3D", "(3b24)"},
	{"DSPR", "1600;&   ", "PROJ!PRP1!PRP2!PRP3!PRP4!FEAS!FNOR!FPMF!COMT", "(b11,7b24,b14,A)"},
}

// describe writes the descriptive record. change may alter a description.
func (w *writer) describe(change func(tag, labels, formats string) (string, string)) {
	parts := []part{fieldOf("0000", []byte("0000;&   \x1f0001DSID"))}
	for _, f := range written {
		labels, formats := f.labels, f.formats
		if change != nil {
			labels, formats = change(f.tag, labels, formats)
		}
		parts = append(parts, fieldOf(f.tag, []byte(f.controls+"A field\x1f"+labels+"\x1f"+formats)))
	}
	keep := w.entryMap
	w.entryMap = "3404"
	w.record('L', parts...)
	w.entryMap = keep
}

// heading is what a cell file says of itself.
type heading struct {
	name, edition, update string
	profile, product      int
	level, national       int
	factor, depthFactor   int
	coordUnit, depthUnit  int
	horizontal            int
}

func baseHeading() heading {
	return heading{"XX5INVNT.000", "2", "0", 1, 1, 1, 1, 10_000_000, 10, 1, 1, 2}
}

func updateHeading(n int) heading {
	h := baseHeading()
	h.name, h.update, h.profile = fmt.Sprintf("XX5INVNT.%03d", n), fmt.Sprint(n), 2
	return h
}

// begin writes all records before the features and vectors.
func (w *writer) begin(h heading) {
	w.describe(nil)
	w.identify(h)
}

func (w *writer) identify(h heading) {
	counts := []int{0, 0, 4, 0, 1, 4, 4, 0} // of the square
	if h.profile == 2 {
		counts = make([]int, 8) // an update may hold less than the least
	}
	text := func(s string) []byte { return []byte(s + "\x1f") }
	w.data(
		fieldOf("DSID", le("1 4 1 1", 10, 1, 1, 5), text(h.name), text(h.edition), text(h.update),
			[]byte("20250101"), []byte("20250102"), []byte("03.1"), le("1", h.product), text(""), text("2.0"), le("1 2", h.profile, 1), text("Invented waters")),
		fieldOf("DSSI", le("1 1 1 4 4 4 4 4 4 4 4", append([]int{2, h.level, h.national}, counts...)...)))
	if h.profile == 1 {
		w.data(fieldOf("DSPM", le("1 4 1 1 1 4 1 1 1 1 4 4", 20, 1, h.horizontal, 16, 12, 10_000, h.depthUnit, 1, 1, h.coordUnit, h.factor, h.depthFactor), text("")))
	}
}

// Vectors and features.

func vectorID(kind, id, version, instruction int) part {
	return fieldOf("VRID", le("1 4 2 1", kind, id, version, instruction))
}

// place is a position as SG2D has it, in units of the heading's COMF.
func (h heading) place(lon, lat float64) []byte {
	return le("4 4", int(math.Round(lat*float64(h.factor))), int(math.Round(lon*float64(h.factor))))
}

func (h heading) depth(lon, lat, metres float64) []byte {
	return append(h.place(lon, lat), le("4", int(math.Round(metres*float64(h.depthFactor))))...)
}

func edgeEnds(begin, end int) part {
	return fieldOf("VRPT", le("1 4 1 1 1 1", 120, begin, 255, 255, 1, 255), le("1 4 1 1 1 1", 120, end, 255, 255, 2, 255))
}

func featureID(id, prim, class, version, instruction int) part {
	return fieldOf("FRID", le("1 4 1 1 2 2 1", 100, id, prim, 1, class, version, instruction))
}

func objectID(n int) part { return fieldOf("FOID", le("2 4 2", 1, n, 1)) }

func attribute(code int, value string) []byte {
	return append(append(le("2", code), value...), 0x1F)
}

func pointer(kind, id, orientation, usage, mask int) []byte {
	return le("1 4 1 1 1", kind, id, orientation, usage, mask)
}

// squareCell is a cell with a depth area and coverage over one square of a
// hundredth of a degree, 4 edges of a node each at both ends, a sounding record
// of two soundings and an islet. more adds to it.
func squareCell(h heading, more func(w *writer)) layer.File {
	w := &writer{}
	w.begin(h)
	w.square(h)
	if more != nil {
		more(w)
	}
	return layer.File{Name: h.name, Data: w.buf.Bytes()}
}

// The corners of the square, in order.
var corners = [4][2]float64{{10, 50}, {10.01, 50}, {10.01, 50.01}, {10, 50.01}}

func (w *writer) square(h heading) {
	for i, c := range corners {
		w.data(vectorID(120, i+1, 1, 1), fieldOf("SG2D", h.place(c[0], c[1])))
	}
	for i := range corners {
		a, b := corners[i], corners[(i+1)%4]
		w.data(vectorID(130, i+1, 1, 1), fieldOf("ATTV", attribute(402, "4")), edgeEnds(i+1, (i+1)%4+1),
			fieldOf("SG2D", h.place((a[0]+b[0])/2, (a[1]+b[1])/2)))
	}
	w.data(vectorID(110, 1, 1, 1), fieldOf("SG3D", h.depth(10.004, 50.004, 3.4), h.depth(10.006, 50.006, -0.5)))
	w.data(vectorID(110, 2, 1, 1), fieldOf("SG2D", h.place(10.002, 50.002)))
	ring := fieldOf("FSPT", pointer(130, 1, 1, 3, 255), pointer(130, 2, 1, 1, 255), pointer(130, 3, 1, 1, 255), pointer(130, 4, 1, 3, 255))
	w.data(featureID(1, 3, 42, 1, 1), objectID(1), fieldOf("ATTF", attribute(87, "2.5"), attribute(88, "")), ring)
	w.data(featureID(2, 3, 302, 1, 1), objectID(2), fieldOf("ATTF", attribute(18, "1")), ring)
	w.data(featureID(3, 1, 129, 1, 1), objectID(3), fieldOf("FSPT", pointer(110, 1, 255, 255, 255)))
	w.data(featureID(4, 1, 71, 1, 1), objectID(4), fieldOf("ATTF", attribute(116, "Testholm")), fieldOf("FSPT", pointer(110, 2, 255, 255, 255)))
}

// updateFile writes an update.
func updateFile(n int, records func(w *writer)) layer.File {
	return updateAs(updateHeading(n), records)
}

func updateAs(h heading, records func(w *writer)) layer.File {
	w := &writer{}
	w.begin(h)
	records(w)
	return layer.File{Name: h.name, Data: w.buf.Bytes()}
}
