package chart

import "math"

// keyed is one of many by its place in their list and the key that it is sorted by.
type keyed struct {
	key uint64
	at  int32
}

// tiled is the order in which boxes are packed: slices from west to east, as many nodes
// wide as high, each of them from south to north.
func tiled(list []boxed, did func(n int)) []keyed {
	nodes := math.Ceil(float64(len(list)) / nodeBoxes)
	size := int(math.Ceil(math.Sqrt(nodes))) * nodeBoxes
	order, room := make([]keyed, len(list)), make([]keyed, len(list))
	for i := range list {
		order[i] = keyed{middleKey(list[i].box.lo.Lon, list[i].box.hi.Lon), int32(i)}
	}
	sortByKey(order, room, did)
	for from := 0; from < len(order); from += size {
		part := order[from:min(from+size, len(order))]
		for i := range part {
			b := &list[part[i].at].box
			part[i].key = middleKey(b.lo.Lat, b.hi.Lat)
		}
		sortByKey(part, room, did)
	}
	return order
}

// middleKey grows with the middle of two coordinates, and has no more than keyBits bits.
func middleKey(lo, hi int32) uint64 { return uint64(int64(lo) + int64(hi) + 1<<32) }

const (
	keyBits   = 33
	digitBits = 11
)

// sortByKey sorts by keys, digit by digit from the lowest (radix sort, Knuth, The Art of
// Computer Programming 3, 5.2.5), in steps that did hears of: the library's sorting of a
// large chart would let nobody speak for a second. room is as long as the list.
func sortByKey(list, room []keyed, did func(n int)) {
	from, to := list, room[:len(list)]
	for shift := 0; shift < keyBits; shift += digitBits {
		var next [1 << digitBits]int32 // where the next of each digit goes
		for i := range from {
			next[digitOf(from[i], shift)]++
		}
		at := int32(0)
		for d, count := range next {
			next[d], at = at, at+count
		}
		for i, k := range from {
			d := digitOf(k, shift)
			to[next[d]] = k
			next[d]++
			if i%workBetween == workBetween-1 {
				did(workBetween / 8)
			}
		}
		from, to = to, from
	}
	copy(list, from)
	did(len(list))
}

func digitOf(k keyed, shift int) uint64 { return k.key >> shift & (1<<digitBits - 1) }
