package geojson

// manyKeys is the number of keys from which a set answers faster than a scan.
const manyKeys = 32

// keySet holds the keys of the objects that are open, to find one that occurs twice.
type keySet struct {
	met  []string                    // the keys met in every open object, outermost first
	sets map[int]map[string]struct{} // the same of objects with many keys, by their first index in met
}

// add notes a key and says whether its object had it before.
func (k *keySet) add(first int, key string) bool {
	if set := k.sets[first]; set != nil {
		_, dup := set[key]
		set[key] = struct{}{}
		return dup
	}
	for _, other := range k.met[first:] {
		if other == key {
			return true
		}
	}
	k.met = append(k.met, key)
	if len(k.met)-first == manyKeys {
		k.makeSet(first)
	}
	return false
}

func (k *keySet) makeSet(first int) {
	set := make(map[string]struct{}, 2*manyKeys)
	for _, key := range k.met[first:] {
		set[key] = struct{}{}
	}
	if k.sets == nil {
		k.sets = make(map[int]map[string]struct{})
	}
	k.sets[first] = set
}

// close forgets the keys of the innermost object, which begin at first.
func (k *keySet) close(first int) {
	delete(k.sets, first)
	k.met = k.met[:first]
}
