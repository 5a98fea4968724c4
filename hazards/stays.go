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
	stop *passage.Stop
	leg  int // number of the leg that ends there
	met  chart.Met
	out  plan.StayResult
	// greatest significant heights while she lies there
	hsM, plusHsM, openHsM float64
	worstAt               time.Time
}

// checkStays checks every stay.
func (c *checker) checkStays() {
	for i := range c.track.Stops {
		s := &stayCheck{checker: c, stop: &c.track.Stops[i]}
		s.leg = c.lastLegOf(s.stop.Route)
		s.met = c.query.At(s.stop.Stay.At, chart.Reach{HalfM: c.plan.Margins.CorridorSlowM, HazardM: c.plan.Margins.HazardM, WideM: wideM})
		s.out = plan.StayResult{Name: s.stop.Stay.Name, Leg: s.leg, Arrive: ptr(s.stop.Arrive), Until: ptr(s.stop.Stay.Until), At: s.stop.Stay.At, RodeM: s.stop.Stay.RodeM}
		s.rodeAboard()
		s.sea()
		s.water()
		s.rules()
		c.report.Stays = append(c.report.Stays, s.out)
	}
}

// lastLegOf is the number of the last leg of a route.
func (c *checker) lastLegOf(route int) int {
	number := 0
	for i := range c.track.Legs {
		if c.track.Legs[i].Route == route {
			number = c.track.Legs[i].Number
		}
	}
	return number
}

func (s *stayCheck) rodeAboard() {
	if r := s.plan.Boat.Rode; r != nil && r.ChainM != nil {
		s.out.RodeAboardM = ptr(*r.ChainM + r.RopeM)
	}
}

// add adds a finding that holds at the stay.
func (s *stayCheck) add(f plan.Finding) {
	f.Leg, f.Geometry = s.leg, s.stop.Stay.At
	if f.Time == nil {
		f.Time = ptr(s.stop.Arrive)
	}
	if f.Until == nil {
		f.Until = ptr(s.stop.Leave)
	}
	s.find(f)
}

// water checks the water under the keel from arriving to leaving.
func (s *stayCheck) water() {
	if s.heights.tide == nil {
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Title: "Height of tide not known", Detail: "No tide is given: add a station, a tide table or a tideless level."})
		return
	}
	least, lowMargin, okLow := s.heights.least(s.stop.Arrive, s.stop.Leave)
	most, highMargin, okHigh := s.heights.greatest(s.stop.Arrive, s.stop.Leave)
	if !okLow || !okHigh {
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Title: "Height of tide not known", Detail: "The tide given does not reach over the whole stay: tables are never extended beyond their ends."})
		return
	}
	s.greatestDepth(most + highMargin)
	worst := s.shoalest(least, lowMargin)
	if worst == nil {
		return
	}
	s.out.DepthLeastM = ptr(worst.waterM())
	s.out.ClearanceLeastM = ptr(worst.clearanceM())
	if h, ok := s.heights.tide.HeightM(s.stop.Arrive); ok {
		s.out.DepthArrivalM = ptr(worst.depthM + worst.offsetM + h)
	}
	s.judgeWater(worst)
}

// shoalest is the claim with the least clearance within the swinging room that
// is checked: the slow corridor's. Unknown water is reported as it is met.
func (s *stayCheck) shoalest(least, margin float64) *sum {
	leg := &passage.Leg{}
	st := &stretch{leg: leg, met: &s.met, halfM: s.plan.Margins.CorridorSlowM, hazardM: s.plan.Margins.HazardM}
	zones := zocSpans(&s.met)
	var worst *sum
	for _, cl := range s.claims(st) {
		if cl.unknown != "" {
			s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Title: "Depth not known", Detail: "Where she lies " + cl.unknown + "."})
			continue
		}
		x := sum{claim: cl, start: s.stop.Arrive, end: s.stop.Leave, tideM: least, marginM: margin, draughtM: s.plan.Boat.DraughtM,
			waveM: s.plan.Margins.WaveFraction * s.hsM, openWaveM: s.plan.Margins.WaveFraction * (s.openHsM - s.hsM), requiredM: s.plan.Margins.AnchoredUnderKeelM}
		x.offsetM, x.datumOK = s.offset(cl.f)
		x.accuracyM = DepthAccuracyM(worstZoc(zones, 0, 0), cl.depthM)
		s.shoalByEcho(&x)
		if kind := s.judge(&x); !x.datumOK && kind != tooLittle {
			s.add(s.datumAtStay(&x))
			continue
		}
		if cl.wide {
			if s.judge(&x) == onlyInPlace {
				s.reportWater(onlyInPlace, &x)
			}
			continue
		}
		if worst == nil || x.clearanceM() < worst.clearanceM() {
			worst = ptr(x)
		}
	}
	return worst
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
		return
	}
	if sounded := *stay.SoundedM - h - margin - x.offsetM; sounded < x.depthM {
		x.depthM = sounded
	}
}

func (s *stayCheck) datumAtStay(x *sum) plan.Finding {
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
	f := plan.Finding{Check: plan.CheckClearance, Severity: kind.severity(), Title: title, Detail: detail, Source: sourceOf(x.f),
		Measured: ptr(x.clearanceM()), Required: ptr(x.requiredM), Unit: "m", Made: x.terms()}
	if kind == tooLittle {
		f.Windows = s.windowsFor(x, from, to)
	}
	s.add(f)
}

// waterSlack notes when, after leaving, the water at the stay would go.
func (s *stayCheck) waterSlack(x *sum) {
	for _, w := range s.heights.windows(x.levelM(), true, s.stop.Leave.Add(-time.Hour), s.stop.Leave.Add(2*besideLow)) {
		if !w[0].After(s.stop.Leave.Add(underWayPad)) && !w[1].Before(s.stop.Leave) && w[1].Before(s.stop.Leave.Add(2*besideLow)) {
			s.slack = append(s.slack, slack{route: s.stop.Route + 1, left: w[1].Sub(s.stop.Leave), why: "the water where she lies goes at " + s.clock(w[1])})
			s.checker.slack = s.slack
			return
		}
	}
}

// greatestDepth is the deepest the chart allows, with the highest tide.
func (s *stayCheck) greatestDepth(topM float64) {
	deepest := math.Inf(-1)
	for i := range s.met.Hits {
		h := &s.met.Hits[i]
		if !h.Class.WaterArea() || len(h.Near) == 0 {
			continue
		}
		offset, ok := s.offset(h.Feature)
		if !chart.Known(h.DepthMaxM) || !ok {
			return // open towards the deep, or no common datum: not known
		}
		deepest = math.Max(deepest, h.DepthMaxM+offset)
	}
	if !math.IsInf(deepest, -1) {
		s.out.DepthGreatestM = ptr(deepest + topM)
	}
}

// rules checks whether one may lie there.
func (s *stayCheck) rules() {
	for i := range s.met.Hits {
		h := &s.met.Hits[i]
		if len(h.Near) == 0 {
			continue
		}
		if h.Class.Danger() && passable(h.Feature, s.plan.Choices.AcceptExpsou1) == impassable {
			s.add(plan.Finding{Check: plan.CheckHazard, Severity: plan.NotClear, Title: "A danger without a depth", Source: sourceOf(h.Feature),
				Detail: named(h.Feature, solidName(h.Class)) + " lies where she would lie, and the chart does not say how deep."})
		}
		if s.stop.Stay.Kind == plan.AtAnchor {
			s.anchoring(h)
		}
	}
}

// anchoring: what forbids an anchor. Codes: IHO S-57 App. A.
func (s *stayCheck) anchoring(h *chart.Hit) {
	severity, why := plan.NotClear, ""
	switch r := h.Rules; {
	case h.Class == chart.CBLARE || h.Class == chart.CBLSUB:
		why = "a submarine cable lies here"
	case h.Class == chart.PIPARE || h.Class == chart.PIPSOL:
		why = "a submarine pipeline lies here"
	case h.Class.Danger() && passable(h.Feature, false) == anchorNot:
		why = "the ground is foul"
	case r == nil || !s.seasonTouches(r.Season):
		return
	case r.Restrn.Has(1):
		why = "anchoring is prohibited"
	case r.Restrn.Has(24):
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

// seasonTouches tells whether a season holds on any day of the stay.
func (s *stayCheck) seasonTouches(season chart.Season) bool {
	for t := s.stop.Arrive; ; t = t.Add(24 * time.Hour) {
		t = earlier(t, s.stop.Leave)
		if season.Holds(t.In(s.zone())) {
			return true
		}
		if !t.Before(s.stop.Leave) {
			return false
		}
	}
}
