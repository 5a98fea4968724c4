package hazards

import (
	"fmt"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
	"keelroom/hazards/tide"
)

// Check checks a plan and gives the report. An error is bad input: it names the
// member of the plan and what is wanted. Missing input is no error but a
// no-data finding, or the error of Between. The plan is one that plan.Decode
// gave.
func (s *Session) Check(p *plan.Plan) (*plan.Report, error) {
	return s.check(p, dayReport.finish)
}

// check checks a plan; finish writes what the report has of the day as a whole.
func (s *Session) check(p *plan.Plan, finish func(dayReport)) (*plan.Report, error) {
	c, err := s.begin(p, false)
	if err != nil {
		return nil, err
	}
	for _, part := range []func(){c.checkLegs, roughness{c}.checkStemming, speedZones{c}.checkZones, c.checkStays,
		hours{c}.checkDaylight, burning{c}.checkFuel, hours{c}.checkSchedule, whereabouts{c}.checkWhereabouts, func() { finish(dayReport{c}) }} {
		part()
		if err := c.pause(); err != nil {
			return nil, err
		}
	}
	s.judged, s.track = c.judged, c.track
	return c.report, nil
}

// begin lays a plan out, ready to be checked, or only to be looked at in passing.
func (s *Session) begin(p *plan.Plan, passing bool) (*checker, error) {
	if err := p.CheckExtent(); err != nil {
		return nil, err
	}
	c, err := s.started(p, passing)
	if err != nil {
		return nil, err
	}
	return c, preparing{c}.prepare()
}

// started is a check of a plan, of which nothing is prepared.
func (s *Session) started(p *plan.Plan, passing bool) (*checker, error) {
	g, err := s.groundFor(p)
	if err != nil {
		return nil, err
	}
	c := newChecker(g, s.memory, p)
	c.between = s.Between
	c.brief, c.passing = passing, passing
	if !passing {
		s.memory.serve(g, p)
	}
	clear(s.memory.seas)
	c.seas = s.memory.seas
	return c, nil
}

// pause calls the Session's Between. Once that gave an error the check is void:
// it does no more work than it takes to end.
func (c *checker) pause() error {
	c.unasked = 0
	if c.stopped == nil && c.between != nil {
		c.stopped = c.between()
	}
	return c.stopped
}

// workBetween is how much is done at most before Between is asked. A piece of track
// or a cell of sea takes some ten microseconds, as WebAssembly too.
const workBetween = 200

// did counts what was looked at, and pauses when that was enough for one go.
func (c *checker) did(n int) {
	c.memory.work += n
	if c.unasked += n; c.unasked >= workBetween {
		_ = c.pause() // told by stopped
	}
}

func newChecker(g *ground, m *memory, p *plan.Plan) *checker {
	return &checker{ground: g, memory: m, plan: p, report: plan.NewReport(), seas: map[orb.Point]seaMemo{}, harbours: map[int][]chart.Span{},
		told: map[*chart.Feature]int{}, passed: map[int][]*chart.Feature{}}
}

// checker is one check in progress.
type checker struct {
	*ground
	memory    *memory
	brief     bool // only findings count, not the report's other figures
	passing   bool // a look in passing: nothing of it is kept for the next check
	onlyStops bool // and of those only what stops her: see leaving.go
	// bounding: what is found is as bad as at the worst of the times within
	// heights.within, in whichever part: see departures.go.
	bounding     bool
	lyingSeas    *recent[seaKey, seaState] // at the stays, of all departures; nil: none are kept
	reaches      reaches                   // of all departures; nil: none are kept
	between      func() error              // see Session.Between
	stopped      error                     // what it gave
	unasked      int                       // work since it was asked
	plan         *plan.Plan
	track        *passage.Track
	report       *plan.Report
	abouts       []about                  // of the report's findings, one each
	lying        int                      // the stay at hand, from 1
	passed       map[int][]*chart.Feature // by leg: areas that have neither a rule nor words
	tide         tide.Tide                // nil: none given
	heights      heights
	marginAheadM float64 // the greatest margin of tide of the days about
	wind         *sea.WindSeries
	sea          *sea.Model
	stream       *sea.StreamSeries
	turns        []time.Time // see turnsOf
	seas         map[orb.Point]seaMemo
	spell        timedSpell             // the last asked for
	harbours     map[int][]chart.Span   // by leg: near berths, where land is passed by eye
	slack        []slack                // what ends each stay, see leaveBy
	told         map[*chart.Feature]int // the leg on which the day first met what is only to be known
	cells        [][]seaCell            // by leg, once asked for: see legSea
	stayWorst    []plan.Severity        // of each stay's own findings
	results      []legResult
	outcomes     []*legOutcome // by leg
	leasts       []leastAt     // of every leg and stay
	met          []metFirst    // of the leg at hand: see legOutcome
	judged       []bool        // by leg: anew, not taken from the memory
	poors        []poor
	undirected   []undirected // one a day
	// swellShut: somewhere a swell was left out because no open water lies
	// toward it; how it bends in is not computed.
	swellShut bool
}

// preparing makes what the checks ask of a plan: its tide, wind and streams, and the
// day laid out in time.
type preparing struct{ *checker }

// prepare makes everything the checks ask.
func (pr preparing) prepare() error {
	if err := pr.prepareInputs(); err != nil {
		return err
	}
	return pr.lay(pr.waters())
}

// prepareInputs makes all but the track.
func (pr preparing) prepareInputs() error {
	if pr.plan.Tide != nil {
		t, err := pr.memory.tideOf(pr.plan.Tide)
		if err != nil {
			return err
		}
		pr.tide = t
	}
	pr.heights.tide, pr.heights.marginM = pr.windowed(), pr.plan.Margins.TideM
	pr.marginAheadM = pr.heights.greatestMargin(pr.planSpan())
	if err := pr.newSea(); err != nil {
		return fmt.Errorf("plan.%w", err)
	}
	if err := pr.newStream(); err != nil {
		return fmt.Errorf("plan.%w", err)
	}
	pr.turns = pr.turnsOf()
	return nil
}

// lay lays the plan out in time.
func (pr preparing) lay(w passage.Waters) error {
	track, err := passage.Lay(pr.plan, w)
	if err != nil {
		return err
	}
	if pr.stopped != nil {
		pr.routes.Forget()
		return pr.stopped
	}
	pr.track = track
	pr.findHarbours(0)
	return nil
}

// windowed is the tide with its turning points worked out once for the days
// that the plan may touch.
func (pr preparing) windowed() tide.Tide {
	routes := pr.plan.Routes()
	if pr.tide == nil || len(routes) == 0 || routes[0].Depart == nil {
		return pr.tide
	}
	from, to := pr.planSpan()
	return pr.memory.window(from, to)
}

// planSpan is the time that the plan, and the tide beside it, may touch.
func (pr preparing) planSpan() (from, to time.Time) {
	routes := pr.plan.Routes()
	if len(routes) == 0 || routes[0].Depart == nil {
		return from, to
	}
	from, to = routes[0].Depart.Add(-36*time.Hour), routes[0].Depart.Add(48*time.Hour)
	for _, s := range pr.plan.Stays() {
		to = later(to, s.Until.Add(36*time.Hour))
	}
	return from, to.Add(pr.heights.within)
}

// waters is what the timed track asks.
func (pr preparing) waters() passage.Waters {
	w := passage.Waters{Cache: &pr.routes, Did: pr.did, Zones: func(leg geo.Rhumb) []passage.ZoneSpan {
		return pr.zonesAlong(leg, pr.reach(pr.plan.Margins.CorridorM), pr.pause)
	}, SeaM: func(p orb.Point, from, to time.Time) (hsM float64, ok bool) {
		if pr.pause() != nil {
			return 0, false
		}
		for _, l := range pr.seaWhile(p, from, to) {
			hsM, ok = math.Max(hsM, l.state.HsM), ok || l.known
		}
		return hsM, ok
	}}
	if pr.stream != nil {
		w.Stream = func(t time.Time) (toward, kn float64, ok bool) {
			s, ok := pr.stream.At(t)
			return s.TowardDeg, s.Kn, ok
		}
		w.Turns = pr.turns
	}
	return w
}

// findHarbours lists, for each leg from one on, the berths and harbour ends of its
// route that lie within berth_m of it.
func (pr preparing) findHarbours(first int) {
	ends := map[int][]orb.Point{}
	for i := first; i < len(pr.track.Legs); i++ {
		leg := &pr.track.Legs[i]
		if leg.HarbourA {
			ends[leg.Route] = append(ends[leg.Route], leg.Rhumb.From)
		}
		if leg.HarbourB {
			ends[leg.Route] = append(ends[leg.Route], leg.Rhumb.To)
		}
	}
	for i := first; i < len(pr.track.Legs); i++ {
		for _, p := range ends[pr.track.Legs[i].Route] {
			pr.addHarbour(i, p)
		}
		for _, b := range pr.plan.Berths {
			pr.addHarbour(i, b.At)
		}
		if pr.harbours[i] != nil {
			pr.harbours[i] = joinSpans(pr.harbours[i])
		}
	}
}

// addHarbour adds the stretches of a leg within berth_m of a place.
func (pr preparing) addHarbour(leg int, p orb.Point) {
	reach := pr.plan.Margins.BerthM
	g := pr.leg(pr.track.Legs[leg].Rhumb)
	pr.did(len(g.pieces))
	for k := range g.pieces {
		along, across := g.pieces[k].Frame(p)
		h2 := reach*reach - across*across
		if h2 <= 0 {
			continue
		}
		from, to := math.Max(0, along-math.Sqrt(h2)), math.Min(g.pieces[k].LengthM, along+math.Sqrt(h2))
		if from <= to {
			pr.harbours[leg] = append(pr.harbours[leg], chart.Span{From: g.base(k) + from, To: g.base(k) + to})
		}
	}
}

// find adds a finding.
func (c *checker) find(f plan.Finding) { c.findAbout(f, about{}) }

// findAbout adds a finding and what it is about.
func (c *checker) findAbout(f plan.Finding, a about) {
	a.lying, f.Code = c.lying, f.Facts.Code()
	c.report.Findings = append(c.report.Findings, f)
	c.abouts = append(c.abouts, a)
}

// day is the local calendar day of a time, from midnight to midnight.
func (c *checker) day(t time.Time) (from, to time.Time) {
	y, m, d := t.In(c.zone()).Date()
	return time.Date(y, m, d, 0, 0, 0, 0, c.zone()), time.Date(y, m, d+1, 0, 0, 0, 0, c.zone())
}

func (c *checker) zone() *time.Location {
	if c.plan.Zone != nil {
		return c.plan.Zone
	}
	return time.UTC
}

// line is the part of a leg between two distances, for a finding's geometry.
func line(leg *passage.Leg, from, to float64) orb.Geometry {
	a, b := leg.Rhumb.At(from), leg.Rhumb.At(to)
	if to-from < 0.5 {
		return a
	}
	return orb.LineString{a, b}
}

func ptr[T any](v T) *T { return &v }

// sourceOf names a feature for the report.
func sourceOf(f *chart.Feature) *plan.Source {
	s := &plan.Source{Class: f.Class.String(), Name: f.Name, Thing: f}
	if f.RefusedFeature() {
		s.Class = f.Meant().String()
	}
	if f.Set != nil {
		s.Layer = f.Set.Title
	}
	return s
}
