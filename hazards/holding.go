package hazards

import (
	"math"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/rode"
)

// anchorGround is what lies at an anchor, as charted.
type anchorGround struct {
	rode.Ground
	natures chart.Codes
	weed    bool
}

// anchorGround is the worst ground that is charted where the anchor may lie: within
// position_m and the survey's accuracy of places. What is charted beyond position_m, and
// what a private layer says, is taken where it is bad: neither makes a ground known to be
// good, or a worse survey would.
func (s *stayCheck) anchorGround() anchorGround {
	met := s.metAt(s.stop.Stay.At, chart.Reach{HalfM: s.plan.Margins.PositionM + s.surveyedToM()})
	out := anchorGround{Ground: rode.BestGround}
	charted := false
	for i := range met.Hits {
		h := &met.Hits[i]
		if len(h.Near) == 0 || !h.Class.SeaBed() && h.NatSur == 0 {
			continue
		}
		g := rode.GroundOf(h.NatSur.List()...)
		if h.Class == chart.WEDKLP {
			g, out.weed = rode.Weed, true
		}
		here := len(h.Inside) > 0 || h.LeastDistanceM() <= s.plan.Margins.PositionM
		if !here && g == rode.BestGround {
			continue
		}
		out.natures |= h.NatSur
		out.Ground = out.Ground.Worse(g)
		charted = charted || here && (h.Set == nil || h.Set.Authority != chart.Private)
	}
	if !charted {
		out.Ground = rode.NoGround.Worse(out.Ground)
	}
	return out
}

// unstatedPlaceM is how well places are surveyed where no quality is stated (at-anchor
// contract, section 3), metres.
const unstatedPlaceM = 50

// surveyedToM is how well the survey knows places about the anchor.
func (s *stayCheck) surveyedToM() float64 {
	zoc := worstZoc(s.zocSpans(&s.met), 0, 0)
	if m, ok := PositionAccuracyM(zoc, reckonedM); ok {
		return m
	}
	return unstatedPlaceM
}

var holds = map[rode.Holding]facts.Holds{rode.Good: facts.HoldsWell, rode.Fair: facts.HoldsFairly, rode.Poor: facts.HoldsPoorly, rode.NotCharted: facts.HoldsNotCharted}

func (g anchorGround) facts() facts.Ground {
	return facts.Ground{Natures: g.natures, Weed: g.weed, Holds: holds[g.Holding]}
}

// checkHolding compares what pulls at the anchor with what it holds in the ground there
// (at-anchor contract, section 4). What pulls at the least is judged though not all of it
// is known.
func (s *stayCheck) checkHolding() {
	if s.stop.Stay.Kind != plan.AtAnchor {
		return
	}
	ground := s.anchorGround()
	load, known := s.pull().loadN()
	f := facts.HoldingFor{LoadN: math.Ceil(load), LoadKg: math.Ceil(rode.KilogramsForce(load)), GustKn: s.pull().gustKn, Ground: ground.facts()}
	if !known {
		f.LoadN, f.LoadKg = 0, 0
	}
	holding := s.plan.Boat.HoldingN
	if holding == nil {
		s.notGiven(f, ground)
		return
	}
	f.HoldingN, f.CountedN = math.Floor(*holding), math.Floor(*holding*ground.Counted)
	switch {
	case plan.Exceeds(load, *holding*ground.Counted):
		f.LoadN, f.LoadKg = math.Ceil(load), math.Ceil(rode.KilogramsForce(load))
		s.holds(facts.HoldingTooLittle, plan.NotClear, f, load, *holding*ground.Counted)
		return
	case !known:
		s.add(plan.Finding{Check: plan.CheckHolding, Severity: plan.NoData, Facts: facts.LoadNotKnown{Why: s.whyNoLoad()}})
	case ground.Holding == rode.NotCharted && plan.Exceeds(load, *holding*halfHolding):
		s.holds(facts.HoldingDoubtful, plan.Care, f, load, *holding*halfHolding)
	}
	if ground.Holding == rode.Poor {
		s.holds(facts.PoorHolding, plan.Care, f, load, f.CountedN)
	}
	if known {
		s.keepHere(plan.CheckHolding, *holding*ground.Counted, load, "N")
	}
}

// halfHolding is the share of what her anchor holds above which a load wants care where
// the ground is not charted.
const halfHolding = 0.5

// notGiven tells of the load where it is not known what her anchor holds.
func (s *stayCheck) notGiven(f facts.HoldingFor, ground anchorGround) {
	what := facts.HoldingNotGiven
	severity := plan.Note
	if ground.Holding == rode.Poor {
		what, severity = facts.PoorHolding, plan.Care
	}
	f.What = what
	s.add(plan.Finding{Check: plan.CheckHolding, Severity: severity, Facts: f, Unit: "N", Measured: positive(f.LoadN)})
}

// positive is a figure, nil for nothing.
func positive(v float64) *float64 {
	if v <= 0 {
		return nil
	}
	return &v
}

func (s *stayCheck) holds(what string, severity plan.Severity, f facts.HoldingFor, loadN, countedN float64) {
	f.What = what
	s.add(plan.Finding{Check: plan.CheckHolding, Severity: severity, Facts: f, Measured: ptr(math.Ceil(loadN)), Required: ptr(math.Floor(countedN)), Unit: "N", Made: s.loadTerms()})
}

// loadTerms are what the load is made of, in whole newtons that add up.
func (s *stayCheck) loadTerms() []plan.Term {
	p := s.pull()
	load, known := p.loadN()
	if !known {
		return nil
	}
	wind := math.Ceil(p.windN)
	out := []plan.Term{{Value: wind, Unit: "N", Of: facts.Term{Part: facts.WindLoad, Kn: p.gustAtWorstKn}}}
	if s.stream != nil {
		out = append(out, plan.Term{Value: math.Ceil(load) - wind, Unit: "N", Of: facts.Term{Part: facts.StreamLoad, Kn: p.streamAtWorstKn}})
	}
	return out
}
