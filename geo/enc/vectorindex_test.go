package enc

import (
	"math/rand/v2"
	"testing"
)

// The index of a cell finds what its table has, in its newest state, and nothing else.
func TestVectorIndexFindsWhatTheTableHas(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 9))
	for _, n := range []int{0, 1, 7, 8, 9, 5000} {
		m := model{}
		m.vectors.reserve(n)
		for i := range n {
			name := nameOf([]uint8{isolatedNode, connectedNode, edgeName}[i%3], uint32(i+1))
			m.vectors.put(name, vectorRecord{name: name})
		}
		for range n / 4 {
			name := nameOf([]uint8{isolatedNode, connectedNode, edgeName}[rnd.IntN(3)], 1+rnd.Uint32N(uint32(n)))
			m.vectors.remove(name)
			if rnd.IntN(2) == 0 {
				m.vectors.put(name, vectorRecord{name: name, version: 2})
			}
		}
		x := newVectorIndex(&m.vectors)
		for kind := range uint8(255) {
			for id := range uint32(n + 2) {
				if name := nameOf(kind, id); x.get(name) != m.vectors.get(name) {
					t.Fatalf("of %d records %v is another in the index than in the table", n, name)
				}
			}
		}
	}
}
