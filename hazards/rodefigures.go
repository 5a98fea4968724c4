package hazards

import (
	"math"
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/rode"
)

// rodeFigures writes what the report has of the anchor and the rode, and the hours of the
// stay. What only asks for a verdict needs none but the ground.
func (s *stayCheck) rodeFigures() {
	if s.stop.Stay.Kind == plan.AtAnchor {
		s.out.Ground = ptr(s.anchorGround().facts())
	}
	if s.brief {
		return
	}
	r := s.rodeOf()
	s.out.Hours = s.hours(r)
	if s.stop.Stay.Kind != plan.AtAnchor {
		return
	}
	s.figure("load_n", &s.out.LoadN, s.loadTerms())
	s.figure("sound_from_m", &s.out.SoundFromM, s.soundFromTerms())
	if r.known && r.highKnown && r.highM > 0 {
		s.out.ScopeHigh = ptr(r.line.LengthM() / r.highM)
	}
	if r.known && r.lowM > 0 {
		s.out.ScopeLow = ptr(r.line.LengthM() / r.lowM)
	}
	if c, ok := s.chain(); ok {
		s.figure("sound_to_m", &s.out.SoundToM, c.soundToTerms())
		if s.plan.Boat.RodeGiven() {
			c.layFigures(r)
		}
	}
}

// figure writes a figure and what it is made of.
func (s *stayCheck) figure(name string, to **float64, terms []plan.Term) {
	if *to = sumOf(terms); terms != nil {
		s.out.Explained = append(s.out.Explained, plan.Explained{Figure: name, Made: terms})
	}
}

// layFigures are what to lay, and the gusts that lift what is laid.
func (c chainCheck) layFigures(r rodeFacts) {
	if !r.highKnown {
		return
	}
	depth, _ := c.bed.deepest()
	c.out.Explained = append(c.out.Explained, plan.Explained{Figure: "height_m", Made: c.heightTerms(depth)})
	if load, known := c.pull().loadN(); known {
		c.figure("to_lay_m", &c.out.ToLayM, c.toLayTerms(rode.Lay(c.aboard, c.scope, r.highM, load), r.highM))
	}
	c.out.LiftKn = c.lift(r.highM)
}

// toLayTerms are what a length to lay is made of.
func (c chainCheck) toLayTerms(l rode.Laying, heightM float64) []plan.Term {
	round := func(m float64) float64 { return math.Round(m*100) / 100 }
	byScope := metres(facts.ScopeRule, round(l.ScopeM))
	byScope.Of.Scope, byScope.Of.M = c.scopeAt(heightM), heightM
	wanted := math.Max(l.ScopeM, l.AngleM)
	whole := math.Ceil(plan.WholeMM(wanted))
	out := []plan.Term{byScope, metres(facts.PullLevel, round(wanted)-round(l.ScopeM)), metres(facts.WholeMetres, whole-round(wanted)), metres(facts.NotAboard, round(l.ToLayM)-whole)}
	if math.IsInf(wanted, 0) { // no length keeps the pull level: all that is aboard
		out = []plan.Term{byScope, metres(facts.PullLevel, round(l.ToLayM)-round(l.ScopeM))}
	}
	return withoutNothing(out)
}

// withoutNothing leaves out the terms after the first that are nothing.
func withoutNothing(terms []plan.Term) []plan.Term {
	out := terms[:1]
	for _, t := range terms[1:] {
		if math.Abs(t.Value) >= 0.005 {
			out = append(out, t)
		}
	}
	return out
}

// lift are the gusts at which the pull comes up at the shank at the greatest height of the
// stay, with the stream of the greatest load. A gust that never does is nil.
func (c chainCheck) lift(heightM float64) *plan.Lift {
	area, ok := c.plan.Boat.Windage()
	if p := c.pull(); !ok || !p.streamKnown || !p.beamKnown {
		return nil
	}
	line := c.aboard.Laid(c.laidM)
	gust := func(deg float64) *float64 {
		kn := rode.GustForLoadKn(area, line.LiftN(heightM, deg)-c.pull().streamN)
		if math.IsInf(kn, 0) || math.IsNaN(kn) {
			return nil
		}
		return &kn
	}
	return &plan.Lift{LevelKn: gust(0), SteepKn: gust(rode.MaxShankDeg)}
}

// hourStep is how far the rows of a stay's hours lie apart, but for those at a turn.
const hourStep = time.Hour

// hours are the rows of a stay: as she arrives, each hour after, as she leaves, and at
// every turn of tide, wind, sea or stream between.
func (s *stayCheck) hours(r rodeFacts) []plan.StayHour {
	deep, deepKnown := s.bed().deepest()
	var out []plan.StayHour
	for _, t := range s.times() {
		if !s.isRow(t) {
			continue
		}
		row := plan.StayHour{Time: t}
		s.waterAt(&row)
		if w, ok := s.wind.At(t); ok {
			row.GustKn = ptr(w.GustKn)
		}
		row.HeadingDeg = s.headingAt(t)
		if row.TideM != nil && deepKnown && r.known && s.stop.Stay.Kind == plan.AtAnchor {
			if height := deep + *row.TideM + s.bed().topMarginM + s.bed().rollerM; height > 0 {
				row.Scope = ptr(r.line.LengthM() / height)
			}
		}
		out = append(out, row)
	}
	return out
}

// isRow tells whether one of the times at which the stay is looked at has a row: its ends,
// the turns, and each full hour with no turn close by.
func (s *stayCheck) isRow(t time.Time) bool {
	const closeBy = stayStep / 2
	since := t.Sub(s.stop.Arrive)
	switch {
	case since == 0 || t.Equal(s.stop.Leave) || since%stayStep != 0:
		return true // a time between the half hours is a turn
	case s.turn(t, 1):
		return true
	}
	return since%hourStep == 0 && !s.turn(t, closeBy)
}

// turn tells whether the tide or what is given turns less than a while before or after a
// time.
func (s *stayCheck) turn(t time.Time, while time.Duration) bool {
	if len(s.turnsIn(t.Add(-while), t.Add(while))) > 0 {
		return true
	}
	return s.heights.tide != nil && len(s.heights.tide.Events(t.Add(1-while), t.Add(while-1))) > 0
}

// waterAt writes the tide, the sea and what is under the keel at a time of the stay.
func (s *stayCheck) waterAt(row *plan.StayHour) {
	state, seaKnown := s.seaAt(s.stop.Stay.At, row.Time)
	seaKnown = seaKnown && !state.SwellUnknown && len(s.met.Outside) == 0
	if seaKnown {
		row.SeaM, row.SeaOpenM = ptr(state.HsM), ptr(state.WithOpenHsM)
	}
	if s.heights.tide == nil {
		return
	}
	h, ok := s.heights.tide.HeightM(row.Time)
	if !ok {
		return
	}
	row.TideM = &h
	if s.least == nil || !seaKnown || s.out.ClearanceLeastM == nil {
		return
	}
	x := *s.least
	x.tideM, x.waveM = h, s.plan.Margins.WaveFraction*state.HsM
	row.ClearanceM = ptr(plan.WholeMM(x.clearanceM()))
}
