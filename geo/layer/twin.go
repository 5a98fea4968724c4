package layer

import (
	"math"
	"slices"
	"strconv"

	"keelroom/geo/chart"
)

// warnTwin says that the set has the feature already: same class and place, and
// the same LNAM or the same attributes. Both are kept, as stated.
func (b *Builder) warnTwin(f *chart.Feature, o *Object) {
	if b.seen == nil {
		b.seen = make(map[uint64]int32)
	}
	h := placeHash(f)
	if o.Twin == 0 { // known by its key: another key is another object
		h = mix(h, textHash(f.Key))
	} else {
		h = mix(h, o.Twin)
	}
	i, met := b.seen[h]
	if !met {
		b.seen[h] = int32(len(b.set.Features) + 1)
		return
	}
	first := &b.set.Features[i-1]
	if !samePlace(f, first) || b.twins[i-1] != o.Twin || o.Twin == 0 && f.Key != first.Key {
		return
	}
	b.Log.Add(chart.Message{
		Level: chart.Warning, Code: "W-DUP", File: f.File, Path: o.Where(""),
		Found:  "the same object as number " + strconv.Itoa(first.Index) + " of " + first.File,
		Wanted: "each object once",
	})
}

func samePlace(a, b *chart.Feature) bool {
	same := func(x, y float64) bool { return math.Float64bits(x) == math.Float64bits(y) }
	return a.Class == b.Class && a.Prim == b.Prim && slices.Equal(a.Coords, b.Coords) &&
		slices.Equal(a.Ends, b.Ends) && slices.EqualFunc(a.DepthsM, b.DepthsM, same)
}

func placeHash(f *chart.Feature) uint64 {
	h := mix(uint64(f.Class), uint64(f.Prim))
	for _, c := range f.Coords {
		h = mix(h, uint64(uint32(c.Lon))<<32|uint64(uint32(c.Lat)))
	}
	for _, end := range f.Ends {
		h = mix(h, uint64(end))
	}
	for _, d := range f.DepthsM {
		h = mix(h, math.Float64bits(d))
	}
	return h
}

// mix takes 64 bits into a hash: the finaliser of MurmurHash3 (A. Appleby,
// 2011, public domain) over their difference.
func mix(h, v uint64) uint64 {
	h = h*0x9E3779B97F4A7C15 ^ v
	h ^= h >> 33
	h *= 0xFF51AFD7ED558CCD
	return h ^ h>>33
}

func textHash(s string) uint64 {
	h := uint64(len(s))
	for i := range len(s) {
		h = (h ^ uint64(s[i])) * 0x100000001B3 // FNV-1a, Fowler, Noll, Vo 1991
	}
	return h
}

func bytesHash(b []byte) uint64 {
	h := uint64(len(b))
	for _, c := range b {
		h = (h ^ uint64(c)) * 0x100000001B3
	}
	return h
}

// valueHash is a hash of an attribute's value.
func valueHash(v Value) uint64 {
	h := mix(mix(uint64(v.Kind), math.Float64bits(v.Num)), textHash(v.Text))
	for _, item := range v.Items {
		h = mix(h, valueHash(item))
	}
	for _, m := range v.Members {
		h = mix(mix(h, textHash(m.Name)), valueHash(m.Value))
	}
	return h
}
