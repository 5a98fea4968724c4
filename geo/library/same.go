package library

import (
	"slices"
	"strconv"

	"keelroom/geo/chart"
)

// Two sets are taken for the same chart only where next to nothing can be lost by
// closing one: that many objects in common, and that share of all objects of each of the
// two. (Bounds of our own, no source.)
const (
	leastCommon        = 20
	leastCommonPercent = 90
)

// Objects are the objects of a set by their long names, in order: one as often as there
// are parts with it, such as the soundings of one object. Make it with ObjectsOf.
type Objects struct {
	names []uint64
	count int // of all objects, those refused and those without a long name among them
}

// ObjectsOf are the objects of a set. Objects are known by their long name (LNAM:
// producer, number and part; IHO S-57 edition 3.1, part 3, 4.3.1). What has none, such
// as a danger that somebody added to a layer, is in no other set: other keys, such as the
// ids that GeoJSON counts from 1, say nothing across sets.
func ObjectsOf(s *chart.Set) Objects {
	o := Objects{count: len(s.Features) + len(s.Refused)}
	for i := range s.Features {
		key := s.Features[i].Key
		if n, err := strconv.ParseUint(key, 16, 64); err == nil && len(key) == 16 {
			o.names = append(o.names, n)
		}
	}
	slices.Sort(o.names)
	return o
}

// SameChart says whether two sets are the same chart, such as a cell and the layers that
// were made of it: nearly all objects of either are in the other. Neighbouring cells
// share but the few that lie across their border.
func SameChart(a, b Objects) bool {
	enough := func(n int) bool { return n >= leastCommon && 100*n >= leastCommonPercent*max(a.count, b.count) }
	return enough(min(len(a.names), len(b.names))) && enough(common(a.names, b.names))
}

// common counts what is in both of two lists in order; what is in one twice must be in
// the other twice to count twice.
func common(a, b []uint64) (n int) {
	for len(a) > 0 && len(b) > 0 {
		switch {
		case a[0] < b[0]:
			a = a[1:]
		case b[0] < a[0]:
			b = b[1:]
		default:
			n, a, b = n+1, a[1:], b[1:]
		}
	}
	return n
}
