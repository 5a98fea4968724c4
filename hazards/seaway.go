package hazards

import (
	"math"
	"time"

	"keelroom/geo"
	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
)

// Shares of the depth at which a sea breaks, or may: a significant height of
// 0.6 of the depth is the most that shallow water carries (CEM, EM
// 1110-2-1100 part II ch 2: Hm0 <= 0.6 d); the higher waves of a train break
// from about 0.4.
const (
	breaks   = 0.6
	mayBreak = 0.4
)

// Wind against a stream raises short, steep seas that no growth formula has
// (common practice, no source).
const (
	steepStreamKn = 1.5
	steepWindKn   = 12
	opposedDeg    = 60
)

// seaFault is one thing wrong with the sea in a cell.
type seaFault struct {
	kind     int
	severity plan.Severity
	facts    facts.Facts
	measured float64
	required float64
	unit     string
	from, to float64
}

// roughness judges the sea under way.
type roughness struct{ *checker }

// checkLegSea looks at the sea in each cell of a leg and reports each kind of
// fault once for each unbroken stretch.
func (r roughness) checkLegSea(index int, l *legClearance) {
	leg := &r.track.Legs[index]
	var open []seaFault
	l.sortWaters()
	for _, cell := range r.legSea(index) {
		r.did(1)
		open = r.joinFaults(leg, open, r.cellFaults(&cell, l), cell.SeaCell)
	}
	for _, f := range open {
		r.find(f.finding(r.checker, leg))
	}
}

// cellFaults judges the sea in one cell: of each kind of fault the worst of all
// times looked at.
func (r roughness) cellFaults(cell *seaCell, l *legClearance) []seaFault {
	var out []seaFault
	for i := range cell.looks {
		look := &cell.looks[i]
		if !look.known {
			out = worseFault(out, seaFault{kind: 0, severity: plan.NoData, facts: facts.NotGiven{What: facts.NoWind}})
			continue
		}
		for _, f := range r.seaFaults(cell.SeaCell, look, l) {
			out = worseFault(out, f)
		}
		r.noteSwell(&look.state)
	}
	return out
}

// worseFault adds a fault, unless a worse one of its kind is there. Faults of
// height are one kind, and the first of them the worst.
func worseFault(list []seaFault, f seaFault) []seaFault {
	for i := range list {
		g := &list[i]
		if g.kind != f.kind && !(g.ofHeight() && f.ofHeight()) {
			continue
		}
		if f.kind < g.kind || f.kind == g.kind && f.measured > g.measured {
			*g = f
		}
		return list
	}
	return append(list, f)
}

// ofHeight tells whether a fault is one of the height of the sea by itself.
func (f *seaFault) ofHeight() bool { return f.kind >= 1 && f.kind <= 4 }

// joinFaults extends faults that go on, and reports those that ended.
func (r roughness) joinFaults(leg *passage.Leg, open, now []seaFault, cell passage.SeaCell) []seaFault {
	for _, f := range open {
		went := false
		for i := range now {
			if now[i].kind == f.kind {
				n := &now[i]
				went = true
				if f.measured > n.measured {
					n.measured, n.facts = f.measured, f.facts
				}
				n.from = f.from
				n.to = cell.ToM
			}
		}
		if !went {
			r.find(f.finding(r.checker, leg))
		}
	}
	for i := range now {
		if now[i].to == 0 {
			now[i].from, now[i].to = cell.FromM, cell.ToM
		}
	}
	return now
}

func (f seaFault) finding(c *checker, leg *passage.Leg) plan.Finding {
	out := plan.Finding{Check: plan.CheckSea, Severity: f.severity, Facts: f.facts, Leg: leg.Number,
		Time: ptr(c.track.TimeAt(leg, f.from)), Until: ptr(c.track.TimeAt(leg, f.to)), Geometry: line(leg, f.from, f.to)}
	if f.unit != "" {
		out.Measured, out.Required, out.Unit = ptr(f.measured), ptr(f.required), f.unit
	}
	if f.unit == "m" {
		c.keep(plan.InHand{Check: plan.CheckSea, Leg: leg.Number, Measured: f.measured, Required: f.required, Unit: "m"})
	}
	return out
}

// seaFaults judges the sea in one cell at one time, at most one fault of height
// and one of each other kind.
func (r roughness) seaFaults(cell passage.SeaCell, look *seaLook, l *legClearance) []seaFault {
	var out []seaFault
	s := &look.state
	if f, ok := r.heightFault(s); ok {
		out = append(out, f)
	}
	if f, ok := breakingFault(s, l.waterOn(cell.FromM, cell.ToM)); ok {
		out = append(out, f)
	}
	out = append(out, r.streamFaults(s, look.at)...)
	if s.SwellUnknown {
		out = append(out, seaFault{kind: 20, severity: plan.NoData, facts: facts.NotGiven{What: facts.NoSwell}})
	}
	return out
}

func (r roughness) heightFault(s *sea.State) (seaFault, bool) {
	stop, limit := r.plan.Boat.SeaStopM, r.plan.Boat.SeaLimitM
	fault := func(kind int, severity plan.Severity, what string, measured, required float64) (seaFault, bool) {
		f := facts.SeaHeight{What: what, HsM: plan.CeilHundredths(s.HsM), Wind: windOf(s)}
		if what == facts.OpenWater {
			f.Wind, f.OpenM, f.OpenKm = facts.Wind{}, plan.CeilHundredths(s.WithOpenHsM), r.plan.Margins.OpenFetchKm
		}
		return seaFault{kind: kind, severity: severity, facts: f, measured: measured, required: required, unit: "m"}, true
	}
	switch {
	case plan.Exceeds(s.HsM, stop):
		return fault(1, plan.NotClear, facts.TooMuchSea, s.HsM, stop)
	case plan.Exceeds(s.HsM, limit):
		return fault(2, plan.Care, facts.Rough, s.HsM, limit)
	case plan.Exceeds(s.PlusHsM, stop):
		return fault(3, plan.Care, facts.SeaNearLimit, s.PlusHsM, stop)
	case plan.Exceeds(s.WithOpenHsM, math.Min(stop, limit)):
		return fault(4, plan.Care, facts.OpenWater, s.WithOpenHsM, limit)
	}
	return seaFault{}, false
}

// windOf is the wind that raises a sea.
func windOf(s *sea.State) facts.Wind {
	return facts.Wind{Kn: s.WindKn, FromDeg: geo.Bearing(math.Round(s.FromDeg)), FetchNm: nm(s.FetchM)}
}

func breakingFault(s *sea.State, waterM float64) (seaFault, bool) {
	if !(waterM > 0) || math.IsInf(waterM, 1) {
		return seaFault{}, false // dry, or not known: the clearance check says so
	}
	f := seaFault{measured: s.HsM, required: breaks * waterM, unit: "m"}
	what := facts.BreakingSea
	switch {
	case plan.Enough(s.HsM, breaks*waterM):
		f.kind, f.severity = 10, plan.NotClear
	case plan.Enough(s.HsM, mayBreak*waterM), plan.Enough((1+sea.GrowthUncertainty)*s.HsM, breaks*waterM), plan.Enough(s.WithOpenHsM, breaks*waterM):
		f.kind, f.severity, what = 11, plan.Care, facts.SeaMayBreak
	default:
		return seaFault{}, false
	}
	f.facts = facts.Breaking{What: what, HsM: plan.CeilHundredths(s.HsM), WaterM: plan.FloorHundredths(waterM)}
	return f, true
}

func (r roughness) streamFaults(s *sea.State, at time.Time) []seaFault {
	if r.stream == nil {
		return nil
	}
	st, ok := r.stream.At(at)
	switch {
	case !ok:
		return []seaFault{{kind: 21, severity: plan.NoData, facts: facts.NotGiven{What: facts.NoStream}}}
	case st.Kn < steepStreamKn || s.WindKn < steepWindKn || math.Abs(geo.Turn(s.FromDeg, st.TowardDeg)) > opposedDeg:
		return nil
	}
	return []seaFault{{kind: 12, severity: plan.Care, measured: st.Kn, required: steepStreamKn, unit: "kn", facts: facts.WindAgainstStream{StreamKn: st.Kn, WindKn: s.WindKn}}}
}

// checkStemming reports where a stream is stronger than she is, once a leg.
func (r roughness) checkStemming() { r.checkStemmingFrom(0) }

// checkStemmingFrom does so for the legs from one on.
func (r roughness) checkStemmingFrom(first int) {
	last := -1
	for _, u := range r.track.Unstemmed {
		if u.Leg == last || u.Leg < first {
			continue
		}
		last = u.Leg
		leg := &r.track.Legs[u.Leg]
		r.find(plan.Finding{Check: plan.CheckSea, Severity: plan.NotClear, Leg: leg.Number, Facts: facts.CannotStem{Kn: u.Kn, StreamKn: u.StreamKn, TowardDeg: u.TowardDeg, When: facts.At(u.Time)},
			Time: ptr(u.Time), Until: ptr(u.Time), Geometry: leg.Rhumb.At(u.AtM), Measured: ptr(u.StreamKn), Required: ptr(u.Kn), Unit: "kn"})
	}
}

// noteSwell keeps why a swell was not counted, once.
func (c *checker) noteSwell(s *sea.State) {
	if s.SwellCaution != "" && !s.SwellUnknown {
		c.swellShut = true
	}
}
