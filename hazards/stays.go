package hazards

import (
	"math"
	"slices"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
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
	looked                []time.Time   // see times
	bedMemo               *bed
	pullMemo              *pull
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
	s := c.newStay(index)
	s.out = plan.StayResult{Name: s.stop.Stay.Name, Leg: s.leg, Arrive: ptr(s.stop.Arrive), Until: ptr(s.stop.Stay.Until), At: s.stop.Stay.At, RodeM: s.stop.Stay.RodeM}
	s.rodeAboard()
	s.sea()
	s.meets(s.hsM, !s.seaMissing)
	s.water()
	s.about()
	s.anchoringRules()
	c.report.Stays = append(c.report.Stays, s.out)
	c.leasts = append(c.leasts, s.leastOf())
	c.stayWorst = append(c.stayWorst, s.worst)
}

// newStay is a stay that nothing is known of yet but what lies about her.
func (c *checker) newStay(index int) *stayCheck {
	s := &stayCheck{checker: c, stop: &c.track.Stops[index], worst: plan.Note}
	s.index = c.lastLegOf(s.stop.Route)
	s.leg = c.track.Legs[s.index].Number
	s.met = c.metAt(s.stop.Stay.At, c.reach(c.plan.Margins.CorridorSlowM))
	return s
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
	o := newObstacles(s.checker, s.index, atPlace{s})
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
	if o.unseen() {
		s.out.DepthArrivalM, s.out.DepthLeastM, s.out.DepthGreatestM, s.out.ClearanceLeastM = nil, nil, nil, nil
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

// unreadGround tells of what was left out within reach of the anchor: it may forbid
// one, as cables, rules and foul ground do. What lies about her place itself is
// told with the depth there.
func (s *stayCheck) unreadGround(h *chart.Hit) {
	told := slices.ContainsFunc(s.met.Hits, func(o chart.Hit) bool { return o.Feature == h.Feature && len(o.Near) > 0 })
	if told || s.stop.Stay.Kind != plan.AtAnchor {
		return
	}
	f := unread(h.Feature)
	f.Check, f.Severity = plan.CheckAnchoringRule, plan.NoData
	s.add(f)
}

// anchoring: what forbids an anchor. Codes: IHO S-57 App. A.
func (s *stayCheck) anchoring(h *chart.Hit) {
	if h.RefusedFeature() && !h.UnreadMark() {
		s.unreadGround(h)
		return
	}
	severity, why := plan.NotClear, facts.WhyNotAnchor(0)
	anchored := s.stop.Stay.Kind == plan.AtAnchor
	switch r := h.Rules; {
	case !anchored && (r == nil || !r.Restrn.Has(25)):
		return // a mooring touches no ground; stopping may still be prohibited
	case h.Class == chart.CBLARE || h.Class == chart.CBLSUB:
		why = facts.Cable
	case h.Class == chart.PIPARE || h.Class == chart.PIPSOL:
		why = facts.Pipeline
	case h.Class.Danger() && passable(h.Feature, false) == anchorNot:
		why = facts.FoulGround
	case r == nil || !r.Season.Touches(s.stop.Arrive.In(s.zone()), s.stop.Leave):
		return
	case r.Restrn.Has(1) && anchored:
		why = facts.AnchoringProhibited
	case r.Restrn.Has(24) && anchored:
		why = facts.DraggingProhibited
	case r.Restrn.Has(25):
		why = facts.StoppingProhibited
	case r.CatRea.Has(18):
		why = facts.BathingArea
	case r.Restrn.Has(2):
		severity, why = plan.Care, facts.AnchoringRestricted
	case r.CatRea.Has(14):
		severity, why = plan.Care, facts.Minefield
	default:
		return
	}
	s.add(plan.Finding{Check: plan.CheckAnchoringRule, Severity: severity, Source: sourceOf(h.Feature),
		Facts: facts.Anchoring{Name: h.Name, Why: why, Info: h.Info}})
}
