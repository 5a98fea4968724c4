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
