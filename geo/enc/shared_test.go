package enc

import (
	"crypto/sha256"
	"os"
	"testing"

	"keelroom/geo/layer"
	"keelroom/testdata/beside"
)

// realCells are the cells that lie beside the repository, with how many updates
// each has.
var realCells = []struct {
	name    string
	updates int
}{{"US5MA12M", 0}, {"US5MA11M", 3}}

// cellFiles reads the base of a real cell and its updates.
func cellFiles(t testing.TB, name string, updates int) (files []layer.File) {
	t.Helper()
	for i := range updates + 1 {
		file := name + ".00" + string(rune('0'+i))
		data, err := os.ReadFile(beside.File(t, "charts", name, file))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, layer.File{Name: file, Data: data})
	}
	return files
}

// readCell decodes the files of one cell, which must be without a message.
func readCell(t testing.TB, files []layer.File) Cell {
	t.Helper()
	var d Decoder
	r, err := d.Decode(files)
	if err != nil || len(r.Cells) != 1 || len(r.Messages) != 0 || r.Cells[0].Set == nil {
		t.Fatalf("error %v, %d cells, messages %v", err, len(r.Cells), r.Messages)
	}
	return r.Cells[0]
}

// readModel reads the files of one cell into a model, without mapping it.
func readModel(t testing.TB, files []layer.File) *model {
	t.Helper()
	j := &job{between: func() error { return nil }}
	for _, f := range files {
		j.open(given{File: f})
	}
	base, updates := j.sort(j.files)
	b := &build{job: j, hashed: sha256.New()}
	if err := b.base(base); err != nil {
		t.Fatal(err)
	}
	if err := b.apply(updates); err != nil || len(b.notes)+len(j.result.Messages) > 0 {
		t.Fatal(err, b.notes, j.result.Messages)
	}
	return b.model
}
