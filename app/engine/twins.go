package engine

import (
	"slices"
	"strconv"

	"keelroom/geo/chart"
)

// mostCompared is how many objects of a set are looked up in another.
const mostCompared = 256

// twins are the ids of the loaded sets that hold the same chart as one: at least
// half of the objects of the smaller of the two are in the other, as far as a sample
// tells. Objects are told apart by their long name (LNAM: producer, number and part;
// IHO S-57 edition 3.1, part 3, 4.3.1). Neighbouring cells share but the few that lie
// across their border.
func (s *Service) twins(l *loadedSet) (ids []string) {
	for _, o := range s.sets {
		if o != l && sameChart(l.names, o.names) {
			ids = append(ids, o.id)
		}
	}
	return ids
}

func sameChart(a, b []uint64) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	step := (len(a) + mostCompared - 1) / mostCompared
	looked, found := 0, 0
	for i := 0; i < len(a); i += max(step, 1) {
		looked++
		if _, ok := slices.BinarySearch(b, a[i]); ok {
			found++
		}
	}
	return found > 0 && 2*found >= looked
}

// longNames are the long names of a set's objects as numbers, in order. Other keys,
// such as the ids that GeoJSON counts from 1, say nothing across sets.
func longNames(s *chart.Set) (names []uint64) {
	for i := range s.Features {
		key := s.Features[i].Key
		if n, err := strconv.ParseUint(key, 16, 64); err == nil && len(key) == 16 {
			names = append(names, n)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}
