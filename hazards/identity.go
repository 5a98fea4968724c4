package hazards

import (
	"encoding/base32"
	"encoding/binary"
	"fmt"

	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// A finding has the same id from check to check as long as its cause is the same:
// what the check is, what is the matter, and the feature that it comes from. So
// whoever watches a day can follow one finding while a waypoint is dragged, another
// departure is tried, or legs are added elsewhere. Where no feature is the cause the
// part of the plan stands for it: the stay, the leg of a route, or the day.

// cause is a hash of what a finding comes from (FNV-1a, 64 bits: G. Fowler, L. C. Noll,
// K.-P. Vo, 1991). It is the same on every machine.
type cause uint64

const (
	hashBasis cause = 14695981039346656037
	hashPrime cause = 1099511628211
)

// text takes a text and its end in.
func (h cause) text(s string) cause {
	for i := range len(s) {
		h = (h ^ cause(s[i])) * hashPrime
	}
	return (h ^ 0xff) * hashPrime
}

func (h cause) number(n int) cause {
	for range 8 {
		h = (h ^ cause(n&0xff)) * hashPrime
		n >>= 8
	}
	return h
}

func (h cause) place(c chart.Coord) cause { return h.number(int(c.Lon)).number(int(c.Lat)) }

// feature takes in what the chart itself knows a feature by: the name that its
// producer gave it, which charts of other scales and later editions share; else its
// class, its name and where it lies.
func (h cause) feature(f *chart.Feature) cause {
	if f.Key != "" {
		return h.text(f.Class.String()).text(f.Key)
	}
	if f.Set != nil {
		h = h.text(f.Set.Title)
	}
	h = h.text(f.Class.String()).text(f.Name).number(len(f.Coords))
	for i := range min(len(f.Coords), hashedCoords) {
		h = h.place(f.Coords[i*len(f.Coords)/min(len(f.Coords), hashedCoords)])
	}
	return h
}

// hashedCoords is how many vertices of a feature without a name of its own are taken
// in, evenly along it: enough to tell two apart, and no work for a long coast.
const hashedCoords = 16

// id writes the cause as 13 letters and figures.
func (h cause) id() string {
	var b [8]byte
	binary.BigEndian.PutUint64(b[:], uint64(h))
	return idLetters.EncodeToString(b[:])
}

var idLetters = base32.NewEncoding("abcdefghijklmnopqrstuvwxyz234567").WithPadding(base32.NoPadding)

// causes tell what findings of a day come from.
type causes struct{ track *passage.Track }

func (c *checker) causes() causes { return causes{c.track} }

// causeOf is what a finding comes from.
func (s causes) causeOf(f *plan.Finding, a *about) cause {
	h := hashBasis.text(f.Check).text(f.Code)
	if thing := thingOf(f); thing != nil {
		h = h.feature(thing)
		if thing.Class == chart.SOUNDG { // a record may lie all over the chart: which of its soundings
			h = h.place(chart.CoordOf(f.Source.At))
		}
		if a.lying > 0 {
			h = s.stayCause(h, a.lying-1)
		}
		return h
	}
	switch {
	case a.lying > 0:
		return s.stayCause(h, a.lying-1)
	case a.arriving > 0:
		return s.stayCause(h, a.arriving-1)
	case a.ofDay || f.Leg == 0:
		return h.text("day")
	}
	return s.legCause(h, f.Leg)
}

// thingOf is the feature that a finding comes from, nil for none.
func thingOf(f *plan.Finding) *chart.Feature {
	if f.Source == nil {
		return nil
	}
	thing, _ := f.Source.Thing.(*chart.Feature)
	return thing
}

// stayCause takes a stay in, by its name and which of that name it is.
func (s causes) stayCause(h cause, stop int) cause {
	name, of := s.track.Stops[stop].Stay.Name, 0
	for i := range stop {
		if s.track.Stops[i].Stay.Name == name {
			of++
		}
	}
	return h.text("stay").text(name).number(of)
}

// legCause takes a leg in, by the name of its route, which of that name it is, and
// which leg of it.
func (s causes) legCause(h cause, number int) cause {
	route, name := s.track.Legs[number-1].Route, s.track.Legs[number-1].RouteName
	first, of := number, 0
	for i := number - 1; i >= 0; i-- {
		switch leg := &s.track.Legs[i]; {
		case leg.Route == route:
			first = i + 1
		case leg.RouteName == name && leg.Route != s.track.Legs[i+1].Route:
			of++
		}
	}
	return h.text("route").text(name).number(of).number(number - first)
}

// identify gives every finding its id. Of several with one cause, which the checks
// avoid, the first keeps it.
func identify(list []plan.Finding, causes []cause) {
	seen := make(map[string]int, len(list))
	for i := range list {
		id := causes[i].id()
		for n := seen[id]; n > 0; n = seen[id] {
			seen[id]++
			id = causes[i].text(fmt.Sprint("again ", n)).id()
		}
		seen[id]++
		list[i].ID = id
	}
}
