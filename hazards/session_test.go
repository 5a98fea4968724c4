package hazards

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// A session answers as a fresh check does, whatever was asked before: waypoints
// are dragged at random, by a little and by a lot, some back to where they were,
// legs come and go, and in between the hour, the tide, the wind, the margins and
// the plan's own dangers change.
func TestSessionAnswersAsAFreshCheck(t *testing.T) {
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	c := chart.New(hull)
	d := dragger{dangers: dangersOf(hull), rnd: rand.New(rand.NewSource(20260720)), base: readPlan(t, "testdata", "plans", "roads-day.geojson")}
	session := NewSession(c)
	for i := range 60 {
		p := d.next()
		got := check(t, session, p)
		if string(got.Encode(p.Zone)) != string(mustCheckOn(t, c, p).Encode(p.Zone)) {
			t.Errorf("check %d in a session differs from a fresh one", i)
		}
	}
}

// dragger makes of a plan the next in a row of edits.
type dragger struct {
	rnd     *rand.Rand
	base    *plan.Plan
	points  []orb.Point // of the first route
	was     [][]orb.Point
	by      time.Duration
	dangers []orb.Point
}

// dangersOf are the rocks, wrecks and obstructions that are points.
func dangersOf(s *chart.Set) []orb.Point {
	var out []orb.Point
	for i := range s.Features {
		if f := &s.Features[i]; f.Class.Danger() && f.Prim == chart.Point {
			out = append(out, f.Coords[0].Position())
		}
	}
	return out
}

func (d *dragger) next() *plan.Plan {
	if d.points == nil {
		d.points = slices.Clone(d.base.Parts[0].Route.Points)
	}
	d.was = append(d.was, slices.Clone(d.points))
	d.drag()
	if d.rnd.Intn(3) == 0 {
		d.by = time.Duration(d.rnd.Intn(600)) * time.Minute
	}
	p := shifted(d.base, d.base.Parts[0].Route.Depart.Add(d.by))
	p.Parts[0].Route.Points = slices.Clone(d.points)
	d.stir(p)
	return p
}

// drag moves the way out; its last point, where the stay is, stays.
func (d *dragger) drag() {
	i := d.rnd.Intn(len(d.points) - 1)
	switch d.rnd.Intn(6) {
	case 0:
		d.points = slices.Clone(d.was[d.rnd.Intn(len(d.was))])
	case 1:
		d.points = slices.Insert(d.points, i+1, between(d.points[i], d.points[i+1]))
	case 2:
		if len(d.points) > 3 {
			d.points = slices.Delete(d.points, i, i+1)
		}
	case 3:
		d.points[i] = d.off(d.dangers[d.rnd.Intn(len(d.dangers))], 0.0005) // within some 50 m of one
	case 4: // along the meridian only
		d.points[i] = orb.Point{d.points[i][0], d.off(d.points[i], 0.01)[1]}
	default:
		d.points[i] = d.off(d.points[i], 0.0001)
	}
}

func (d *dragger) off(p orb.Point, deg float64) orb.Point {
	return orb.Point{p[0] + deg*(2*d.rnd.Float64()-1), p[1] + deg*(2*d.rnd.Float64()-1)}
}

func between(a, b orb.Point) orb.Point { return orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2} }

// stir changes what is not geometry.
func (d *dragger) stir(p *plan.Plan) {
	p.Margins.CorridorM = 20 + float64(d.rnd.Intn(3))*5
	p.Margins.HazardM = 10 + float64(d.rnd.Intn(2))*5
	p.Margins.MarkM = 150 + float64(d.rnd.Intn(4))*50
	tide := *p.Tide
	tide.AdjustM = float64(d.rnd.Intn(5)) * 0.2
	p.Tide = &tide
	p.Wind = slices.Clone(p.Wind)
	for i := range p.Wind {
		p.Wind[i].FromDeg = float64(d.rnd.Intn(4)) * 90
	}
	if d.rnd.Intn(4) == 0 {
		p.Private = privateAlong(p)
	}
}
