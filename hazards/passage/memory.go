package passage

import (
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Memory keeps what of a route does not depend on the time: its legs, where they
// are near berths and in zones, and the cells that its speed is decided in. Laid
// out again at another time, a route asks for none of it. One Memory serves one
// chart (one Waters.Zones) and one goroutine; the zero value is empty.
type Memory struct{ kept []*ground }

// mostKept is how many routes a Memory holds; the oldest goes first.
const mostKept = 16

// Forget empties the memory: for a Waters.Zones that did not tell all.
func (m *Memory) Forget() { m.kept = nil }

// ground is a route without its times.
type ground struct {
	key    groundKey
	legs   []Leg // without numbers and times
	starts []float64
	zones  []ZonePassage
	berths []chart.Span
	sea    []SeaCell
	cells  []float64
}

// groundKey is all that a ground is made of, besides the chart.
type groundKey struct {
	points, berths     []orb.Point
	speeds             []float64
	classes            []string
	harbourA, harbourB bool
	figures            [4]float64
}

func (k *groundKey) equal(o *groundKey) bool {
	return k.figures == o.figures && k.harbourA == o.harbourA && k.harbourB == o.harbourB && slices.Equal(k.points, o.points) &&
		slices.Equal(k.speeds, o.speeds) && slices.Equal(k.berths, o.berths) && slices.Equal(k.classes, o.classes)
}

// keyOf is the key of a route; it shares the plan's slices.
func (r *run) keyOf(rt *plan.Route, part int) groundKey {
	m := &r.plan.Margins
	k := groundKey{points: rt.Points, speeds: rt.SpeedsKn, classes: r.plan.Choices.VesselClasses,
		harbourA: r.harbourBeside(part - 1), harbourB: r.harbourBeside(part + 1),
		figures: [4]float64{m.BerthM, m.CorridorM, m.HazardM, r.plan.Boat.HarbourKn}}
	for _, b := range r.plan.Berths {
		k.berths = append(k.berths, b.At)
	}
	return k
}

// lookUp takes a route's ground from the memory, or makes it and keeps it.
func (r *run) lookUp(rt *plan.Route, part int) {
	key, m := r.keyOf(rt, part), r.waters.Memory
	if m == nil {
		m = &Memory{}
	}
	i := slices.IndexFunc(m.kept, func(g *ground) bool { return g.key.equal(&key) })
	if i < 0 {
		r.cutLegs(rt)
		r.findHarbours(part)
		r.findZones()
		r.findCells()
		key.points, key.speeds, key.classes = slices.Clone(key.points), slices.Clone(key.speeds), slices.Clone(key.classes)
		if len(m.kept) >= mostKept {
			m.kept = slices.Delete(m.kept, 0, 1)
		}
		m.kept = append(m.kept, &ground{key, slices.Clone(r.legs), r.starts, r.zones, r.berths, slices.Clone(r.sea), r.cells})
		return
	}
	g := m.kept[i]
	r.legs, r.sea = slices.Clone(g.legs), slices.Clone(g.sea)
	r.starts, r.zones, r.berths, r.cells = g.starts, g.zones, g.berths, g.cells
}
