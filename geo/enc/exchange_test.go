package enc

import (
	"archive/zip"
	"bytes"
	"fmt"
	"hash/crc32"
	"strings"
	"testing"

	"keelroom/geo/layer"
)

// entry is a line of a catalogue, its CRC as text.
type entry struct{ path, crc string }

// crcOf is the CRC-32 as an exchange set states it: that of IEEE 802.3, which
// s57-note.md (section 1) saw to be what a real catalogue has.
func crcOf(f layer.File) string { return fmt.Sprintf("%08X", crc32.ChecksumIEEE(f.Data)) }

// catalogueFile writes CATALOG.031: ASCII subfields (S-57 Part 3, 7.4).
func catalogueFile(name string, entries ...entry) layer.File {
	w := &writer{}
	w.record('L', fieldOf("0000", []byte("0000;&   \x1f0001CATD")),
		fieldOf("0001", []byte("0100;&   A field\x1f\x1f(I(5))")),
		fieldOf("CATD", []byte("1600;&   A field\x1fRCNM!RCID!FILE!LFIL!VOLM!IMPL!SLAT!WLON!NLAT!ELON!CRCS!COMT\x1f(A(2),I(10),3A,A(3),4R,2A)")))
	for i, e := range entries {
		w.record('D', fieldOf("0001", []byte(fmt.Sprintf("%05d", i))),
			fieldOf("CATD", []byte(fmt.Sprintf("CD%010d%s\x1fA name\x1fV01X01\x1fBIN50\x1f10\x1f50.01\x1f10.01\x1f%s\x1f\x1f", i, e.path, e.crc))))
	}
	return layer.File{Name: name, Data: w.buf.Bytes()}
}

func zipOf(t testing.TB, files ...layer.File) layer.File {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	for _, f := range files {
		w, err := z.Create(f.Name)
		if err == nil {
			_, err = w.Write(f.Data)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return layer.File{Name: "set.zip", Data: buf.Bytes()}
}

// An exchange set, as loose files or zipped: listed bytes are loaded, others
// are not, and what is listed and missing is said.
func TestExchangeSet(t *testing.T) {
	base, one := squareCell(baseHeading(), nil), updateFile(1, rename(2, "First"))
	catalogue := func(entries ...entry) layer.File { return catalogueFile("ENC_ROOT/CATALOG.031", entries...) }
	in := func(folder string, f layer.File) layer.File { f.Name = folder + f.Name; return f }
	flipped := one
	flipped.Data = bytes.Clone(one.Data)
	flipped.Data[len(flipped.Data)-5] ^= 1
	const b, u = `XX\XX5INVNT\2\0\XX5INVNT.000`, `XX\XX5INVNT\2\1\XX5INVNT.001`
	paths := []layer.File{in("ENC_ROOT/XX/XX5INVNT/2/0/", base), in("ENC_ROOT/XX/XX5INVNT/2/1/", one)}
	tests := []struct {
		name   string
		files  []layer.File
		update string
		said   string
	}{
		{"as listed", append(paths, catalogue(entry{"CATALOG.031", ""}, entry{b, crcOf(base)}, entry{u, strings.ToLower(crcOf(one))})), "1", ""},
		{"loose", []layer.File{base, one, catalogueFile("CATALOG.031", entry{b, crcOf(base)}, entry{u, crcOf(one)})}, "1", ""},
		{"zipped", []layer.File{zipOf(t, append(paths, catalogue(entry{b, crcOf(base)}, entry{u, crcOf(one)}), layer.File{Name: "ENC_ROOT/README.TXT", Data: []byte("text")})...)}, "1", ""},
		{"a flipped bit", []layer.File{paths[0], in("ENC_ROOT/XX/XX5INVNT/2/1/", flipped), catalogue(entry{b, crcOf(base)}, entry{u, crcOf(one)})}, "0", "E-CRC XX5INVNT.001"},
		{"not listed", append(paths, catalogue(entry{b, crcOf(base)})), "1", ""},
		{"no CRC", append(paths, catalogue(entry{b, ""}, entry{u, ""})), "1", ""},
		{"listed and missing", []layer.File{paths[0], catalogue(entry{b, crcOf(base)}, entry{u, crcOf(one)})}, "0", "W-CATALOG XX5INVNT.001 : XX/XX5INVNT/2/1/XX5INVNT.001, listed in CATALOG.031, is not there"},
		{"a broken catalogue", append(paths, layer.File{Name: "CATALOG.031", Data: catalogue(entry{b, "X"}).Data[:180]}), "1", "E-CELL CATALOG.031"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			cell, messages := decodeAll(t, test.files...)
			said := ""
			if len(messages) > 0 {
				said = messages[0].String()
			}
			if cell.Set == nil || cell.Update != test.update || !strings.Contains(said, test.said) || (said == "") != (test.said == "") {
				t.Errorf("update %q, said %q; want %q, %q", cell.Update, said, test.update, test.said)
			}
		})
	}
}

// Several cells in one drop are several sets, in the order of their names.
func TestSeveralCells(t *testing.T) {
	files := append(cellFiles(t, "US5MA12M", 0), cellFiles(t, "US5MA11M", 3)...)
	sets, messages := Decode([]layer.File{zipOf(t, files...), squareCell(baseHeading(), nil)})
	if len(sets) != 3 || len(messages) != 0 {
		t.Fatalf("%d sets, %v", len(sets), messages)
	}
	for i, want := range []string{"US5MA11M.000", "US5MA12M.000", "XX5INVNT.000"} {
		if sets[i].Title != want || len(sets[i].SHA256) != 64 {
			t.Errorf("set %d is %s", i, sets[i].Title)
		}
	}
}

// An archive that would unpack to more than is read at once, whatever it says
// of itself, one that is broken, and one without a cell.
func TestBadArchives(t *testing.T) {
	const room = 1 << 20
	bomb := zipOf(t, layer.File{Name: "XX5INVNT.000", Data: make([]byte, room+1)})
	lying := bomb
	lying.Data = bytes.ReplaceAll(bomb.Data, []byte{1, 0, 16, 0}, []byte{9, 0, 0, 0}) // the size in the directory
	if len(bomb.Data) > room/100 || bytes.Equal(lying.Data, bomb.Data) {
		t.Fatal("no bomb was made")
	}
	whole := zipOf(t, squareCell(baseHeading(), nil))
	tests := map[string]struct {
		file layer.File
		want string
	}{
		"bomb":           {bomb, "E-SIZE XX5INVNT.000 in set.zip: more than 1048576 bytes"},
		"lying bomb":     {lying, "XX5INVNT.000 in set.zip"},
		"cut off":        {layer.File{Name: "set.zip", Data: whole.Data[:len(whole.Data)/2]}, "E-ZIP set.zip"},
		"without a cell": {zipOf(t, layer.File{Name: "photo.jpg", Data: []byte("x")}), "E-ZIP set.zip : an archive without a cell"},
		"empty":          {zipOf(t), "E-ZIP set.zip : an archive without a cell"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			j := &job{between: func() error { return nil }, room: room}
			if err := j.run([]layer.File{test.file}); err != nil {
				t.Fatal(err)
			}
			sets, messages := j.result.Sets(), j.result.Messages
			if len(sets) != 0 || len(messages) == 0 || !strings.Contains(messages[0].String(), test.want) {
				t.Errorf("%d sets, %v; want %s", len(sets), messages, test.want)
			}
		})
	}
}
