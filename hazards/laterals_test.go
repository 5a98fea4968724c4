package hazards

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// The row mark of the contract's table: a lateral mark on the wrong side weighs by
// the water there. She draws 1 m, sits 0.35 m deeper on the plane, wants 1 m under
// the keel and meets no waves: 2.35 m, twice that 4.70 m. The tide stands at 2 m,
// 0.3 m are kept of it: 1.7 m on top of what is charted.
func TestWrongSideWeighsByTheWater(t *testing.T) {
	wrong := mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(-100))
	for _, c := range []struct {
		name   string
		f      chart.Feature
		change func(*plan.Plan)
		want   []string
	}{
		{"open deep water", depth(30, 50, rectangle(45, 0, 55, 100)), nil, []string{"note mark"}},
		{"twice what she needs", bank(3, 9), nil, []string{"note mark"}},
		{"less than twice what she needs", bank(2.9, 9), nil, []string{"care mark"}},
		{"less than is comfortable", bank(4.2, 9), func(p *plan.Plan) { p.Margins.ComfortDepthM = 6 }, []string{"care clearance", "care mark"}},
		{"foul", bank(0, 9), nil, []string{"not-clear clearance", "not-clear mark"}},
		{"not surveyed", area(chart.UNSARE, rectangle(49, 0, 51, 100)), nil, []string{"care mark", "no-data clearance"}},
		{"no tide", bank(9, 12), func(p *plan.Plan) { p.Tide = nil }, []string{"care mark", "no-data clearance"}},
		{"no wind", bank(9, 12), func(p *plan.Plan) { p.Wind = nil }, []string{"care mark", "no-data sea"}},
		{"shoal, but half a mile on", depth(2.9, 9, rectangle(60, 0, 61, 100)), nil, []string{"note mark"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day()
			if c.change != nil {
				c.change(p)
			}
			s := set(buoyage(1, 90), wrong, survey(1, rectangle(0, 0, 100, 100)), c.f)
			if c.name != "foul" && c.name != "less than is comfortable" {
				p.Margins.ComfortDepthM = 0
			}
			expect(t, mustCheck(t, s, p), c.want...)
		})
	}
}

// A channel that leads north-east shows the direction of its buoyage: by pairs of
// marks, abreast or not; by the fairway at whose edge a mark stands; by a
// recommended track or leading line. North-east is 045°: a port-hand mark lies to
// the north-west of the middle, a starboard-hand mark to the south-east (IALA R1001).
func TestDirectionThatTheChannelShows(t *testing.T) {
	// Metres along the channel and to the right of its middle, from (50, 50).
	at45 := func(along, right float64) orb.Point {
		return geo.RhumbDirect(geo.RhumbDirect(at(50, 50), 45, along), 135, right)
	}
	lateral := func(hand int, along, right float64) chart.Feature {
		f := mark(chart.BOYLAT, chart.Mark{CatLam: hand}, 0, 0)
		f.Coords[0] = chart.CoordOf(at45(along, right))
		return f
	}
	fairway := func(orient, from, to, left, right float64) chart.Feature {
		f := area(chart.FAIRWY, closed(at45(from, left), at45(to, left), at45(to, right), at45(from, right)))
		f.Meta = &chart.Meta{OrientDeg: orient}
		return f
	}
	track := func(class chart.Class, right float64) chart.Feature {
		return through(class, at45(-2000, right), at45(2000, right))
	}
	own := func() chart.Feature { return lateral(1, 0, -60) }
	for _, c := range []struct {
		name  string
		set   *chart.Set
		known bool
	}{
		{"a pair abreast", set(own(), lateral(2, 0, 60)), true},
		{"a pair not abreast, and the next of its hand", set(own(), lateral(2, 150, 60), lateral(1, 500, -60)), true},
		{"mates nearly in line", set(own(), lateral(2, 480, -20), lateral(1, 900, -60)), false},
		{"the mate has a nearer mate", set(own(), lateral(2, 300, -60), lateral(1, 350, -60)), false},
		{"too far apart", set(own(), lateral(2, 0, 460)), false},
		{"at the edge of a fairway", set(own(), fairway(chart.Unknown, -900, 900, -60, 60)), true},
		{"beside a fairway with an axis", set(own(), fairway(225, -900, 900, -20, 90)), true},
		{"at the end of a fairway", set(own(), fairway(chart.Unknown, 5, 900, -200, 80)), false},
		{"at its corner", set(own(), fairway(chart.Unknown, 0, 900, -60, 60)), false},
		{"in the middle of it", set(own(), fairway(chart.Unknown, -900, 900, -160, 60)), false},
		{"far from it", set(own(), fairway(chart.Unknown, -900, 900, 60, 160)), false},
		{"beside a recommended track", set(own(), track(chart.RECTRC, 0)), true},
		{"beside a leading line", set(own(), track(chart.NAVLNE, 10)), true},
		{"on it", set(own(), track(chart.NAVLNE, -55)), false},
		{"beyond its end", set(own(), through(chart.RECTRC, at45(80, 0), at45(2000, 0))), false},
		{"two that disagree", set(own(), lateral(2, 0, 60), track(chart.RECTRC, -200)), false},
		{"alone", set(own()), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := newGround(chart.New(c.set), nil)
			k := newChecker(g, newMemory(), day())
			var buoy *chart.Feature
			for _, f := range g.query.MarksNear(chart.NewPiece(at45(0, -60), at45(0, -60)), 5) {
				buoy = f
			}
			deg, ok := k.buoys().direction(buoy, 1)
			if ok != c.known || ok && math.Abs(geo.Turn(45, deg)) > 15 {
				t.Errorf("direction %.0f°, known %v; want 045° ± 15°, known %v", deg, ok, c.known)
			}
		})
	}
}

// What the channel shows comes before the plan's one direction for everywhere: a
// side channel that runs the other way is judged by its own marks.
func TestChannelBeforeThePlansDirection(t *testing.T) {
	p := day()
	p.BuoyageDeg = ptr(90.0) // the track's own course
	// A channel leading west: port-hand marks on its south side. She goes out, east,
	// between them; by the plan's direction both would be wrong.
	inside := set(mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(-60)), mark(chart.BOYLAT, chart.Mark{CatLam: 2}, 50, off(60)))
	expect(t, mustCheck(t, inside, p))
	outside := set(mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(60)), mark(chart.BOYLAT, chart.Mark{CatLam: 2}, 50, off(180)))
	expect(t, mustCheck(t, outside, p), "note mark")
	// A private layer's fairway shows nothing beside a chart.
	alone := mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(-60))
	fairway := area(chart.FAIRWY, rectangle(10, off(-60), 90, off(60)))
	expect(t, mustCheck(t, set(alone, fairway), p))
	own := &chart.Set{Authority: chart.Private, Features: []chart.Feature{fairway}}
	expect(t, mustCheckOn(t, chart.New(set(alone), own), p), "note mark")
}

// Notes of marks on the other side are one a day, and name them all.
func TestNotesOfMarksAreOne(t *testing.T) {
	var marks []chart.Feature
	for i, x := range []float64{20, 40, 60, 80} {
		f := mark(chart.BOYLAT, chart.Mark{CatLam: 1}, x, off(-100))
		f.Name = "INVENTED buoy " + string(rune('A'+i))
		marks = append(marks, f)
	}
	r := mustCheck(t, set(append(marks, buoyage(1, 90))...), day())
	found := findingsOf(r, plan.CheckMark)
	if len(found) != 1 || len(found[0].Also) != 3 {
		t.Fatalf("%d findings, also %v; want one that names three more", len(found), found)
	}
	for _, m := range marks {
		if !strings.Contains(found[0].Detail, m.Name) {
			t.Errorf("no %q in %q", m.Name, found[0].Detail)
		}
	}
}

// The marks of a channel are numbered from seaward, so that the next of the channel
// lies ahead, going with the buoyage (IALA R1001; US Coast Guard Light List, preface,
// from memory). Every direction that a real chart's channels show agrees, and most
// that have a pair or a fairway are shown.
func TestDirectionsOfRealChannels(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	c := newChecker(newGround(chart.New(s), nil), newMemory(), readPlan(t, "testdata", "plans", "roads-day.geojson"))
	c.plan.BuoyageDeg = nil
	name := regexp.MustCompile(`^(.*?)(?: (?:Lighted|Bell|Whistle|Buoy|Daybeacon|Light))+ (\d+)[A-Z]*$`)
	type numbered struct {
		n int
		f *chart.Feature
	}
	channels := map[string][]numbered{}
	for i := range s.Features {
		if f := &s.Features[i]; f.Class.Lateral() {
			if m := name.FindStringSubmatch(f.Name); m != nil {
				n, _ := strconv.Atoi(m[2])
				channels[m[1]] = append(channels[m[1]], numbered{n, f})
			}
		}
	}
	shown := 0
	for channel, marks := range channels {
		slices.SortFunc(marks, func(a, b numbered) int { return a.n - b.n })
		for i, m := range marks {
			hand, _ := c.buoys().hand(m.f)
			deg, ok := c.buoys().direction(m.f, hand)
			next := slices.IndexFunc(marks[i:], func(o numbered) bool { return o.n >= m.n+2 })
			if !ok || next < 0 {
				continue
			}
			shown++
			_, ahead, _ := geo.Inverse(m.f.Coords[0].Position(), marks[i+next].f.Coords[0].Position())
			if math.Abs(geo.Turn(deg, ahead)) >= 90 {
				t.Errorf("%s, mark %d: the channel shows %.0f°, mark %d lies ahead on %.0f°", channel, m.n, deg, marks[i+next].n, ahead)
			}
		}
	}
	if shown < 25 {
		t.Errorf("only %d directions shown", shown)
	}
}
