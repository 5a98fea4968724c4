package hazards

import (
	"fmt"
	"math"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// stayCheck is one stay being checked.
type stayCheck struct {
	*checker
	stop  *passage.Stop
	leg   int // number of the leg that ends there
	index int // of that leg in the track
	met   chart.Met
	out   plan.StayResult
	// greatest significant heights while she lies there
	hsM, plusHsM, openHsM float64
	worstAt               time.Time
	seaMissing            bool          // not all of the sea there is known
	tideMissing           bool          // nor of the tide
	depthMissing          bool          // nor of the depths where she lies
	least                 *sum          // the least clearance that any finding counts
	worst                 plan.Severity // of the findings about the stay itself
}

// checkStays checks every stay.
func (c *checker) checkStays() {
	for i := range c.track.Stops {
		if c.pause() != nil {
			return
		}
		c.checkStay(i)
	}
}

// checkStaysAt checks the stays that a leg leads to.
func (c *checker) checkStaysAt(leg int) {
	for i := range c.track.Stops {
		if s := &c.track.Stops[i]; c.lastLegOf(s.Route) == leg {
			c.checkStay(i)
		}
	}
}

func (c *checker) checkStay(index int) {
	c.lying = index + 1
	defer func() { c.lying = 0 }()
	s := &stayCheck{checker: c, stop: &c.track.Stops[index], worst: plan.Note}
	s.index = c.lastLegOf(s.stop.Route)
	s.leg = c.track.Legs[s.index].Number
	s.met = c.metAt(s.stop.Stay.At, c.reach(c.plan.Margins.CorridorSlowM))
	s.out = plan.StayResult{Name: s.stop.Stay.Name, Leg: s.leg, Arrive: ptr(s.stop.Arrive), Until: ptr(s.stop.Stay.Until), At: s.stop.Stay.At, RodeM: s.stop.Stay.RodeM}
	s.rodeAboard()
	s.sea()
	s.meets(s.hsM)
	s.water()
	s.about()
	s.anchoringRules()
	c.report.Stays = append(c.report.Stays, s.out)
	c.leasts = append(c.leasts, s.leastOf())
	c.stayWorst = append(c.stayWorst, s.worst)
}

// leastOf is the stay's least clearance for the headline.
func (s *stayCheck) leastOf() leastAt {
	if s.out.ClearanceLeastM == nil {
		return leastAt{}
	}
	return leastAt{sum: s.least, known: true, leg: s.leg, at: s.stop.Stay.At}
}

// about looks at what lies where she would lie, as at the end of a leg but for
// the whole time of the stay.
func (s *stayCheck) about() {
	o := newObstacles(s.checker, s.index)
	o.stay = s
	o.along(s.stretch())
	before := len(s.report.Findings)
	o.report()
	s.forget(o)
	for _, f := range s.report.Findings[before:] {
		s.worst = s.worst.Worse(f.Severity)
	}
}

// forget takes back the figures that are no figures, as something about her place
// is not known. Outside the charts that is also what stops the sea.
func (s *stayCheck) forget(o *obstacles) {
	if o.unseen() || o.maybeDepthless {
		s.out.DepthArrivalM, s.out.DepthLeastM, s.out.ClearanceLeastM = nil, nil, nil
	}
	if len(o.outside) > 0 {
		s.out.SeaGreatestM, s.out.FetchNm = nil, nil
	}
}

// stretch is the place as a stretch of no length.
func (s *stayCheck) stretch() *stretch {
	return &stretch{leg: &s.track.Legs[s.index], index: s.index, met: &s.met, halfM: s.plan.Margins.CorridorSlowM, hazardM: s.plan.Margins.HazardM}
}

// lastLegOf is the index of the last leg of a route.
func (c *checker) lastLegOf(route int) int {
	last := 0
	for i := range c.track.Legs {
		if c.track.Legs[i].Route == route {
			last = i
		}
	}
	return last
}

func (s *stayCheck) rodeAboard() {
	if r := s.plan.Boat.Rode; r != nil && r.ChainM != nil {
		s.out.RodeAboardM = ptr(*r.ChainM + r.RopeM)
	}
}

// add adds a finding that holds at the stay.
func (s *stayCheck) add(f plan.Finding) {
	s.worst = s.worst.Worse(f.Severity)
	f.Leg, f.Geometry = s.leg, s.stop.Stay.At
	if f.Time == nil {
		f.Time = ptr(s.stop.Arrive)
	}
	if f.Until == nil {
		f.Until = ptr(s.stop.Leave)
	}
	s.find(f)
}

// water checks the water under the keel from arriving to leaving. Where the
// tide is not known for all of the stay, what is known is judged all the same.
func (s *stayCheck) water() {
	claims := s.depths()
	from, to, whole := s.tideSpan()
	s.tideMissing = !whole
	if !whole {
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Title: "Height of tide not known", Detail: s.whyNoTide()})
	}
	if !from.Before(to) && !(whole && from.Equal(to)) {
		return
	}
	least, lowMargin, okLow := s.heights.least(from, to)
	most, highMargin, okHigh := s.heights.greatest(from, to)
	if !okLow || !okHigh {
		return
	}
	if whole {
		s.greatestDepth(least-lowMargin, most+highMargin)
	}
	worst := s.shoalest(claims, least, lowMargin)
	if worst != nil {
		s.judgeWater(worst)
	}
	s.depthFigures(worst)
}

// tideSpan is the part of the stay for which the tide is known.
func (s *stayCheck) tideSpan() (from, to time.Time, whole bool) {
	if s.heights.tide == nil {
		return s.stop.Leave, s.stop.Leave, false
	}
	if _, ok := s.heights.tide.Least(s.stop.Arrive, s.stop.Leave); ok {
		return s.stop.Arrive, s.stop.Leave, true
	}
	from, to = s.known(s.stop.Arrive, s.stop.Leave)
	return from, to, false
}

func (s *stayCheck) whyNoTide() string {
	if s.heights.tide == nil {
		return "No tide is given: add a station, a tide table or a tideless level."
	}
	return "The tide given does not reach over the whole stay: tables are never extended beyond their ends."
}

// depthFigures are those of the whole stay. A part of it is no figure: where some
// of the tide, of the depths or of the levels is not known there is none, and no
// clearance without the sea either.
func (s *stayCheck) depthFigures(worst *sum) {
	if worst == nil || s.depthMissing {
		return
	}
	if h, ok := s.heights.tide.HeightM(s.stop.Arrive); ok {
		s.out.DepthArrivalM = ptr(worst.depthM + worst.offsetM + h)
	}
	if s.tideMissing {
		return
	}
	s.out.DepthLeastM = ptr(worst.waterM())
	if !s.seaMissing {
		s.out.ClearanceLeastM = ptr(plan.WholeMM(s.least.clearanceM()))
	}
}

// depths lists the known depths where she lies, within the slow corridor's
// reach, and reports unknown ones once. No depth at all is unknown too.
func (s *stayCheck) depths() []claim {
	var known []claim
	unknown := ""
	refused := map[*chart.Feature]bool{}
	for _, cl := range s.claims(s.stretch()) {
		switch {
		case cl.unknown == "":
			known = append(known, cl)
		case cl.f == nil || !cl.f.RefusedFeature():
			unknown = cl.unknown
		case !refused[cl.f]:
			refused[cl.f] = true
			s.add(unread(cl.f))
		}
	}
	if len(known) == 0 && unknown == "" && len(refused) == 0 {
		unknown = "no depth is charted"
	}
	if unknown != "" {
		s.depthMissing = true
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Title: "Depth not known", Detail: "Where she lies " + unknown + ": unknown water is never taken as deep."})
	}
	return known
}

// shoalest is the claim with the least clearance where she lies; the least of all,
// with those that only the survey's accuracy brings near, is kept.
func (s *stayCheck) shoalest(claims []claim, least, margin float64) *sum {
	zones := s.zocSpans(&s.met)
	var worst, place, datum *sum
	for _, cl := range claims {
		x := s.sumAt(cl, least, margin, zones)
		kind := s.judge(&x)
		s.depthMissing = s.depthMissing || !x.datumOK
		if !x.datumOK && kind != tooLittle {
			datum = ptr(x)
			continue
		}
		s.least = lesser(s.least, x)
		switch {
		case !cl.wide:
			worst = lesser(worst, x)
		case kind == onlyInPlace:
			place = lesser(place, x)
		}
	}
	if datum != nil {
		s.add(s.datumAtStay(datum))
	}
	if place != nil && (worst == nil || s.judge(worst) != tooLittle) {
		s.reportWater(onlyInPlace, place)
	}
	return worst
}

// lesser is the sum that leaves less.
func lesser(a *sum, b sum) *sum {
	if a == nil || b.clearanceM() < a.clearanceM() {
		return ptr(b)
	}
	return a
}

// sumAt is the clearance at a claim over the whole stay.
func (s *stayCheck) sumAt(cl claim, least, margin float64, zones []zocSpan) sum {
	x := sum{claim: cl, start: s.lowest(), end: s.stop.Leave, atStay: true, marginAheadM: s.marginAheadM, humpM: s.plan.Boat.HumpM, seaUnknown: s.seaMissing, tideM: least, marginM: margin, draughtM: s.plan.Boat.DraughtM,
		waveM: s.plan.Margins.WaveFraction * s.hsM, openWaveM: s.plan.Margins.WaveFraction * (s.openHsM - s.hsM), requiredM: s.plan.Margins.AnchoredUnderKeelM}
	x.offsetM, x.datumOK = s.offset(cl.f)
	x.accuracyM = DepthAccuracyM(worstZoc(zones, 0, 0), cl.depthM)
	s.shoalByEcho(&x)
	return x
}

// shoalByEcho takes what the echo sounder read into account where it is less
// than the chart's bound; it never deepens it.
func (s *stayCheck) shoalByEcho(x *sum) {
	stay := s.stop.Stay
	if stay.SoundedM == nil || stay.SoundedAt == nil {
		return
	}
	h, margin, ok := s.heights.greatest(stay.SoundedAt.Add(-underWayPad), stay.SoundedAt.Add(underWayPad))
	if !ok {
		x.datumOK = false // what it read cannot be used, nor left out
		return
	}
	if sounded := *stay.SoundedM - h - margin - x.offsetM; sounded < x.depthM {
		x.depthM = sounded
	}
}

func (s *stayCheck) datumAtStay(x *sum) plan.Finding {
	if _, ok := s.offset(x.f); ok {
		return plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Title: "The sounding cannot be used",
			Detail: "The height of tide at the time of the echo sounding is not known: take it out, or give the tide then."}
	}
	return plan.Finding{Check: plan.CheckDatum, Severity: plan.NoData, Title: "Depths and tide from different levels", Source: sourceOf(x.f),
		Detail: fmt.Sprintf("The depth where she lies is below %s, the tide above %s.", datumName(x.f.Datum), datumName(s.plan.Tide.DatumOf()))}
}

func (s *stayCheck) judgeWater(worst *sum) {
	if kind := s.judge(worst); kind != fine {
		s.reportWater(kind, worst)
	}
	s.waterSlack(worst)
}

// reportWater words a stay's clearance finding.
func (s *stayCheck) reportWater(kind clearanceKind, x *sum) {
	title, detail := clearanceWords(kind, x, s.checker)
	from, to := s.day(s.stop.Arrive)
	f := plan.Finding{Check: plan.CheckClearance, Severity: kind.severity(), Title: title, Detail: detail, Source: sourceOf(x.f)}
	f.Measured, f.Required, f.Unit, f.Made = x.figures(kind, &s.plan.Margins)
	if kind == tooLittle && x.datumOK && !x.seaUnknown {
		f.Windows = s.windowsFor(x.levelM(), from, to)
	}
	f.Time = ptr(x.start)
	s.add(f)
}

// waterSlack notes when, after leaving, the water at the stay would go.
func (s *stayCheck) waterSlack(x *sum) {
	if s.judge(x) == tooLittle || !x.datumOK {
		return // leaveBy gives no time then
	}
	horizon := s.stop.Leave.Add(2 * besideLow)
	goes, left := s.stop.Leave, time.Duration(0) // a window within 15 min of its end
	for _, w := range s.heights.windows(x.levelM(), true, s.stop.Leave.Add(-time.Hour), horizon) {
		if !w[0].After(s.stop.Leave.Add(underWayPad)) && !w[1].Before(s.stop.Leave) {
			if !w[1].Before(horizon) {
				return // it does not go in a day
			}
			goes, left = w[1], w[1].Sub(s.stop.Leave)
		}
	}
	s.slack = append(s.slack, slack{route: s.stop.Route + 1, left: left, why: "the water where she lies goes at " + s.clock(goes)})
}

// greatestDepth is the deepest the chart allows, or the echo sounder says, with
// the highest tide. Open towards the deep, or without a common datum, it is not
// known.
func (s *stayCheck) greatestDepth(lowM, topM float64) {
	deepest := math.Inf(-1)
	for i := range s.met.Hits {
		h := &s.met.Hits[i]
		if !h.Class.WaterArea() || len(h.Near) == 0 || s.chart.Overruled(h.Feature) {
			continue
		}
		offset, ok := s.offset(h.Feature)
		if !chart.Known(h.DepthMaxM) || !ok {
			return
		}
		deepest = math.Max(deepest, h.DepthMaxM+offset)
	}
	if math.IsInf(deepest, -1) || len(s.met.Untiled)+len(s.met.Outside) > 0 {
		return
	}
	if stay := s.stop.Stay; stay.SoundedM != nil && stay.SoundedAt != nil {
		h, margin, ok := s.heights.least(stay.SoundedAt.Add(-underWayPad), stay.SoundedAt.Add(underWayPad))
		if !ok {
			return
		}
		deepest = math.Max(deepest, *stay.SoundedM-h+margin)
	}
	s.out.DepthGreatestM = ptr(deepest + topM)
}

// anchoringReach is how far about the anchor its rules count, metres: the rode
// to be laid and her length, where they are given; else the slow corridor. The
// swinging circle itself is not worked out yet.
func (s *stayCheck) anchoringReach() float64 {
	reach := s.plan.Margins.CorridorSlowM
	if r := s.stop.Stay.RodeM; r != nil {
		reach = math.Max(reach, *r)
	}
	if l := s.plan.Boat.LengthM; l != nil {
		reach += *l
	}
	return reach
}

// anchoringRules checks whether one may anchor, or stop, there.
func (s *stayCheck) anchoringRules() {
	if s.stop.Stay.Kind == plan.AtBerth {
		return
	}
	met := s.metAt(s.stop.Stay.At, chart.Reach{HalfM: s.anchoringReach()})
	for i := range met.Hits {
		if h := &met.Hits[i]; len(h.Near) > 0 {
			s.anchoring(h)
		}
	}
}

// anchoring: what forbids an anchor. Codes: IHO S-57 App. A.
func (s *stayCheck) anchoring(h *chart.Hit) {
	severity, why := plan.NotClear, ""
	anchored := s.stop.Stay.Kind == plan.AtAnchor
	switch r := h.Rules; {
	case !anchored && (r == nil || !r.Restrn.Has(25)):
		return // a mooring touches no ground; stopping may still be prohibited
	case h.Class == chart.CBLARE || h.Class == chart.CBLSUB:
		why = "a submarine cable lies here"
	case h.Class == chart.PIPARE || h.Class == chart.PIPSOL:
		why = "a submarine pipeline lies here"
	case h.Class.Danger() && passable(h.Feature, false) == anchorNot:
		why = "the ground is foul"
	case r == nil || !r.Season.Touches(s.stop.Arrive.In(s.zone()), s.stop.Leave):
		return
	case r.Restrn.Has(1) && anchored:
		why = "anchoring is prohibited"
	case r.Restrn.Has(24) && anchored:
		why = "dragging is prohibited"
	case r.Restrn.Has(25):
		why = "stopping is prohibited"
	case r.CatRea.Has(18):
		why = "it is a bathing area"
	case r.Restrn.Has(2):
		severity, why = plan.Care, "anchoring is restricted; find out on what terms"
	case r.CatRea.Has(14):
		severity, why = plan.Care, "it is charted as a minefield"
	default:
		return
	}
	if why == "" {
		return
	}
	s.add(plan.Finding{Check: plan.CheckAnchoringRule, Severity: severity, Title: "Anchoring", Source: sourceOf(h.Feature),
		Detail: named(h.Feature, "Here") + ": " + why + "." + told(h.Info)})
}
