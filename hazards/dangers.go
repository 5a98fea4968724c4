package hazards

import (
	"math"
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// passability of an underwater danger (layer-profile contract, section 4.5).
type passability int

const (
	hasDepth passability = iota // VALSOU is its least depth: the clearance check has it
	impassable
	anchorNot // said to be no danger to surface craft: passing is care
	asAround  // taken as no shoaler than the water around it, as the skipper chose
)

// passable judges a danger by what the chart says of it. Codes: IHO S-57
// App. A (CATOBS 7 foul ground, 9 ground tackle; CATWRK 1 non-dangerous, 3
// distributed remains; WATLEV 3 always under water; EXPSOU 1 within the range
// of the surrounding depth).
func passable(f *chart.Feature, acceptExpSou1 bool) passability {
	d := f.Danger
	switch {
	case chart.Known(f.DepthMinM):
		return hasDepth
	case d == nil, d.WatLev == 1, d.WatLev == 2, d.WatLev == 4, d.WatLev == 5, d.WatLev == 6, d.WatLev == 7:
		return impassable // it dries, is awash or floats
	case d.CatObs == 7 || d.CatObs == 9 || d.CatWrk == 1 || d.CatWrk == 3:
		return anchorNot
	case d.WatLev == 3 && d.ExpSou == 1 && acceptExpSou1:
		return asAround
	}
	return impassable
}

// danger: rocks, wrecks and obstructions. Those with a depth are judged by the
// clearance check.
func (o *obstacles) danger(st *stretch, h *chart.Hit, zones []zocSpan) {
	reach := st.halfM + o.plan.Margins.HazardM
	finding := func(s plan.Severity, what string) plan.Finding {
		return plan.Finding{Check: plan.CheckHazard, Severity: s, Facts: facts.Danger{What: what, Thing: dangerNamed(h.Feature), AtStay: o.atStay()}}
	}
	switch passable(h.Feature, o.plan.Choices.AcceptExpsou1) {
	case impassable:
		o.depthless = o.depthless || reached(st, h.Near) || reached(st, wideDanger(h, reach, zones))
		o.keepDistance(st, h, plan.CheckHazard, reach)
		f := finding(plan.NotClear, facts.DangerNoDepth)
		f.Measured, f.Required, f.Unit = ptr(h.LeastDistanceM()), ptr(reach), "m"
		o.addSpans(st, h, h.Near, f)
		o.addSpans(st, h, wideDanger(h, reach, zones), finding(plan.Care, facts.DangerInPlace))
	case anchorNot:
		o.addSpans(st, h, h.Near, finding(plan.Care, facts.DangerHarmless))
	case hasDepth:
		if h.Doubtful {
			o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckHazard, Severity: plan.Care,
				Facts: facts.Danger{What: facts.DepthDoubtful, Thing: dangerNamed(h.Feature), DepthM: down(h.DepthMinM)}})
		}
	}
}

// dangerNamed is what a danger is (IHO S-57 App. A: CATOBS 7 foul ground, 9 ground
// tackle).
func dangerNamed(f *chart.Feature) facts.Thing {
	t := facts.Thing{Class: f.Class, Name: f.Name}
	if d := f.Danger; d != nil && f.Class == chart.OBSTRN && (d.CatObs == 7 || d.CatObs == 9) {
		t.Kind = d.CatObs
	}
	return t
}

// reached tells whether a stretch comes to any of the spans.
func reached(st *stretch, spans []chart.Span) bool {
	return slices.ContainsFunc(spans, func(sp chart.Span) bool {
		_, _, ok := st.clip(sp)
		return ok
	})
}

func wideDanger(h *chart.Hit, reach float64, zones []zocSpan) []chart.Span {
	var out []chart.Span
	for _, sp := range h.Beyond() {
		if sp.DistM <= reach+positionReach(zones, sp, 0) {
			out = append(out, sp)
		}
	}
	return out
}

// quality warns once for each route and survey area whose position accuracy
// is no help (C) or not known: there no corridor is wide enough to be sure.
func (o *obstacles) quality(st *stretch, h *chart.Hit) {
	if h.Meta == nil {
		return
	}
	if _, ok := PositionAccuracyM(h.Meta.CatZoc, 0); ok {
		return
	}
	for _, sp := range h.Near {
		if from, to, ok := st.clip(sp); ok {
			gathered{o.checker}.poorSurvey(st.leg.Route, h.Feature, o.index, from, to)
		}
	}
}

// poor is a survey area of low quality met by a route.
type poor struct {
	route    int
	area     *chart.Feature
	leg      int
	from, to float64
}

// gathered are the warnings that legs bring together, told once a route or day.
type gathered struct{ *checker }

func (g gathered) poorSurvey(route int, area *chart.Feature, leg int, from, to float64) {
	for i := range g.poors {
		if p := &g.poors[i]; p.route == route && p.area == area {
			if p.leg == leg {
				p.to = math.Max(p.to, to)
			}
			return
		}
	}
	g.poors = append(g.poors, poor{route, area, leg, from, to})
}

// reportQuality writes the warnings that poorSurvey gathered.
func (g gathered) reportQuality() {
	for _, p := range g.poors {
		leg, quality, source := &g.track.Legs[p.leg], 0, (*plan.Source)(nil)
		if p.area != nil {
			quality, source = p.area.Meta.CatZoc, sourceOf(p.area)
		}
		g.find(plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Leg: leg.Number, Facts: facts.PoorSurvey{CatZoc: quality},
			Time: ptr(g.track.TimeAt(leg, p.from)), Until: ptr(g.track.TimeAt(leg, p.to)), Geometry: line(leg, p.from, p.to), Source: source})
	}
}
