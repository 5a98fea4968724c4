package enc

import (
	"bytes"
	"flag"
	"math/rand/v2"
	"testing"

	"keelroom/geo/layer"
)

var long = flag.Bool("long", false, "mutate real cells 10 000 times")

// mutated changes a few bytes of a file, copies or cuts a piece, or swaps
// digits of a directory: damage as it comes from bad disks and bad programs.
func mutated(r *rand.Rand, data []byte) []byte {
	out := bytes.Clone(data)
	for range 1 + r.IntN(4) {
		if len(out) < 64 {
			return out
		}
		at := r.IntN(len(out))
		if r.IntN(3) == 0 {
			at = r.IntN(min(len(out), 3000)) // the descriptive record
		}
		switch r.IntN(6) {
		case 0:
			out[at] ^= 1 << r.IntN(8)
		case 1:
			out[at] = byte(r.IntN(256))
		case 2:
			out[at] = []byte{0, 0x1E, 0x1F, 0x7F, '0', '9', 0xFF, 'D'}[r.IntN(8)]
		case 3: // a piece over another
			n := min(r.IntN(64), len(out)-at)
			copy(out[at:at+n], out[r.IntN(len(out)-n):])
		case 4: // a piece gone
			n := min(r.IntN(32), len(out)-at)
			out = append(out[:at], out[at+n:]...)
		case 5:
			if r.IntN(8) == 0 {
				out = out[:at]
			} else {
				out[at]++
			}
		}
	}
	return out
}

// Damaged cells: no panic, a set or a reason, and no more memory than four
// times the file. A small cell is damaged often, a real one some times; with
// -long the real one 10 000 times.
func TestMutatedCells(t *testing.T) {
	r := rand.New(rand.NewPCG(57, 8211))
	small := squareCell(baseHeading(), nil)
	update := updateFile(1, rename(2, "First"))
	read := 0
	for range 6000 {
		a, b := small, update
		a.Data = mutated(r, a.Data)
		b.Data = mutated(r, b.Data)
		read += checkDamaged(t, a, b)
	}
	if read < 300 { // else damage ends every reading at once, and nothing is tried
		t.Errorf("only %d of 6000 damaged cells were read", read)
	}
	rounds := 100
	if *long {
		rounds = 10_000
	}
	real := cellFiles(t, "US5MA12M", 0)[0]
	readReal := 0
	for range rounds {
		a := real
		a.Data = mutated(r, a.Data)
		readReal += checkDamaged(t, a)
	}
	t.Logf("%d of 6000 small ones and %d of %d real ones were read", read, readReal, rounds)
}

func checkDamaged(t *testing.T, files ...layer.File) int {
	t.Helper()
	sets, messages := Decode(files)
	if len(sets) == 0 && len(messages) == 0 {
		t.Fatal("neither a set nor a reason")
	}
	return len(sets)
}
