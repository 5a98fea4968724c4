package hazards

import (
	"cmp"
	"math"
	"slices"
	"time"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// sum is the clearance under the keel at one claim and what it is made of
// (plan-file contract, section 3). Metres.
type sum struct {
	claim
	start, end time.Time // when she is there
	kn         float64
	offsetM    float64 // tide datum above sounding datum
	tideM      float64 // least height, above the tide's datum
	marginM    float64
	draughtM   float64
	squatM     float64
	lowSquatM  float64 // of deep water, at that speed
	humpM      float64 // the most it can be
	// marginAheadM is the greatest margin of the days about: where it is a share
	// of the range it may be more at another hour.
	marginAheadM float64
	waveM        float64
	openWaveM    float64 // more, with open water beyond the data
	accuracyM    float64 // of the charted depth
	requiredM    float64
	datumOK      bool
	seaUnknown   bool // too little may have been taken off for waves
	atStay       bool // while lying there, not in passing
}

// waterM is the least depth of water.
func (s *sum) waterM() float64 { return s.depthM + s.offsetM + s.tideM - s.marginM }

// needM is the depth of water that she needs.
func (s *sum) needM() float64 { return s.draughtM + s.squatM + s.waveM + s.requiredM }

// clearanceM is what is under the keel.
func (s *sum) clearanceM() float64 { return s.waterM() - s.draughtM - s.squatM - s.waveM }

// levelM is the height of tide (above its datum) that leaves the required
// clearance, at that hour or at another: enough once rounded, as all sums are.
func (s *sum) levelM() float64 {
	water := waterNeeded(s.draughtM+s.waveM+s.requiredM, s.lowSquatM, s.humpM, s.kn)
	return water - s.depthM - s.offsetM + math.Max(s.marginM, s.marginAheadM) - plan.RoundedUpMM
}

// sumUp works out the clearance at a claim. ok is false where the height of
// tide at that time is not known.
func (l *legClearance) sumUp(st *stretch, cl claim, zones []zocSpan, confined bool) (sum, bool) {
	s := sum{claim: cl, start: l.track.TimeAt(st.leg, cl.from), end: l.track.TimeAt(st.leg, cl.to)}
	s.kn = l.fastest(st, cl.from, cl.to)
	s.offsetM, s.datumOK = l.levels().offset(cl.f)
	var ok bool
	s.tideM, s.marginM, ok = l.heights.least(s.start.Add(-underWayPad), s.end.Add(underWayPad))
	if !ok {
		return s, false
	}
	s.draughtM = l.plan.Boat.DraughtM
	s.squatM = Squat(&l.plan.Boat, s.kn, s.waterM(), confined)
	s.lowSquatM, s.humpM, s.marginAheadM = deepWaterSquat(&l.plan.Boat, s.kn, confined), l.plan.Boat.HumpM, l.marginAheadM
	within, withOpen, seaKnown := l.waves(st.index, cl.from, cl.to)
	s.seaUnknown = !seaKnown
	s.waveM = l.plan.Margins.WaveFraction * within
	s.openWaveM = l.plan.Margins.WaveFraction * (withOpen - within)
	s.accuracyM = DepthAccuracyM(worstZoc(zones, cl.from-st.base, cl.to-st.base), cl.depthM)
	s.requiredM = l.plan.Margins.UnderKeelAt(s.kn)
	return s, true
}

// kinds of clearance findings, worst first. One leg has at most one of a kind
// on one stretch of water.
type clearanceKind int

const (
	tooLittle clearanceKind = iota
	unknownDepth
	leftOut
	unknownTide
	onlyExact
	onlyInPlace
	unknownInPlace
	onlyData
	uncomfortable
	fine
)

func (k clearanceKind) severity() plan.Severity {
	switch k {
	case tooLittle:
		return plan.NotClear
	case unknownDepth, leftOut, unknownTide:
		return plan.NoData
	case fine:
		return plan.Clear
	}
	return plan.Care
}

// judge tells what is wrong with a clearance, if anything.
func (s *sum) judge(m *plan.Margins) clearanceKind {
	have := s.clearanceM()
	switch {
	case !plan.Enough(have, s.requiredM) && !s.wide:
		return tooLittle
	case !plan.Enough(have, s.requiredM):
		return onlyInPlace
	case s.wide:
		return fine
	case !plan.Enough(have-s.accuracyM, s.requiredM):
		return onlyExact
	case !plan.Enough(have-s.openWaveM, s.requiredM):
		return onlyData
	case s.kn > plan.SlowKn && !plan.Enough(s.waterM(), m.ComfortDepthM):
		return uncomfortable
	}
	return fine
}

// found is a clearance finding being put together.
type found struct {
	kind     clearanceKind
	from, to float64
	worst    sum
	levelM   float64 // the highest tide that any of it needs
	timely   bool    // all of it can be told for another hour: datum and sea are known
	unknown  facts.Unknown
	source   *chart.Feature
}

// legClearance checks the water under the keel along one leg.
type legClearance struct {
	*checker
	index    int // of the leg
	found    []found
	least    *sum  // of all claims, those that only the survey's accuracy brings near among them
	partial  bool  // some of it is not known, so that its least is no figure
	limiting []sum // the passing claims whose window may close first: see limit
	// passes and needLevelM are of the passing claims of a bound: that there are any,
	// and the highest tide that one needs.
	passes     bool
	needLevelM float64
	datum      []found
	noTide     bool
	bounds     legBounds
	waters     []waterSpan
	// firstFinding is the place of the leg's first finding among the report's.
	firstFinding int
}

// waterSpan is the least depth of water that one claim leaves on a stretch, and the
// depth that she needs there.
type waterSpan struct{ from, to, waterM, needM float64 }

// sortWaters makes waterOn ready to be asked.
func (l *legClearance) sortWaters() {
	slices.SortFunc(l.waters, func(a, b waterSpan) int { return cmp.Compare(a.from, b.from) })
}

// on are the waters that begin so that they may reach into [from, to] metres of the
// leg. No claim is longer than a piece of track.
func (l *legClearance) on(from, to float64) []waterSpan {
	begins := func(w waterSpan, x float64) int { return cmp.Compare(w.from, x) }
	first, _ := slices.BinarySearchFunc(l.waters, from-chart.MaxPieceM-1, begins)
	last, _ := slices.BinarySearchFunc(l.waters, math.Nextafter(to, math.Inf(1)), begins)
	return l.waters[first:last]
}

// waterOn is the least depth of water on [from, to] metres of the leg, +Inf
// where none is known.
func (l *legClearance) waterOn(from, to float64) float64 {
	least := math.Inf(1)
	for _, w := range l.on(from, to) {
		if w.to >= from {
			least = math.Min(least, w.waterM)
		}
	}
	return least
}

// add joins a finding to those of its kind close by, or begins a new one.
func add(list []found, f found) []found {
	out := list[:0]
	for _, g := range list {
		if g.kind != f.kind || f.kind == leftOut && g.source != f.source || f.from > g.to+togetherM || f.to < g.from-togetherM {
			out = append(out, g)
			continue
		}
		f.levelM, f.timely = math.Max(f.levelM, g.levelM), f.timely && g.timely
		if g.shortfall() >= f.shortfall() {
			f.worst, f.source, f.unknown = g.worst, g.source, g.unknown
		}
		f.from, f.to = math.Min(g.from, f.from), math.Max(g.to, f.to)
	}
	return append(out, f)
}

// shortfall is how much clearance is wanting; the worst of a group speaks.
func (f *found) shortfall() float64 { return f.worst.requiredM - f.worst.clearanceM() }

// clearance checks the water under the keel along a stretch.
func (l *legClearance) clearance(st *stretch) {
	zones := l.zocSpans(st.met)
	confined := l.confined(st)
	claims := l.claims(st)
	slices.SortStableFunc(claims, func(a, b claim) int { return cmp.Compare(a.depthM, b.depthM) })
	for _, cl := range claims {
		if cl.unknown != (facts.Unknown{}) {
			l.partial = true
			l.found = add(l.found, unknownWater(cl))
			continue
		}
		if l.surelyFine(cl) {
			continue
		}
		s, ok := l.sumUp(st, cl, zones, confined)
		if !ok {
			l.noTide, l.partial = true, true
			continue
		}
		l.weigh(&s)
	}
}

func (l *legClearance) weigh(s *sum) {
	kind := s.judge(&l.plan.Margins)
	l.partial = l.partial || !s.datumOK || s.seaUnknown
	if !s.datumOK && kind != tooLittle {
		l.datum = add(l.datum, found{kind: unknownTide, from: s.from, to: s.to, worst: *s, source: s.f})
		return
	}
	if kind != fine {
		l.found = add(l.found, found{kind: kind, from: s.from, to: s.to, worst: *s, levelM: s.levelM(), timely: s.datumOK && !s.seaUnknown, source: s.f})
	}
	if !s.datumOK {
		return // its figure is only a bound from above
	}
	if l.least == nil || s.clearanceM() < l.least.clearanceM() {
		l.least = ptr(*s)
	}
	if s.wide {
		return
	}
	l.waters = append(l.waters, waterSpan{s.from, s.to, s.waterM(), s.needM()})
	if kind != tooLittle {
		l.limit(s)
	}
}

// limit keeps a claim that passes unless another needs as high a tide for as
// long, the tide not falling below it between the two: of two claims the one
// with the higher level or the later end may have the window that closes first.
func (l *legClearance) limit(s *sum) {
	if l.bounding {
		l.passes, l.needLevelM = true, math.Max(l.needLevelM, s.levelM())
		return
	}
	covers := func(a, b *sum) bool {
		if a.levelM() < b.levelM() || a.end.Before(b.end) {
			return false
		}
		if !a.start.After(b.end) {
			return true
		}
		between, ok := l.heights.tide.Least(b.end, a.start)
		return ok && between >= b.levelM()
	}
	for i := range l.limiting {
		if covers(&l.limiting[i], s) {
			return
		}
	}
	l.limiting = slices.DeleteFunc(l.limiting, func(old sum) bool { return covers(s, &old) })
	l.limiting = append(l.limiting, *s)
}

// confined tells whether any of the stretch is narrow water.
func (l *legClearance) confined(st *stretch) bool {
	for i := range st.met.Hits {
		if h := &st.met.Hits[i]; h.Class.Confined() && h.Prim == chart.Area {
			for _, sp := range h.Near {
				if _, _, ok := st.clip(sp); ok {
					return true
				}
			}
		}
	}
	return false
}

// reportClearance writes a leg's findings: worse ones hide the milder ones of
// the same water.
func (l *legClearance) reportClearance() {
	for _, f := range l.found {
		if !hidden(f, l.found) {
			l.find(l.clearanceFinding(f))
		}
	}
	for _, f := range l.datum {
		l.find(l.datumFinding(f))
	}
	if l.noTide {
		l.find(l.noTideFinding())
	}
	switch {
	case l.bounding:
		l.boundWindow()
	case !l.onlyStops:
		l.reportWindow()
	}
}

// hidden tells whether a finding's water has a worse one.
func hidden(f found, all []found) bool {
	for _, g := range all {
		worse := g.kind == tooLittle || f.kind == unknownInPlace && g.kind.severity() == plan.NoData
		if worse && f.kind.severity() == plan.Care && g.from-togetherM <= f.from && f.to <= g.to+togetherM {
			return true
		}
	}
	return false
}

func (l *legClearance) clearanceFinding(f found) plan.Finding {
	leg := &l.track.Legs[l.index]
	out := plan.Finding{Check: plan.CheckClearance, Severity: f.kind.severity(), Leg: leg.Number,
		Time: ptr(l.track.TimeAt(leg, f.from)), Until: ptr(l.track.TimeAt(leg, f.to)), Geometry: line(leg, f.from, f.to)}
	if f.source != nil {
		out.Source = sourceOf(f.source)
		out.Source.At = f.worst.sounding
	}
	if f.kind == leftOut {
		told := unread(f.source)
		told.Leg, told.Time, told.Until, told.Geometry = out.Leg, out.Time, out.Until, out.Geometry
		return told
	}
	if f.kind == unknownDepth {
		out.Facts = facts.DepthNotKnown{Why: f.unknown}
		return out
	}
	if f.kind == unknownInPlace {
		out.Facts = facts.DepthNotInPlace{Why: f.unknown}
		return out
	}
	s := &f.worst
	out.Measured, out.Required, out.Unit, out.Made = s.figures(f.kind, &l.plan.Margins)
	what := s.facts(f.kind, &l.plan.Margins)
	if d := f.source; d != nil && d.Class.Danger() && d.Name != "" {
		what.Danger = facts.Thing{Class: d.Class, Name: d.Name}
	}
	out.Facts = what
	from, to := l.day(s.start)
	if f.kind == tooLittle && f.timely && !l.bounding {
		out.Windows = l.heights.windowsToTell(f.levelM, true, from, to)
	}
	return out
}

func (l *legClearance) noTideFinding() plan.Finding {
	leg := &l.track.Legs[l.index]
	why := facts.NoTide
	if l.tide != nil {
		why = facts.TideEnds
	}
	return plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Leg: leg.Number, Facts: facts.TideNotKnown{Why: why},
		Time: ptr(leg.Start), Until: ptr(leg.End), Geometry: line(leg, 0, leg.Rhumb.LengthM)}
}

func (l *legClearance) datumFinding(f found) plan.Finding {
	leg := &l.track.Legs[l.index]
	levels := facts.LevelsDiffer{Depths: f.source.Datum, Tide: facts.NoDatum}
	if l.plan.Tide != nil {
		levels.Tide = l.plan.Tide.DatumOf()
	}
	return plan.Finding{Check: plan.CheckDatum, Severity: plan.NoData, Leg: leg.Number, Facts: levels,
		Time: ptr(l.track.TimeAt(leg, f.from)), Until: ptr(l.track.TimeAt(leg, f.to)), Geometry: line(leg, f.from, f.to), Source: f.worst.origin()}
}

// clearanceFeature is the report's figure for a leg, its terms as they are shown.
func (dr dayReport) clearanceFeature(index int, s *sum) plan.Clearance {
	leg := &dr.track.Legs[index]
	v := s.shown(s.parts())
	return plan.Clearance{Leg: leg.Number, Time: ptr(s.start), ChartedDepthM: ptr(v[0]), TideM: ptr(v[1] + v[2]),
		MarginM: ptr(0 - v[3]), DraughtM: ptr(0 - v[4]), SquatM: ptr(0 - v[5]), WaveM: ptr(0 - v[6]),
		ClearanceM: ptr(plan.WholeMM(s.clearanceM())), RequiredM: ptr(s.requiredM), Source: sourceOf(s.f), At: leg.Rhumb.At(s.from)}
}

// nm turns metres into nautical miles.
func nm(metres float64) float64 { return metres / geo.NauticalMileM }
