package enc

import "math/rand/v2"

// vectorIndex finds the vector records of a cell that changes no more: every edge of every
// feature is looked up with its two nodes, which takes a map longer than all the rest of
// joining them. The names lie in a table of twice as many places as records or more, each
// at its hash or in one of the next places (linear probing, Knuth, The Art of Computer
// Programming 3, 6.4).
type vectorIndex struct {
	records []vectorRecord
	slots   []int32 // 1 + the place of a record, 0 for none; a power of two of them
	shift   uint
	factor  uint64
}

func newVectorIndex(t *table[vectorName, vectorRecord]) vectorIndex {
	x := vectorIndex{records: t.records, shift: 64 - 4, factor: rand.Uint64() | 1}
	for n := 16; n < 2*len(t.at); n *= 2 {
		x.shift--
	}
	x.slots = make([]int32, 1<<(64-x.shift))
	for name, at := range t.at {
		i := x.hash(name)
		for x.slots[i] != 0 {
			i = (i + 1) & (len(x.slots) - 1)
		}
		x.slots[i] = at + 1
	}
	return x
}

// hash spreads names over the slots, by a factor that no file can foresee (Dietzfelbinger
// and others, A Reliable Randomized Algorithm for the Closest-Pair Problem, 1997).
func (x *vectorIndex) hash(n vectorName) int { return int(uint64(n) * x.factor >> x.shift) }

// get is the record of that name, nil if there is none.
func (x *vectorIndex) get(n vectorName) *vectorRecord {
	for i := x.hash(n); x.slots[i] != 0; i = (i + 1) & (len(x.slots) - 1) {
		if r := &x.records[x.slots[i]-1]; r.name == n {
			return r
		}
	}
	return nil
}
