package plan

import "slices"

// InHand is how much is in hand at the worst place of a leg or a stay: what one check
// measured there, and what it required. Where a part of it is not known there is none:
// the finding says so.
type InHand struct {
	Check    string
	Leg      int // 0: of the day as a whole
	Stay     int // from 1; 0: on the way
	Measured float64
	Required float64 // or the limit, where more is worse
	Unit     string
}

// moreIsWorse are the checks whose figures must stay below a limit.
var moreIsWorse = []string{CheckSea, CheckShelter}

// Left is how much is in hand: below nothing where it is too little.
func (m *InHand) Left() float64 {
	if slices.Contains(moreIsWorse, m.Check) {
		return m.Required - m.Measured
	}
	return m.Measured - m.Required
}

// Keep takes a figure in, unless less is in hand of the same check at the same leg or
// stay. Those of one leg come one after the other.
func (r *Report) Keep(m InHand) {
	for i := len(r.InHand) - 1; i >= 0 && r.InHand[i].Leg == m.Leg; i-- {
		if old := &r.InHand[i]; old.Check == m.Check && old.Stay == m.Stay {
			if m.Left() < old.Left() {
				*old = m
			}
			return
		}
	}
	r.InHand = append(r.InHand, m)
}
