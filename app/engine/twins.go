package engine

import (
	"slices"
	"strconv"

	"keelroom/geo/chart"
)

// The same chart is offered to be closed only where next to nothing can be lost by it:
// that many objects in common, and that share of all objects of each of the two. (Bounds
// of our own, no source.)
const (
	leastCommon        = 20
	leastCommonPercent = 90
)

// twins are the ids of the loaded sets that hold the same chart as one: nearly all
// objects of either are in the other. Objects are told apart by their long name (LNAM:
// producer, number and part; IHO S-57 edition 3.1, part 3, 4.3.1). What has none, such
// as a danger that somebody added to a layer, is in no other set. Neighbouring cells
// share but the few that lie across their border.
func (s *Service) twins(l *loadedSet) (ids []string) {
	for _, o := range s.sets {
		if o != l && sameChart(l.objects(), o.objects()) {
			ids = append(ids, o.id)
		}
	}
	return ids
}

// objects are the long names of a set's objects, in order, and how many objects it has,
// those that were refused and those without a long name among them.
type objects struct {
	names []uint64
	count int
}

func (l *loadedSet) objects() objects {
	return objects{l.names, len(l.set.Features) + len(l.set.Refused)}
}

func sameChart(a, b objects) bool {
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

// longNames are the long names of a set's objects as numbers, in order: one as often as
// there are parts with it, such as the soundings of one object. Other keys,
// such as the ids that GeoJSON counts from 1, say nothing across sets.
func longNames(s *chart.Set) (names []uint64) {
	for i := range s.Features {
		key := s.Features[i].Key
		if n, err := strconv.ParseUint(key, 16, 64); err == nil && len(key) == 16 {
			names = append(names, n)
		}
	}
	slices.Sort(names)
	return names
}
