package hazards

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// obstacles gathers, along one leg or about one stay, what lies in the way:
// land, dangers, no-go areas, things to pass under, and where charts say
// nothing. One feature gives one finding.
type obstacles struct {
	*checker
	situation
	index    int // of the leg; at a stay, of the one that ends there
	leg      *passage.Leg
	met      map[metKey]*plan.Finding
	spans    map[metKey]*[2]float64
	order    []metKey
	notClear map[notClearKey]bool
	outside  []chart.Span
	alone    bool // a private layer is the only one here
	offSet   *chart.Set
	// depthless: a danger whose depth nobody knows lies within the corridor, or may
	// for all that the survey knows of places. What is least of the depths there
	// is not known either.
	depthless bool
}

// metKey is one feature under one check, and what is said of it: a bridge may be
// too low and too narrow.
type metKey struct {
	f       *chart.Feature
	check   string
	sev     plan.Severity
	heading facts.Heading
}

// notClearKey is one feature under one check.
type notClearKey struct {
	f     *chart.Feature
	check string
}

func newObstacles(c *checker, index int, s situation) *obstacles {
	return &obstacles{checker: c, situation: s, index: index, leg: &c.track.Legs[index], met: map[metKey]*plan.Finding{}, spans: map[metKey]*[2]float64{}, notClear: map[notClearKey]bool{}}
}

// along looks at all that a stretch meets.
func (o *obstacles) along(st *stretch) {
	zones := o.zocSpans(st.met)
	o.surveyGaps(st, zones)
	for _, sp := range st.met.Outside {
		if from, to, ok := st.clip(sp); ok {
			o.outside = append(o.outside, chart.Span{From: from, To: to})
		}
	}
	for i := range st.met.Hits {
		h := &st.met.Hits[i]
		if h.Set != nil && h.Set.OffDatum {
			o.offSet = h.Set
		}
		o.meet(st, h, zones)
	}
	o.alone = o.alone || o.chart.OnlyPrivate() && len(st.met.Outside) == 0
}

// meet sees to one feature.
func (o *obstacles) meet(st *stretch, h *chart.Hit, zones []zocSpan) {
	switch k := h.Class; {
	case k == chart.LNDARE || k.Shoreline():
		o.land(st, h, zones)
	case k.NoGo():
		o.noGo(st, h, zones)
	case k.Danger():
		o.danger(st, h, zones)
	case k.Overhead():
		passedUnder{o}.overhead(st, h)
	case k.CloseBy():
		o.closeBy(st, h)
	case troubledWater(k):
		o.troubled(st, h)
	case k == chart.GATCON || k.SpecialWater():
		o.passing(st, h)
	case k == chart.CTNARE || k == chart.PRCARE || k == chart.ACHARE:
		o.notice(st, h)
	case k == chart.MQUAL:
		o.quality(st, h)
	}
	if h.Rules != nil {
		o.rules(st, h)
	}
}

// surveyGaps notes where no survey quality is stated, but for where there are
// no data at all.
func (o *obstacles) surveyGaps(st *stretch, zones []zocSpan) {
	for _, gap := range zocGaps(zones, st.from, st.to) {
		if slices.ContainsFunc(st.met.Outside, func(out chart.Span) bool { return out.From <= gap.From && gap.To <= out.To }) {
			continue
		}
		gathered{o.checker}.poorSurvey(st.leg.Route, nil, o.index, st.base+gap.From, st.base+gap.To)
	}
}

// add notes a finding for a feature on [from, to] metres of the leg; further
// stretches of the same one extend it.
func (o *obstacles) add(h *chart.Hit, from, to float64, f plan.Finding) {
	key := metKey{h.Feature, f.Check, f.Severity, facts.HeadingOf(f.Facts)}
	if s, seen := o.spans[key]; seen {
		s[0], s[1] = math.Min(s[0], from), math.Max(s[1], to)
		if g := o.met[key]; f.Measured != nil && g.Measured != nil && *f.Measured < *g.Measured {
			f.Leg, f.Source = g.Leg, g.Source
			*g = f
		}
		return
	}
	if f.Severity == plan.NotClear {
		o.notClear[notClearKey{h.Feature, f.Check}] = true
	}
	f.Leg = o.leg.Number
	if f.Source == nil {
		f.Source = sourceOf(h.Feature)
	}
	o.met[key], o.spans[key] = &f, &[2]float64{from, to}
	o.order = append(o.order, key)
}

// addSpans adds a finding for each span of a feature on the stretch.
func (o *obstacles) addSpans(st *stretch, h *chart.Hit, spans []chart.Span, f plan.Finding) {
	for _, sp := range spans {
		if from, to, ok := st.clip(sp); ok {
			o.add(h, from, to, f)
		}
	}
}

// overReserveM is how near to her side a thing charted as a point is run over.
const overReserveM = 1

// runsOverM is how near to the track a thing charted as a point must be to be run
// over.
func (c *checker) runsOverM() float64 {
	if b := c.plan.Boat.BeamM; b != nil {
		return *b/2 + overReserveM
	}
	return c.plan.Margins.CorridorSlowM
}

// crossSpans are the places where the track itself crosses the feature, or
// runs over it where it is charted as a point.
func (o *obstacles) crossSpans(h *chart.Hit) []chart.Span {
	out := slices.Clone(h.Inside)
	if h.Prim == chart.Point {
		for _, sp := range h.Near {
			if sp.DistM <= o.runsOverM() {
				out = append(out, sp)
			}
		}
	}
	for _, s := range h.Cross {
		out = append(out, chart.Span{From: s, To: s})
	}
	return out
}

// wideSpans are those within the survey's position accuracy of the corridor.
func wideSpans(st *stretch, h *chart.Hit, zones []zocSpan) []chart.Span {
	return slices.DeleteFunc(h.Beyond(), func(sp chart.Span) bool {
		return sp.DistM > st.halfM+positionReach(zones, sp, 0)
	})
}

// land: areas, islets charted as points, and shorelines.
func (o *obstacles) land(st *stretch, h *chart.Hit, zones []zocSpan) {
	o.solid(st, h, zones, plan.CheckLand, facts.Land, facts.LandInPlace)
}

// noGo: piles, pontoons, dams, farms: things no boat passes over.
func (o *obstacles) noGo(st *stretch, h *chart.Hit, zones []zocSpan) {
	o.solid(st, h, zones, plan.CheckHazard, facts.InTheWay, facts.InTheWayInPlace)
}

// solid judges what stands out of the water. Near a berth it counts only where
// the track crosses it; elsewhere anywhere in the corridor.
func (o *obstacles) solid(st *stretch, h *chart.Hit, zones []zocSpan, check, what, inPlace string) {
	o.keepDistance(st, h, check, st.halfM)
	thing := thingNamed(h.Feature)
	stop := plan.Finding{Check: check, Severity: plan.NotClear, Facts: facts.Solid{What: what, Thing: thing, AtStay: o.atStay()},
		Measured: ptr(h.LeastDistanceM()), Required: ptr(st.halfM), Unit: "m"}
	for _, sp := range h.Near {
		if passedByEye(h.Feature) {
			o.solidSpan(st, h, sp, stop, what)
		} else if from, to, ok := st.clip(sp); ok {
			o.add(h, from, to, stop)
		}
	}
	wide := plan.Finding{Check: check, Severity: plan.Care, Facts: facts.Solid{What: inPlace, Thing: thing}}
	for _, sp := range wideSpans(st, h, zones) {
		from, to, ok := st.clip(sp)
		switch {
		case !ok:
		case !passedByEye(h.Feature):
			o.add(h, from, to, wide)
		default:
			for _, part := range without(from, to, o.eyeSpans()) {
				o.add(h, part.From, part.To, wide)
			}
		}
	}
}

// solidSpan judges one stretch beside a thing that near a berth is passed by
// eye: what of it lies off the berths is not clear, what lies near one only
// where the track crosses it.
func (o *obstacles) solidSpan(st *stretch, h *chart.Hit, sp chart.Span, stop plan.Finding, what string) {
	from, to, ok := st.clip(sp)
	if !ok {
		return
	}
	eye := o.eyeSpans()
	for _, part := range without(from, to, eye) {
		o.add(h, part.From, part.To, stop)
	}
	crossed := false
	stop.Facts = facts.Solid{What: what, Thing: thingNamed(h.Feature), Crossed: true, AtStay: o.atStay()}
	for _, x := range o.crossSpans(h) {
		if a, b, ok := st.clip(x); ok && a <= to && b >= from {
			o.add(h, a, b, stop)
			crossed = true
		}
	}
	for _, e := range eye {
		if a, b := math.Max(from, e.From), math.Min(to, e.To); a <= b && !crossed {
			o.add(h, a, b, plan.Finding{Check: stop.Check, Severity: plan.Note, Facts: facts.ByEye{Thing: thingNamed(h.Feature)}})
		}
	}
}

// without is what is left of [from, to] outside the spans, which are merged and
// in order.
func without(from, to float64, spans []chart.Span) []chart.Span {
	var out []chart.Span
	at, left := from, true
	for _, s := range spans {
		if s.To < at || s.From > to {
			continue
		}
		if s.From > at {
			out = append(out, chart.Span{From: at, To: s.From})
		}
		at = s.To
		left = at < to
	}
	if left {
		out = append(out, chart.Span{From: at, To: to})
	}
	return out
}

// report writes the leg's findings: those of one kind that follow each other
// closely as one, and none that a worse one of the same check covers.
func (o *obstacles) report() {
	var groups []group
	for _, key := range o.order {
		if o.foundWorse(key) {
			continue
		}
		groups = joinGroup(groups, group{finding: *o.met[key], from: o.spans[key][0], to: o.spans[key][1], things: []*chart.Feature{key.f}})
	}
	for i := range groups {
		if g := &groups[i]; !coveredByWorse(g, groups) {
			o.findAbout(g.worded(o), about{things: g.things})
		}
	}
	o.reportCoverage()
}

// foundWorse tells whether care about an area or a mark goes without saying, as the
// leg has the same one not clear.
func (o *obstacles) foundWorse(key metKey) bool {
	if key.sev != plan.Care || key.check != plan.CheckNoEntry && key.check != plan.CheckMark {
		return false
	}
	return o.notClear[notClearKey{key.f, key.check}] || !o.atStay() && key.f.Class.Cardinal() && key.f.Mark != nil && o.legMarks(o.index, nil).wrongCardinal(key.f)
}

// unseen tells whether of some of what is about nothing is known, or not where it
// lies: outside the charts, on a chart in another frame, a feature without a place,
// a danger without a depth.
func (o *obstacles) unseen() bool {
	return o.depthless || len(o.outside) > 0 || o.offSet != nil || slices.ContainsFunc(o.chart.Sets(), func(s *chart.Set) bool {
		return slices.ContainsFunc(s.Refused, func(r chart.Refused) bool { return r.Boxless })
	})
}

// reportCoverage: where no chart has data, or only the skipper's own.
func (o *obstacles) reportCoverage() {
	for _, sp := range joinSpans(o.outside) {
		start, end := o.when(sp.From, sp.To)
		o.find(plan.Finding{Check: plan.CheckCoverage, Severity: plan.NoData, Leg: o.leg.Number, Facts: facts.Coverage{What: facts.OutsideCharts},
			Geometry: o.where(sp.From, sp.To), Time: ptr(start), Until: ptr(end)})
	}
	if o.atStay() {
		return // the leg that ends here has told the rest
	}
	whole := plan.Finding{Leg: o.leg.Number, Time: ptr(o.leg.Start), Until: ptr(o.leg.End), Geometry: orb.LineString{o.leg.Rhumb.From, o.leg.Rhumb.To}}
	if o.alone {
		f := whole
		f.Check, f.Severity, f.Facts = plan.CheckCoverage, plan.Care, facts.Coverage{What: facts.PrivateOnly}
		o.find(f)
	}
	if o.offSet != nil {
		f := whole
		f.Check, f.Severity, f.Facts = plan.CheckDatum, plan.NoData, facts.AnotherFrame{Layer: o.offSet.Title}
		o.find(f)
	}
	for _, s := range o.chart.Sets() {
		for _, r := range s.Refused {
			if r.Boxless {
				f := whole
				f.Check, f.Severity, f.Facts = plan.CheckCoverage, plan.NoData, facts.NotReadNoPlace{Class: r.Class, Index: r.Index, File: r.File, Info: r.Code}
				o.find(f)
			}
		}
	}
}

// joinSpans merges spans closer than a metre.
func joinSpans(spans []chart.Span) []chart.Span {
	slices.SortFunc(spans, func(a, b chart.Span) int { return cmp.Compare(a.From, b.From) })
	var out []chart.Span
	for _, s := range spans {
		if n := len(out); n > 0 && s.From <= out[n-1].To+1 {
			out[n-1].To = math.Max(out[n-1].To, s.To)
			continue
		}
		out = append(out, s)
	}
	return out
}
