package hazards

import (
	"time"

	"github.com/paulmach/orb"

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
	s.swing()
	s.checkSounding()
	s.checkChain()
	s.checkHolding()
	s.rodeFigures()
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
func (s *stayCheck) add(f plan.Finding) { s.addAt(f, s.stop.Stay.At) }

// addAt adds a finding about the stay that holds at a place beside it.
func (s *stayCheck) addAt(f plan.Finding, at orb.Point) {
	s.worst = s.worst.Worse(f.Severity)
	f.Leg, f.Geometry = s.leg, at
	if f.Time == nil {
		f.Time = ptr(s.stop.Arrive)
	}
	if f.Until == nil {
		f.Until = ptr(s.stop.Leave)
	}
	s.find(f)
}
