package chart

import (
	"math"
	"slices"
)

// Span is a stretch of a piece of track, in metres from its start, over which
// something lies within reach. DistM is the least distance to it there.
type Span struct{ From, To, DistM float64 }

// mergeSpans sorts spans and joins those that touch or lie within a gap. It
// works in place.
func mergeSpans(s []Span, gap float64) []Span {
	if len(s) < 2 {
		return s
	}
	slices.SortFunc(s, func(a, b Span) int {
		switch {
		case a.From < b.From:
			return -1
		case a.From > b.From:
			return 1
		}
		return 0
	})
	out := s[:1]
	for _, v := range s[1:] {
		last := &out[len(out)-1]
		if v.From > last.To+gap {
			out = append(out, v)
			continue
		}
		last.To = math.Max(last.To, v.To)
		last.DistM = math.Min(last.DistM, v.DistM)
	}
	return out
}

// subtractSpans gives what is left of a (merged) outside b (merged). Spans of
// no length survive unless b holds them. The result is new.
func subtractSpans(a, b []Span) []Span {
	var out []Span
	for _, v := range a {
		from, left := v.From, true
		for _, w := range b {
			if w.To < from || w.From > v.To {
				continue
			}
			if w.From > from {
				out = append(out, Span{from, w.From, v.DistM})
			}
			if w.To >= v.To {
				left = false
				break
			}
			from = w.To
		}
		if left {
			out = append(out, Span{from, v.To, v.DistM})
		}
	}
	return out
}

// gapsIn gives the parts of [0, length] that none of the merged spans covers,
// leaving out slivers shorter than the resolution of positions.
func gapsIn(covered []Span, length float64) []Span {
	const resolution = 0.02 // metres; positions are stored to 1e-7° = 1.1 cm
	var out []Span
	at := 0.0
	for _, c := range covered {
		if c.From-at > resolution {
			out = append(out, Span{at, c.From, 0})
		}
		at = math.Max(at, c.To)
	}
	if length-at > resolution || len(covered) == 0 {
		out = append(out, Span{at, length, 0})
	}
	return out
}

// insideSpans turns the places where a boundary is crossed, with the state at
// one place known, into the spans inside. crossings is sorted in place.
func insideSpans(crossings []float64, refInside bool, ref, length float64) []Span {
	slices.Sort(crossings)
	before := 0
	for _, c := range crossings {
		if c < ref {
			before++
		}
	}
	inside := refInside != (before%2 == 1) // the state at the start
	var out []Span
	at := 0.0
	for _, c := range crossings {
		if inside {
			out = append(out, Span{at, c, 0})
		}
		inside, at = !inside, c
	}
	if inside {
		out = append(out, Span{at, length, 0})
	}
	return out
}
