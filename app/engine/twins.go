package engine

import "keelroom/geo/chart"

// twins are the ids of the loaded sets that hold the same chart as one: at least
// half of the objects of the smaller of the two are in the other. Objects are told
// apart by their long name (LNAM: producer, number and part; IHO S-57 edition 3.1,
// part 3, 4.3.1). Neighbouring cells share but the few that lie across their border.
func (s *Service) twins(l *loadedSet) (ids []string) {
	names := longNames(l.set)
	for _, o := range s.sets {
		if o == l {
			continue
		}
		others := longNames(o.set)
		both := 0
		for name := range names {
			if others[name] {
				both++
			}
		}
		if both > 0 && 2*both >= min(len(names), len(others)) {
			ids = append(ids, o.id)
		}
	}
	return ids
}

// longNames are the long names of a set's objects. Other keys, such as the ids that
// GeoJSON counts from 1, say nothing across sets.
func longNames(s *chart.Set) map[string]bool {
	names := map[string]bool{}
	for i := range s.Features {
		if key := s.Features[i].Key; len(key) == 16 {
			names[key] = true
		}
	}
	return names
}
