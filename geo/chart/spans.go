package chart

import (
	"cmp"
	"math"
	"slices"
)

// Span is a stretch of a piece of track, in metres from its start, over which
// something lies within reach. DistM is the least distance to it there.
type Span struct{ From, To, DistM float64 }

// mergeSpans sorts spans and joins those that touch. It works in place.
func mergeSpans(s []Span) []Span {
	if len(s) < 2 {
		return s
	}
	sortSpans(s)
	out := s[:1]
	for _, v := range s[1:] {
		last := &out[len(out)-1]
		if v.From > last.To {
			out = append(out, v)
			continue
		}
		last.To = max(last.To, v.To)
		last.DistM = min(last.DistM, v.DistM)
	}
	return out
}

// sortSpans sorts spans by where they begin. Most lists are short, and then inserting one
// after the other is quickest.
func sortSpans(s []Span) {
	const short = 24
	if len(s) > short {
		slices.SortFunc(s, func(a, b Span) int { return cmp.Compare(a.From, b.From) })
		return
	}
	for i := 1; i < len(s); i++ {
		v, k := s[i], i
		for ; k > 0 && v.From < s[k-1].From; k-- {
			s[k] = s[k-1]
		}
		s[k] = v
	}
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

// intersectSpans gives what (merged) a and b share.
func intersectSpans(a, b []Span) []Span {
	var out []Span
	for _, v := range a {
		for _, w := range b {
			if from, to := max(v.From, w.From), min(v.To, w.To); from <= to {
				out = append(out, Span{from, to, min(v.DistM, w.DistM)})
			}
		}
	}
	return out
}

// gapsIn gives the parts of [0, length] that none of the merged spans covers,
// leaving out those shorter than the resolution of positions.
func gapsIn(covered []Span, length float64) []Span {
	var out []Span
	at := 0.0
	for _, c := range covered {
		if c.From-at > resolutionM {
			out = append(out, Span{at, c.From, 0})
		}
		at = max(at, c.To)
	}
	if length-at > resolutionM || len(covered) == 0 {
		out = append(out, Span{at, length, 0})
	}
	return out
}

// insideSpans turns the sorted places where a boundary is crossed, with the
// state at one place known, into the spans of [0, length] inside. It appends
// to out.
func insideSpans(out []Span, crossings []float64, refInside bool, ref, length float64) []Span {
	before := 0
	for _, c := range crossings {
		if c < ref {
			before++
		}
	}
	inside := refInside != (before%2 == 1) // the state before the first
	at := math.Inf(-1)
	for i := 0; i <= len(crossings); i++ {
		to := math.Inf(1)
		if i < len(crossings) {
			to = crossings[i]
		}
		if from, end := max(at, 0), min(to, length); inside && from <= end {
			out = append(out, Span{from, end, 0})
		}
		inside, at = !inside, to
	}
	return out
}
