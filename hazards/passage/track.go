package passage

import (
	"math"
	"sort"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Track is a plan laid out in time.
type Track struct {
	Legs  []Leg
	Steps []Step // in order of time; those of one leg follow each other without a gap
	Stops []Stop
	Zones []ZonePassage
	Sea   []SeaCell // in order; those of one leg follow each other without a gap
	// Unstemmed are the places where a stream is stronger than she is.
	Unstemmed []Unstemmed
	// Depart is when she leaves, Back when the last route ends.
	Depart, Back time.Time
}

// Leg is one rhumb line of the day.
type Leg struct {
	Number     int // from 1 through the day
	Route      int // from 0
	RouteName  string
	Rhumb      geo.Rhumb
	Start, End time.Time
	AskedKn    float64 // the plan's own speed for the leg, 0 if none
	First      int     // index of its first step
	Count      int     // how many steps
	HarbourA   bool    // it starts at a harbour end of a route
	HarbourB   bool    // it ends at one
}

// Why tells what decided a speed.
type Why uint8

// What decides a speed.
const (
	Cruising Why = iota
	Asked        // the leg's own speed
	WarmUp
	RoughSea
	NearBerth
	InZone
	Slowing // toward a lower limit
)

// Step is a stretch of a leg over which the speed is steady or changes at a
// constant rate.
type Step struct {
	Leg          int // index into Legs
	FromM, ToM   float64
	Start, End   time.Time
	FromKn, ToKn float64 // over the ground
	WaterKn      float64 // greatest speed through the water
	Why          Why
}

// FastestKn is the greatest speed of the step, over the ground or through the
// water.
func (s *Step) FastestKn() float64 { return math.Max(s.WaterKn, math.Max(s.FromKn, s.ToKn)) }

// TimeAt is when she is so many metres along the step's leg; before the step
// its start, behind it its end.
func (s *Step) TimeAt(metres float64) time.Time {
	d := math.Max(0, math.Min(s.ToM-s.FromM, metres-s.FromM))
	if d == 0 {
		return s.Start
	}
	v0, v := s.FromKn, s.KnAt(metres)
	return s.Start.Add(seconds(2 * d / ((v0 + v) * geo.KnotMPS)))
}

// KnAt is the speed over the ground so many metres along the leg.
func (s *Step) KnAt(metres float64) float64 {
	if s.ToM <= s.FromM {
		return s.FromKn
	}
	f := math.Max(0, math.Min(1, (metres-s.FromM)/(s.ToM-s.FromM)))
	return math.Sqrt(s.FromKn*s.FromKn + f*(s.ToKn*s.ToKn-s.FromKn*s.FromKn))
}

// SeaCell is a stretch of a leg, at most a quarter of a mile, whose sea is that
// at its middle while she is in it.
type SeaCell struct {
	Leg        int // index into Legs
	FromM, ToM float64
	At         orb.Point
	Rough      bool // she was planned for a rough sea there

	from, to     float64 // metres along the route
	looked       bool    // the sea was looked at, for these times
	enter, leave time.Time
}

// Looked gives the times that the sea was last looked at for, ok false where it was not.
func (c *SeaCell) Looked() (enter, leave time.Time, ok bool) { return c.enter, c.leave, c.looked }

// Unstemmed is a place where she cannot keep to the leg, or makes less than
// half a knot good along it.
type Unstemmed struct {
	Leg       int // index into Legs
	AtM       float64
	Time      time.Time
	Kn        float64 // through the water
	TowardDeg float64
	StreamKn  float64
}

// Stop is a stay as it falls out in time.
type Stop struct {
	Stay   *plan.Stay
	Route  int // the route that leads to it
	Arrive time.Time
	Leave  time.Time // Until, or later if she arrives later

	part   int    // of the plan
	engine Engine // on arriving
}

// WarmUpLeft is how long the engine will have to run until it is warm if she leaves the
// stop at a time.
func (s *Stop) WarmUpLeft(leave time.Time) time.Duration {
	engine := s.engine
	engine.Stop(leave.Sub(s.Arrive))
	return engine.WarmAt(leave).Sub(leave)
}

// ZonePassage is one run through a speed zone.
type ZonePassage struct {
	Feature      *chart.Feature
	LimitKn      float64
	Stated       bool // false: the layer gives no figure, the plan's own is taken
	Leg          int  // index of the leg on which she enters
	Enter, Leave time.Time
	Entry, Exit  orb.Point
	StartsInside bool
	AskedAboveKn float64 // the highest leg speed of the plan above the limit, 0 if none
	Slow         *SlowDown
	from, to     float64 // metres along the route
}

// SlowDown is where she begins to slow for a limit.
type SlowDown struct {
	Leg    int
	At     orb.Point
	Time   time.Time
	FromKn float64
	ToKn   float64
}

// StepsOf gives the steps of a leg.
func (t *Track) StepsOf(l *Leg) []Step { return t.Steps[l.First : l.First+l.Count] }

// SeaOf gives the sea cells of a leg, by its index.
func (t *Track) SeaOf(leg int) []SeaCell {
	from := sort.Search(len(t.Sea), func(i int) bool { return t.Sea[i].Leg >= leg })
	to := sort.Search(len(t.Sea), func(i int) bool { return t.Sea[i].Leg > leg })
	return t.Sea[from:to]
}

// At is her place on a leg so many metres along it, and when she is there.
func (t *Track) At(l *Leg, metres float64) (orb.Point, time.Time) {
	steps := t.StepsOf(l)
	i := sort.Search(len(steps)-1, func(i int) bool { return steps[i].ToM >= metres })
	return l.Rhumb.At(metres), steps[i].TimeAt(metres)
}

// TimeAt is when she is so many metres along a leg.
func (t *Track) TimeAt(l *Leg, metres float64) time.Time {
	steps := t.StepsOf(l)
	i := sort.Search(len(steps)-1, func(i int) bool { return steps[i].ToM >= metres })
	return steps[i].TimeAt(metres)
}

// DistanceM is the length of all legs in metres.
func (t *Track) DistanceM() float64 {
	d := 0.0
	for i := range t.Legs {
		d += t.Legs[i].Rhumb.LengthM
	}
	return d
}

// UnderWay is how long she is under way.
func (t *Track) UnderWay() time.Duration {
	var d time.Duration
	for i := range t.Legs {
		d += t.Legs[i].End.Sub(t.Legs[i].Start)
	}
	return d
}

func seconds(s float64) time.Duration { return time.Duration(math.Round(s * 1e9)) }
