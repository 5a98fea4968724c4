package chart

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Sorting by keys is a stable sort, whatever the keys and however many.
func TestSortByKeyIsAStableSort(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	for _, n := range []int{0, 1, 2, 1000, 2*workBetween + 1} {
		list := make([]keyed, n)
		for i := range list {
			list[i] = keyed{middleKey(int32(rnd.Uint32()), int32(rnd.Uint32())) >> (rnd.IntN(4) * 8), int32(i)}
		}
		want := slices.Clone(list)
		slices.SortStableFunc(want, func(a, b keyed) int { return cmp.Compare(a.key, b.key) })
		worked := 0
		sortByKey(list, make([]keyed, n+3), func(n int) { worked += n })
		if !slices.Equal(list, want) || worked < n {
			t.Errorf("%d keys: not sorted, or the work is told as %d", n, worked)
		}
	}
}

// The least and the greatest middles keep their order, and fit into the bits sorted by.
func TestMiddleKey(t *testing.T) {
	least, greatest := middleKey(math.MinInt32, math.MinInt32), middleKey(math.MaxInt32, math.MaxInt32)
	if least != 0 || greatest>>keyBits != 0 || middleKey(-1, 0) >= middleKey(0, 0) || middleKey(0, 0) >= middleKey(0, 1) {
		t.Errorf("the keys run from %d to %d", least, greatest)
	}
}
