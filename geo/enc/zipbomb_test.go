package enc

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// overlapping is an archive whose entries, so many, all lie over one stream: the
// directory of an archive with one entry, with that entry's line over and over.
func overlapping(t testing.TB, n int, one layer.File) layer.File {
	t.Helper()
	data := zipOf(t, one).Data
	const lineLength, endLength = 46, 22 // without name and comment (APPNOTE 4.3.12, 4.3.16)
	end := len(data) - endLength
	start := int(binary.LittleEndian.Uint32(data[end+16:]))
	line := data[start:end]
	out := bytes.Clone(data[:start])
	for i := range n {
		entry := bytes.Clone(line)
		copy(entry[lineLength:], fmt.Sprintf("XX%06d.000", i))
		out = append(out, entry...)
	}
	tail := bytes.Clone(data[end:])
	binary.LittleEndian.PutUint16(tail[8:], uint16(n))
	binary.LittleEndian.PutUint16(tail[10:], uint16(n))
	binary.LittleEndian.PutUint32(tail[12:], uint32(n*len(line)))
	return layer.File{Name: "set.zip", Data: append(out, tail...)}
}

// Archives made to take long are refused by their directory, before anything is
// unpacked: the bytes that come out are counted, not the time.
func TestArchivesMadeToTakeLong(t *testing.T) {
	const megabyte = 1 << 20
	zeros := layer.File{Name: "XX000000.000", Data: make([]byte, 60*megabyte)}
	var many []layer.File
	for i := range 10 {
		many = append(many, layer.File{Name: fmt.Sprintf("XX%06d.000", i), Data: make([]byte, 30*megabyte)})
	}
	for name, test := range map[string]struct {
		file layer.File
		want string
		most int // bytes unpacked
	}{
		"1 000 entries over one stream": {overlapping(t, 1000, zeros), "E-ZIP set.zip : entries that share bytes", 0},
		"two entries over one stream":   {overlapping(t, 2, squareCell(baseHeading(), nil)), "E-ZIP set.zip : entries that share bytes", 0},
		"more than there is room for":   {zipOf(t, many...), "E-SIZE set.zip : entries that state 314572800 bytes", 0},
	} {
		t.Run(name, func(t *testing.T) {
			unpacked := 0
			d := Decoder{Unpacked: func(n int) { unpacked = n }}
			r, err := d.Decode([]layer.File{test.file})
			if err != nil || len(r.Sets()) != 0 || len(r.Messages) == 0 || !strings.HasPrefix(r.Messages[0].String(), test.want) || unpacked > test.most {
				t.Errorf("%d bytes unpacked, %v, %.300v; want %s", unpacked, err, r.Messages, test.want)
			}
		})
	}
}

// What comes out of entries that turn out to be wrong is charged too, and an entry
// that holds more than it states is left as soon as it does.
func TestAllThatIsUnpackedIsCharged(t *testing.T) {
	const room = 1 << 20
	bad := func(n int) layer.File { // their sums are wrong
		var files []layer.File
		for i := range n {
			files = append(files, layer.File{Name: fmt.Sprintf("XX%06d.000", i), Data: bytes.Repeat([]byte{byte(i)}, 60_000)})
		}
		z := zipOf(t, files...)
		z.Data = bytes.Clone(z.Data)
		for at := 0; ; at++ {
			next := bytes.Index(z.Data[at:], []byte("PK\x01\x02"))
			if next < 0 {
				return z
			}
			at += next
			z.Data[at+16] ^= 1 // the CRC-32 in the directory
		}
	}
	j := &job{between: func() error { return nil }, room: room}
	if err := j.run([]layer.File{bad(10)}); err != nil || j.unpacked != 600_000 || j.room != room-600_000 || len(j.result.Messages) < 10 {
		t.Errorf("%v, %d bytes unpacked, room %d; %v", err, j.unpacked, j.room, j.result.Messages)
	}
	j = &job{between: func() error { return nil }, room: room}
	lying := zipOf(t, layer.File{Name: "XX5INVNT.000", Data: make([]byte, 800_000)})
	lying.Data = bytes.ReplaceAll(lying.Data, []byte{0, 0x35, 0x0c, 0}, []byte{9, 0, 0, 0})
	if err := j.run([]layer.File{lying}); err != nil || j.unpacked > 10 || len(j.result.Messages) == 0 || j.result.Messages[0].Code != "E-ZIP" {
		t.Errorf("%v, %d bytes unpacked of an entry that states 9; %v", err, j.unpacked, j.result.Messages)
	}
}

// Unpacking can be ended, and tells how far it is.
func TestUnpackingCanBeEnded(t *testing.T) {
	whole := zipOf(t, layer.File{Name: "XX5INVNT.000", Data: make([]byte, 20<<20)})
	stop, turns, last := errors.New("enough"), 0, 0
	d := Decoder{Unpacked: func(n int) { last = n }, Between: func() error {
		if turns++; turns == 10 {
			return stop
		}
		return nil
	}}
	if _, err := d.Decode([]layer.File{whole}); !errors.Is(err, stop) || last == 0 || last > 5<<20 {
		t.Errorf("%v after %d turns and %d bytes", err, turns, last)
	}
}

// s101Like begins as a data set of the S-100 family does: its identification has
// other labels.
func s101Like(name string) layer.File {
	w := &writer{entryMap: "5504"}
	w.record('L', fieldOf("0000", []byte("0000;&   \x1f")), fieldOf("DSID", []byte("1600;&   Data set\x1fRCNM!RCID!ENSP!ENED!PRSP!PRED!PROF!DSNM!DSTL!DSRD!DSLG!DSAB!DSED!\\\\*DSTC\x1f(b11,b14,7A,A(8),3A,(b11))")))
	return layer.File{Name: name, Data: w.buf.Bytes()}
}

// A dual exchange set, S-57 cells beside S-101 data sets and others, gives its cells
// and names what was passed over; without a cell, other products are refused.
func TestDualExchangeSet(t *testing.T) {
	base := squareCell(baseHeading(), nil)
	base.Name = "ENC_ROOT/XX5INVNT/XX5INVNT.000"
	dual := []layer.File{base, s101Like("S100_ROOT/S-101/DATASET_FILES/101XX00INVENTED.000"), {Name: "S100_ROOT/S-102/102XX00INVENTED.h5", Data: []byte("\x89HDF")}}
	for name, files := range map[string][]layer.File{"loose": dual, "zipped": {zipOf(t, dual...)}} {
		cell, messages := decodeAll(t, files...)
		passed := map[string]bool{}
		for _, m := range messages {
			if m.Level != chart.Warning || m.Code != "W-PRODUCT" {
				t.Errorf("%s: %v", name, m)
			}
			passed[m.File] = true
		}
		if cell.Set == nil || !passed["101XX00INVENTED.000"] || !passed["102XX00INVENTED.h5"] {
			t.Errorf("%s: %v, want the cell and both others named", name, messages)
		}
		var d Decoder
		sorted, said, err := d.Sort(files)
		if err != nil || len(sorted) != 1 || len(said) != 2 {
			t.Errorf("%s, told apart: %d files, %v", name, len(sorted), said)
		}
	}
	_, messages := decodeAll(t, dual[1])
	if !slices.ContainsFunc(messages, func(m chart.Message) bool { return m.Level == chart.FileError && m.Code == "E-PRODUCT" }) {
		t.Errorf("alone: %v, want E-PRODUCT", messages)
	}
}
