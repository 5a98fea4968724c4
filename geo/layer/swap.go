package layer

import (
	"fmt"
	"slices"

	"keelroom/geo/chart"
)

// SwapHints warns (W-COORD) of the features of a set that make sense only with
// longitude and latitude swapped: they lie outside the boxes of all other sets
// as they stand, and within one of them when swapped. Without other sets there
// is nothing to tell by.
func SwapHints(set *chart.Set, others []*chart.Set) []chart.Message {
	var boxes []bounds
	for _, other := range others {
		if b, ok := setBounds(other); ok && other != set {
			boxes = append(boxes, b)
		}
	}
	var log Log
	for i := range set.Features {
		f := &set.Features[i]
		if len(f.Coords) == 0 || !swapped(f.Coords, boxes) {
			continue
		}
		p := f.Coords[0].Position()
		log.Add(chart.Message{
			Level: chart.Warning, Code: "W-COORD", File: f.File, Path: fmt.Sprintf("features[%d].geometry", f.Index),
			Found:  fmt.Sprintf("%g, %g, far from every other chart, and within one with the two swapped", p[0], p[1]),
			Wanted: "longitude first, then latitude",
		})
	}
	return log.Messages()
}

// AddSwapHints adds to the messages of each set those of SwapHints among all of
// them.
func AddSwapHints(sets []*chart.Set) {
	for _, s := range sets {
		s.Messages = append(slices.Clip(s.Messages), SwapHints(s, sets)...)
	}
}

func setBounds(s *chart.Set) (b bounds, ok bool) {
	for i := range s.Features {
		if c := s.Features[i].Coords; len(c) > 0 {
			lo, hi := box(c)
			if !ok {
				b = bounds{lo, hi}
			}
			b, ok = b.join(bounds{lo, hi}), true
		}
	}
	return b, ok
}

func swapped(coords []chart.Coord, boxes []bounds) bool {
	lo, hi := box(coords)
	as := bounds{lo, hi}
	turned := bounds{chart.Coord{Lon: lo.Lat, Lat: lo.Lon}, chart.Coord{Lon: hi.Lat, Lat: hi.Lon}}
	within := false
	for _, b := range boxes {
		if as.meets(b) {
			return false
		}
		within = within || b.join(turned) == b
	}
	return within
}
