package passage

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Waters is what the track depends on besides the plan.
type Waters struct {
	// Zones gives the speed zones that a leg runs through. nil: none are known.
	Zones func(leg geo.Rhumb) []ZoneSpan
	// SeaM is the greatest significant wave height in metres at a place from one
	// time to another, ok false where it is not known (she is then taken not to be
	// slowed by it: the missing wind is a finding of its own). nil: never known.
	SeaM func(p orb.Point, from, to time.Time) (hsM float64, ok bool)
	// Stream is where the water runs to and how fast in knots. nil: speeds are
	// over the ground.
	Stream func(time.Time) (towardDeg, kn float64, ok bool)
	// Turns are the times, in order, between which the stream runs straight.
	Turns []time.Time
	// Did is told of work as it is done: pieces of track and cells that were looked
	// at. nil: nobody wants to know.
	Did func(n int)
	// Cache keeps routes for the next time. nil: none are kept.
	Cache *Cache
}

// seaStepM is how far apart the sea is looked at along a leg.
const seaStepM = geo.NauticalMileM / 4

// rounds is how often a route is laid out, each time deciding what depends on
// the time (warm-up, season, stream, sea) with the times of the round before.
// Times settle to a second after the third but for the sea, which may slow her
// and so be met later; it is looked at again where that moves it by more than
// seaTolerance.
const rounds = 5

const seaTolerance = time.Minute

// leastKn is the speed over the ground that a foul stream leaves her at least,
// so that a plan against a stream she cannot stem still ends.
const leastKn = 0.5

// Lay lays a plan out in time. The plan is complete as its decoder leaves it;
// an error says what is missing for a track. Where a stream is stronger than
// she is, she is laid out at half a knot and Track.Unstemmed says so.
func Lay(p *plan.Plan, w Waters) (*Track, error) {
	if len(p.Parts) == 0 || p.Parts[0].Route == nil || p.Parts[0].Route.Depart == nil {
		return nil, fmt.Errorf("the plan has no first route with a time of departure; a route with `depart` is wanted")
	}
	l := &scheduler{plan: p, waters: w, track: &Track{Depart: *p.Parts[0].Route.Depart}, last: len(p.Parts)}
	l.parts(0, 0, l.track.Depart, NewEngine(&p.Boat))
	return l.track, nil
}

// LeavingAt lays a day out again from one of its stops on, as if she left it at
// another time; what is before it stays. With toNext it ends where the next stop
// is reached. The plan and the waters are those that the track was laid with.
func (t *Track) LeavingAt(p *plan.Plan, w Waters, stop int, leave time.Time, toNext bool) *Track {
	s := t.Stops[stop]
	s.Leave = leave
	l := &scheduler{plan: p, waters: w, track: t.before(s.Route + 1), last: len(p.Parts)}
	l.track.Stops = append(t.Stops[:stop:stop], s)
	if toNext {
		l.last = min(s.part+3, len(p.Parts)) // the route, and the stop behind it
	}
	engine := s.engine
	engine.Stop(leave.Sub(s.Arrive))
	l.parts(s.part+1, s.Route+1, leave, &engine)
	return l.track
}

// before is the track up to where a route begins.
func (t *Track) before(route int) *Track {
	legs := sort.Search(len(t.Legs), func(i int) bool { return t.Legs[i].Route >= route })
	steps := sort.Search(len(t.Steps), func(i int) bool { return t.Steps[i].Leg >= legs })
	cells := sort.Search(len(t.Sea), func(i int) bool { return t.Sea[i].Leg >= legs })
	out := &Track{Depart: t.Depart, Legs: t.Legs[:legs:legs], Steps: t.Steps[:steps:steps], Sea: t.Sea[:cells:cells]}
	for _, z := range t.Zones {
		if z.Leg < legs {
			out.Zones = append(out.Zones, z)
		}
	}
	for _, u := range t.Unstemmed {
		if u.Leg < legs {
			out.Unstemmed = append(out.Unstemmed, u)
		}
	}
	return out
}

// parts lays out the parts of the day from one on, which begins at a time.
func (l *scheduler) parts(first, route int, at time.Time, engine *Engine) {
	for i := first; i < l.last; i++ {
		part := l.plan.Parts[i]
		if part.Stay != nil {
			stop := Stop{Stay: part.Stay, Route: route - 1, Arrive: at, Leave: later(at, part.Stay.Until), part: i, engine: *engine}
			l.track.Stops = append(l.track.Stops, stop)
			engine.Stop(stop.Leave.Sub(at))
			at = stop.Leave
			continue
		}
		l.warm = engine.WarmAt(at)
		end := l.route(part.Route, i, route, at)
		engine.Ran(end.Sub(at))
		at = end
		route++
	}
	l.track.Back = at
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// scheduler is the state of Lay.
type scheduler struct {
	plan   *plan.Plan
	waters Waters
	track  *Track
	warm   time.Time // end of the warm-up on the route at hand
	last   int       // the part before which it ends
}

// run is one route being laid out: distances are metres from its start.
type run struct {
	*scheduler
	legs   []Leg
	starts []float64 // of each leg, and the end of the last
	zones  []ZonePassage
	berths []chart.Span // within berth_m of a berth or a harbour end
	depart time.Time
	sea    []SeaCell
	cells  []float64
	force  []bool // whether each of the zones is in force: see season.go
	// unstemmed are the streams she could not stem in the round at hand.
	unstemmed []Unstemmed
}

func (r *run) length() float64 { return r.starts[len(r.starts)-1] }

func (l *scheduler) route(rt *plan.Route, part, index int, depart time.Time) time.Time {
	r := &run{scheduler: l, depart: depart}
	r.lookUp(rt, part)
	for i := range r.legs {
		leg := &r.legs[i]
		leg.Number, leg.Route, leg.RouteName = len(r.track.Legs)+i+1, index, rt.Name
	}
	when := func(x float64) time.Time { // a first guess, before anything is known
		return depart.Add(seconds(x / (l.plan.Boat.CruiseKn * geo.KnotMPS)))
	}
	var prof timed
	for round := range rounds {
		r.unstemmed = r.unstemmed[:0]
		before := prof
		r.decideForce(when, round > 1)
		prof = r.profile(when)
		when = prof.time
		// With the times of a round that the sea was looked at with, the rest
		// would go the same way.
		if round > 1 && prof.equal(before) {
			break
		}
		// The first times are too rough to ask for the sea, the last are final.
		if round > 0 && round < rounds-1 {
			r.lookAtSea(when)
		}
	}
	prof = r.settleForce(prof)
	r.emit(prof)
	return prof.time(r.length())
}

func (r *run) cutLegs(rt *plan.Route) {
	x := 0.0
	for i := 1; i < len(rt.Points); i++ {
		leg := Leg{Rhumb: geo.NewRhumb(rt.Points[i-1], rt.Points[i])}
		if kn, ok := rt.SpeedKn(i - 1); ok {
			leg.AskedKn = kn
		}
		r.legs = append(r.legs, leg)
		r.starts = append(r.starts, x)
		x += leg.Rhumb.LengthM
	}
	r.starts = append(r.starts, x)
}

// findHarbours finds the stretches near berths. A route has a harbour end
// where the day begins or ends without a stay, and at a stay alongside.
func (r *run) findHarbours(part int) {
	first, last := &r.legs[0], &r.legs[len(r.legs)-1]
	first.HarbourA = r.harbourBeside(part - 1)
	last.HarbourB = r.harbourBeside(part + 1)
	places := make([]orb.Point, 0, len(r.plan.Berths)+2)
	for _, b := range r.plan.Berths {
		places = append(places, b.At)
	}
	if first.HarbourA {
		places = append(places, first.Rhumb.From)
	}
	if last.HarbourB {
		places = append(places, last.Rhumb.To)
	}
	r.berths = r.near(places, r.plan.Margins.BerthM)
}

func (r *run) harbourBeside(part int) bool {
	if part < 0 || part >= len(r.plan.Parts) {
		return true
	}
	stay := r.plan.Parts[part].Stay
	return stay != nil && stay.Kind == plan.AtBerth
}

// near gives the stretches of the route within so many metres of any of the places,
// in order and none touching the next.
func (r *run) near(places []orb.Point, metres float64) []chart.Span {
	var out []chart.Span
	r.eachPiece(func(x float64, piece chart.Piece) {
		r.did(len(places))
		for _, p := range places {
			along, across := piece.Frame(p)
			h2 := metres*metres - across*across
			if h2 <= 0 {
				continue
			}
			h := math.Sqrt(h2)
			if from, to := math.Max(0, along-h), math.Min(piece.LengthM, along+h); from < to {
				out = append(out, chart.Span{From: x + from, To: x + to})
			}
		}
	})
	return merged(out)
}

// merged joins spans that meet or lie over each other.
func merged(spans []chart.Span) []chart.Span {
	slices.SortFunc(spans, func(a, b chart.Span) int { return cmp.Compare(a.From, b.From) })
	out := spans[:0]
	for _, s := range spans {
		if n := len(out); n > 0 && s.From <= out[n-1].To {
			out[n-1].To = math.Max(out[n-1].To, s.To)
			continue
		}
		out = append(out, s)
	}
	return out
}

// did tells of work.
func (l *scheduler) did(n int) {
	if l.waters.Did != nil {
		l.waters.Did(n)
	}
}

// eachPiece calls fn for each piece of each leg with its start along the route.
func (r *run) eachPiece(fn func(x float64, p chart.Piece)) {
	for i := range r.legs {
		x := r.starts[i]
		pieces := chart.Pieces(r.legs[i].Rhumb)
		for k, p := range pieces {
			fn(x+r.legs[i].Rhumb.LengthM*float64(k)/float64(len(pieces)), p)
		}
	}
}

// legAt is the leg at x metres along the route; at a waypoint the later one,
// but at the very end the last.
func (r *run) legAt(x float64) int {
	i := sort.SearchFloat64s(r.starts, x)
	if i < len(r.starts) && r.starts[i] == x {
		i++
	}
	return max(0, min(i-1, len(r.legs)-1))
}

// position on the route.
func (r *run) position(x float64) orb.Point {
	i := r.legAt(x)
	return r.legs[i].Rhumb.At(x - r.starts[i])
}

// findCells lists where the speed may change, and where the sea is looked at.
func (r *run) findCells() {
	cuts := append([]float64(nil), r.starts...)
	for i := range r.legs {
		n := max(1, int(math.Ceil(r.legs[i].Rhumb.LengthM/seaStepM)))
		step := r.legs[i].Rhumb.LengthM / float64(n)
		for k := range n {
			r.did(1)
			x := r.starts[i] + step*float64(k)
			cuts = append(cuts, x)
			r.sea = append(r.sea, SeaCell{Leg: i, FromM: step * float64(k), ToM: step * float64(k+1),
				At: r.legs[i].Rhumb.At(step * (float64(k) + 0.5)), from: x, to: x + step})
		}
	}
	for _, z := range r.zones {
		cuts = append(cuts, z.from, z.to)
	}
	for _, b := range r.berths {
		cuts = append(cuts, b.From, b.To)
	}
	sort.Float64s(cuts)
	r.cells = cuts[:0]
	for _, c := range cuts {
		c = math.Max(0, math.Min(r.length(), c))
		if n := len(r.cells); n == 0 || c-r.cells[n-1] > 1e-3 {
			r.cells = append(r.cells, c)
		}
	}
}
