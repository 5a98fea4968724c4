package hazards

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
)

// Session checks plans against one chart and remembers what the chart said of
// each leg and place, which does not depend on the time: dragging a waypoint
// asks anew only for the legs beside it, another departure for nothing. It also
// remembers the tide and the sun of the days about, and what was found on each leg,
// under all that went into it: only legs of which something changed are judged. The
// answers are those of a Check made afresh. A Session is for one goroutine.
type Session struct {
	// Between, if it is set, is called in the midst of a Check wherever some
	// milliseconds of work may lie behind: between legs, stays, checks, and the
	// places at which the sea is worked out. An error ends the Check, which gives
	// it back; what the Session remembers stays good. It must not use the Session.
	Between func() error

	base    *chart.Chart
	private []byte       // the plan's own layer, with the place of each feature, and trust that ground was made with
	trusted *chart.Chart // base, with the trust of the plan checked last
	ground  *ground
	memory  *memory
	judged  []bool
	track   *passage.Track
}

// Judged tells, by leg, whether the last Check that ended judged it anew. All that
// goes into any other leg was as before, and so is what was found on it; but what
// holds on several legs is reported once, so that a finding of such a leg may still
// have changed: compare findings by their id.
func (s *Session) Judged() []bool { return s.judged }

// Track is the plan laid out in time by the last Check that ended, nil before one did.
func (s *Session) Track() *passage.Track { return s.track }

// NewSession begins a session on a chart.
func NewSession(c *chart.Chart) *Session { return &Session{base: c, memory: newMemory()} }

// Check checks a plan against a chart once; see Session.Check.
func Check(c *chart.Chart, p *plan.Plan) (*plan.Report, error) { return NewSession(c).Check(p) }

// ground is a chart, with a plan's private layer over it if there is one, and
// what has been asked of it.
type ground struct {
	chart     *chart.Chart
	query     *chart.Query
	messages  []chart.Message // of the private layer
	dryLevels []float64
	legs      map[[2]orb.Point]*legGround
	views     map[orb.Point]*view
	lastView  *view
	places    map[placeKey]chart.Met
	discs     map[discKey]*chart.Disc
	routes    passage.Cache
	buoyages  map[*chart.Feature]buoyageAt
	locals    *int // see localSets
	channels  map[channelKey]channelAt
	boxes     map[*chart.Feature]box // see boxOf
}

// maxRemembered bounds each store; a store that is full is emptied.
const maxRemembered = 200_000

// groundFor is the ground for a plan: another only if its private layer is, or the
// charts that it trusts.
func (s *Session) groundFor(p *plan.Plan) (*ground, error) {
	var raw []byte
	for _, f := range p.Private {
		// Messages name a feature by its place in the file.
		raw = append(append(append(strconv.AppendInt(raw, int64(f.Index), 10), ' '), f.Feature...), '\n')
	}
	for _, name := range p.Choices.Trust {
		raw = append(append(append(raw, "trust "...), strconv.Quote(name)...), '\n')
	}
	if s.ground != nil && bytes.Equal(raw, s.private) {
		return s.ground, nil
	}
	if s.trusted == nil {
		s.trusted = s.base
	}
	if s.trusted = s.trusted.Trusting(p.Choices.Trust); len(s.trusted.Trusted()) == 0 {
		s.trusted = s.base
	}
	c, messages, err := withPrivate(s.trusted, p)
	if err != nil {
		return nil, err
	}
	s.private, s.ground = raw, newGround(c, messages)
	return s.ground, nil
}

func newGround(c *chart.Chart, messages []chart.Message) *ground {
	return &ground{chart: c, query: c.NewQuery(), messages: messages, dryLevels: c.DryLevels(),
		legs: map[[2]orb.Point]*legGround{}, views: map[orb.Point]*view{}, places: map[placeKey]chart.Met{}, discs: map[discKey]*chart.Disc{}, buoyages: map[*chart.Feature]buoyageAt{}, channels: map[channelKey]channelAt{}, boxes: map[*chart.Feature]box{}}
}

// withPrivate puts the layer that travels with a plan over a chart.
func withPrivate(c *chart.Chart, p *plan.Plan) (*chart.Chart, []chart.Message, error) {
	if len(p.Private) == 0 {
		return c, nil, nil
	}
	set, messages, err := PrivateLayer(p)
	if err != nil {
		return nil, nil, err
	}
	return c.With(set), messages, nil
}

// PrivateLayer is the layer set that travels with a plan, its zones and hazards,
// as the checks read it. An error is a mistake in one of them and names it.
func PrivateLayer(p *plan.Plan) (*chart.Set, []chart.Message, error) {
	raw := make([]layer.PlanFeature, len(p.Private))
	for i, f := range p.Private {
		raw[i] = layer.PlanFeature{Path: fmt.Sprintf("features[%d]", f.Index), Data: f.Feature}
	}
	set, messages := layer.Private("the plan", raw)
	if set != nil {
		return set, messages, nil
	}
	for _, m := range messages {
		if m.Level == chart.FileError {
			return nil, messages, fmt.Errorf("the plan's own layer: %s", m)
		}
	}
	return nil, messages, fmt.Errorf("the plan's own layer could not be read")
}

// legGround is what the chart says along one leg.
type legGround struct {
	rhumb  geo.Rhumb
	pieces []chart.Piece
	met    map[chart.Reach][]*chart.Met // one a piece
	zones  []passage.ZoneSpan
	marks  map[float64][]abeam // by how far off they count
}

// leg is the ground of the leg between two positions.
func (g *ground) leg(r geo.Rhumb) *legGround {
	key := [2]orb.Point{r.From, r.To}
	if l := g.legs[key]; l != nil {
		return l
	}
	if len(g.legs) >= maxRemembered/100 {
		clear(g.legs)
	}
	l := &legGround{rhumb: r, pieces: chart.Pieces(r), met: map[chart.Reach][]*chart.Met{}, marks: map[float64][]abeam{}}
	g.legs[key] = l
	return l
}

// base is where a piece starts, metres along the leg.
func (l *legGround) base(piece int) float64 {
	return l.rhumb.LengthM * float64(piece) / float64(len(l.pieces))
}

// along is what a piece of a leg meets within reach.
func (g *ground) along(l *legGround, piece int, r chart.Reach) *chart.Met {
	list := l.met[r]
	if list == nil {
		list = make([]*chart.Met, len(l.pieces))
		l.met[r] = list
	}
	if list[piece] == nil {
		met := g.query.Along(l.pieces[piece], r)
		list[piece] = &met
	}
	return list[piece]
}

// zonesAlong gives the speed zones a leg runs through, from what its corridor
// meets. pause is asked before each piece: on an error there are none, and the leg
// is looked at anew the next time.
func (g *ground) zonesAlong(r geo.Rhumb, reach chart.Reach, pause func() error) []passage.ZoneSpan {
	l := g.leg(r)
	if l.zones != nil {
		return l.zones
	}
	zones := []passage.ZoneSpan{}
	for k := range l.pieces {
		if pause() != nil {
			return nil
		}
		zones = append(zones, passage.ZonesAmong(g.along(l, k, reach).Hits, l.base(k))...)
	}
	l.zones = zones
	return zones
}

// view is what is seen from a place: the rays cast so far, by their direction in
// whole degrees, for each number of the drying levels that were dry.
type view struct {
	origin *chart.Origin
	fans   map[int]*fan
	// The fan asked last.
	dry  int
	rays *fan
}

// fan is rays all round, in sectors that are there once one of theirs was cast,
// and the exposure to swell from each whole degree.
type fan struct {
	rays     [360 / sector]*[sector]seenRay
	exposure [360]seenExposure
}

// seenExposure is one more than the exposure, 0 where it was not asked.
type seenExposure uint8

const sector = 30 // degrees

type seenRay struct {
	chart.Ray
	cast bool
}

// viewFrom is the view from a place.
func (g *ground) viewFrom(p orb.Point) *view {
	if v := g.lastView; v != nil && v.origin.At == p {
		return v
	}
	v := g.views[p]
	if v == nil {
		if len(g.views) >= maxRemembered/100 {
			clear(g.views)
		}
		v = &view{origin: g.query.Origin(p), fans: map[int]*fan{}}
		g.views[p] = v
	}
	g.lastView = v
	return v
}

// fan is the rays with a number of drying levels that are dry.
func (v *view) fan(dry int) *fan {
	if v.rays == nil || v.dry != dry {
		rays := v.fans[dry]
		if rays == nil {
			rays = new(fan)
			v.fans[dry] = rays
		}
		v.dry, v.rays = dry, rays
	}
	return v.rays
}

// ray is the one in a direction.
func (f *fan) ray(deg int) *seenRay {
	s := &f.rays[deg/sector]
	if *s == nil {
		*s = new([sector]seenRay)
	}
	return &(*s)[deg%sector]
}

// cast follows a ray in the nearest whole degree. topM is the greatest height
// of the water above the sounding datum; not known, nothing is dry.
func (g *ground) cast(from orb.Point, towardDeg, maxM, topM float64, known bool) chart.Ray {
	v := g.viewFrom(from)
	deg := wholeDegree(towardDeg)
	r := v.fan(g.dryWith(topM, known)).ray(deg)
	if !r.cast {
		r.Ray = g.query.Cast(v.origin, float64(deg), maxM, func(drval2 float64) bool { return known && topM <= -drval2 })
		r.cast = true
	}
	return r.Ray
}

// exposure is how much of a swell from the nearest whole degree reaches a place;
// see cast for the height of the water.
func (g *ground) exposure(p orb.Point, fromDeg, topM float64, known bool) sea.Exposure {
	deg := wholeDegree(fromDeg)
	seen := &g.viewFrom(p).fan(g.dryWith(topM, known)).exposure[deg]
	if *seen == 0 {
		e := sea.ExposureOf(func(off float64) bool {
			r := g.cast(p, float64(deg)+off, sea.MaxRayM, topM, known)
			return r.Open || r.LengthM >= sea.MaxRayM
		})
		*seen = seenExposure(e) + 1
	}
	return sea.Exposure(*seen - 1)
}

func wholeDegree(deg float64) int { return int(math.Round(geo.Bearing(deg))) % 360 }

// dryWith is how many of the drying levels are dry with the water at a height,
// none where it is not known.
func (g *ground) dryWith(topM float64, known bool) int {
	if !known {
		return 0
	}
	return g.dryCount(topM)
}

// placeKey is a place and how far about it is looked.
type placeKey struct {
	at    orb.Point
	reach chart.Reach
}

// metAt is what lies at a place.
func (g *ground) metAt(p orb.Point, r chart.Reach) chart.Met {
	key := placeKey{p, r}
	met, ok := g.places[key]
	if !ok {
		if len(g.places) >= maxRemembered/100 {
			clear(g.places)
		}
		met = g.query.At(p, r)
		g.places[key] = met
	}
	return met
}

// dryCount is how many of the drying levels are dry with the water at a height.
func (g *ground) dryCount(topM float64) int {
	return sortSearch(g.dryLevels, -topM)
}

// sortSearch counts the values not above a limit.
func sortSearch(values []float64, limit float64) int {
	i, _ := slices.BinarySearchFunc(values, limit, func(v, limit float64) int {
		if v <= limit {
			return -1
		}
		return 1
	})
	return i
}

// buoyageAt is what the charts say of the buoyage at a mark.
type buoyageAt struct {
	region  string  // IALA region "A", "B" or ""
	deg     float64 // direction of buoyage
	charted bool    // whether deg is known
}

// buoyage is what M_NSYS says at a mark: MARSYS 1 is region A, 2 B; ORIENT is
// the direction of buoyage.
func (g *ground) buoyage(f *chart.Feature) buoyageAt {
	if b, ok := g.buoyages[f]; ok {
		return b
	}
	var b buoyageAt
	for _, a := range g.query.AreasAt(f.Coords[0].Position()) {
		if a.Class != chart.MNSYS || a.Meta == nil || g.chart.Overruled(a) {
			continue
		}
		if region := [...]string{1: "A", 2: "B"}; b.region == "" && a.Meta.MarSys > 0 && a.Meta.MarSys < len(region) {
			b.region = region[a.Meta.MarSys]
		}
		if !b.charted && chart.Known(a.Meta.OrientDeg) {
			b.deg, b.charted = a.Meta.OrientDeg, true
		}
	}
	g.buoyages[f] = b
	return b
}
