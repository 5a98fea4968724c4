package passage

import (
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Cache keeps what of a route does not depend on the time: its legs, where they
// are near berths and in zones, and the cells that its speed is decided in. Laid
// out again at another time, a route asks for none of it. One Cache serves one
// chart (one Waters.Zones) and one goroutine; the zero value is empty.
type Cache struct{ kept []*knownRoute }

// mostKept is how many routes a Cache holds; the oldest goes first.
const mostKept = 16

// Forget empties the cache: for a Waters.Zones that did not give all.
func (m *Cache) Forget() { m.kept = nil }

// knownRoute is a route without its times.
type knownRoute struct {
	key    routeKey
	legs   []Leg // without numbers and times
	starts []float64
	zones  []ZonePassage
	berths []chart.Span
	sea    []SeaCell
	cells  []float64
}

// routeKey is all that a known route is made of, besides the chart.
type routeKey struct {
	points, berths     []orb.Point
	speeds             []float64
	classes            []string
	harbourA, harbourB bool
	figures            [4]float64
}

func (k *routeKey) equal(o *routeKey) bool {
	return k.figures == o.figures && k.harbourA == o.harbourA && k.harbourB == o.harbourB && slices.Equal(k.points, o.points) &&
		slices.Equal(k.speeds, o.speeds) && slices.Equal(k.berths, o.berths) && slices.Equal(k.classes, o.classes)
}

// keyOf is the key of a route; it shares the plan's slices.
func (r *run) keyOf(rt *plan.Route, part int) routeKey {
	m := &r.plan.Margins
	k := routeKey{points: rt.Points, speeds: rt.SpeedsKn, classes: r.plan.Choices.VesselClasses,
		harbourA: r.harbourBeside(part - 1), harbourB: r.harbourBeside(part + 1),
		figures: [4]float64{m.BerthM, m.CorridorM, m.HazardM, r.plan.Boat.HarbourKn}}
	for _, b := range r.plan.Berths {
		k.berths = append(k.berths, b.At)
	}
	return k
}

// lookUp takes a known route from the cache, or makes it and keeps it.
func (r *run) lookUp(rt *plan.Route, part int) {
	key, m := r.keyOf(rt, part), r.waters.Cache
	if m == nil {
		m = &Cache{}
	}
	i := slices.IndexFunc(m.kept, func(g *knownRoute) bool { return g.key.equal(&key) })
	if i < 0 {
		r.cutLegs(rt)
		r.findHarbours(part)
		r.findZones()
		r.findCells()
		key.points, key.speeds, key.classes = slices.Clone(key.points), slices.Clone(key.speeds), slices.Clone(key.classes)
		if len(m.kept) >= mostKept {
			m.kept = slices.Delete(m.kept, 0, 1)
		}
		m.kept = append(m.kept, &knownRoute{key, slices.Clone(r.legs), r.starts, r.zones, r.berths, slices.Clone(r.sea), r.cells})
		return
	}
	g := m.kept[i]
	r.legs, r.sea = slices.Clone(g.legs), slices.Clone(g.sea)
	r.starts, r.zones, r.berths, r.cells = g.starts, g.zones, g.berths, g.cells
}
