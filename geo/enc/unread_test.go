package enc

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// drawn writes an object of a class at a node or along the edges 1 and 2 of the
// INVENTED square, with one attribute.
func drawn(w *writer, class, prim, code int, value string) {
	pointers := [][]byte{pointer(120, 3, 255, 255, 255)}
	switch prim {
	case 2:
		pointers = [][]byte{pointer(130, 1, 1, 255, 255)}
	case 3:
		pointers = [][]byte{pointer(130, 1, 1, 1, 2), pointer(130, 2, 1, 1, 2)}
	}
	parts := []part{featureID(9, prim, class, 1, 1), objectID(9)}
	if code != 0 {
		parts = append(parts, fieldOf("ATTF", attribute(code, value)))
	}
	w.data(append(parts, fieldOf("FSPT", pointers...))...)
}

// What of a cell cannot be read leaves its place unknown and says why: objects
// of Inland ENCs (17 000 and up), of numbers that S-57 does not list with a member
// of a danger, and marks. A depth area drawn as a line leaves nothing unknown.
func TestWhatACellSaysThatIsNotRead(t *testing.T) {
	for _, test := range []struct {
		class, prim, code int
		value             string
		says              string // the code and what is found, "" for nothing
		refused           chart.Class
		unknown           bool
	}{
		{17011, 2, 181, "4.2", "E-CLASS 17011, a bridge of an Inland ENC", chart.BRIDGE, true},
		{17012, 2, 0, "", "E-CLASS 17012, a cable overhead of an Inland ENC", chart.CBLOHD, true},
		{17003, 3, 87, "0.5", "E-CLASS 17003, a depth area of an Inland ENC", chart.DEPARE, true},
		{17003, 2, 87, "0.5", "W-CLASS 17003, a depth area of an Inland ENC", 0, false},
		{17050, 1, 0, "", "W-CLASS 17050, a notice mark of an Inland ENC", 0, false},
		{19999, 1, 0, "", "E-CLASS 19999, an object of an Inland ENC that is not known", chart.NoClass, true},
		{1530, 1, 179, "-0.5", "E-CLASS 1530, which S-57 does not list, with VALSOU", chart.NoClass, true},
		{1530, 1, 116, "Name", "W-CLASS 1530, which S-57 does not list", 0, false},
		{14, 1, 13, "north", "E-NUM", chart.BOYCAR, true},
		{7, 1, 36, "0", "E-NUM", chart.BCNLAT, true},
		{42, 2, 87, "0.5", "", 0, false},
	} {
		name := fmt.Sprintf("%d as %d", test.class, test.prim)
		cell, messages := decodeAll(t, squareCell(baseHeading(), func(w *writer) { drawn(w, test.class, test.prim, test.code, test.value) }))
		if cell.Set == nil {
			t.Errorf("%s: %v", name, messages)
			continue
		}
		code, found, _ := strings.Cut(test.says, " ")
		told := slices.ContainsFunc(messages, func(m chart.Message) bool { return m.Code == code && strings.Contains(m.Found, found) })
		if told != (test.says != "") || !told && len(messages) > 0 {
			t.Errorf("%s: %v, want %q", name, messages, test.says)
		}
		if (len(cell.Set.Refused) == 1) != test.unknown || test.unknown && (cell.Set.Refused[0].Class != test.refused || cell.Set.Refused[0].Boxless) {
			t.Errorf("%s: refused %+v", name, cell.Set.Refused)
		}
	}
}

// A text of 10 MB in a cell is cut, with a warning.
func TestLongTextsOfACell(t *testing.T) {
	huge := strings.Repeat("n", 10<<20)
	cell, messages := decodeAll(t, squareCell(baseHeading(), func(w *writer) {
		w.longRecords, w.entryMap = true, "9904"
		drawn(w, 71, 1, 116, huge)
	}))
	lands := find(cell, chart.LNDARE)
	if len(lands) != 2 || len(lands[1].Name) > 4*layer.MaxText || !slices.ContainsFunc(messages, func(m chart.Message) bool { return m.Code == "W-NAME" }) {
		t.Fatalf("%d lands, %v", len(lands), messages)
	}
}
