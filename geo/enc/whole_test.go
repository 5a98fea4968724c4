package enc

import (
	"strconv"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// A cell that was cut between two records is well-formed up to there. DSSI states
// how many records it has (IHO S-57 edition 3.1 Part 3, 7.3.1.2).
func TestCellCutBetweenRecordsIsRefused(t *testing.T) {
	whole := squareCell(baseHeading(), nil)
	if sets, messages := Decode([]layer.File{whole}); len(sets) != 1 {
		t.Fatalf("the whole cell is refused: %v", messages)
	}
	cuts := 0
	for at := 0; at < len(whole.Data); {
		length, err := strconv.Atoi(string(whole.Data[at : at+5]))
		if err != nil {
			t.Fatal(err)
		}
		if at += length; at == len(whole.Data) {
			break
		}
		cuts++
		sets, messages := Decode([]layer.File{{Name: whole.Name, Data: whole.Data[:at]}})
		if len(sets) != 0 {
			t.Errorf("the first %d of %d bytes are taken for a cell", at, len(whole.Data))
		}
		if len(messages) == 0 || messages[0].Level != chart.FileError || !strings.HasPrefix(messages[0].Code, "E-") {
			t.Errorf("the first %d bytes: %v", at, messages)
		}
	}
	if cuts < 10 {
		t.Errorf("%d places to cut; the cell has more records", cuts)
	}
}

// An update that was cut before it held as many records as it announces is not
// applied. Real data: NOAA's US5MA11M.001 (shared/charts/README.md), 10 features and
// 2 nodes or edges where it announces 9 and 2.
func TestUpdateCutBetweenRecordsIsLeftOut(t *testing.T) {
	files := cellFiles(t, "US5MA11M", 1)
	update := files[1].Data
	var ends []int
	for at := 0; at < len(update); {
		length, err := strconv.Atoi(string(update[at : at+5]))
		if err != nil {
			t.Fatal(err)
		}
		at += length
		ends = append(ends, at)
	}
	for n, end := range ends[:len(ends)-1] {
		if n == 0 || n >= len(ends)-2 {
			continue // no records at all, and as many as are announced
		}
		var d Decoder
		r, _ := d.Decode([]layer.File{files[0], {Name: files[1].Name, Data: update[:end]}})
		if len(r.Cells) != 1 || r.Cells[0].Set == nil || r.Cells[0].Update != "0" || len(r.Cells[0].Applied) != 0 {
			t.Errorf("after %d of %d records: %+v", n+1, len(ends), r.Cells)
			continue
		}
		told := false
		for _, m := range r.Cells[0].Set.Messages {
			told = told || m.Code == "W-UPDATE" && strings.Contains(m.Found, "features")
		}
		if !told {
			t.Errorf("after %d of %d records nothing is said: %v", n+1, len(ends), r.Cells[0].Set.Messages)
		}
	}
}
