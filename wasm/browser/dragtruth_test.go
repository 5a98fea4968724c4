//go:build !js

package browser

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	charted "keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
	"keelroom/testdata/waters"
)

// painted is what the chart says of the frame it drew last while a point is dragged.
type painted struct {
	At    float64   // when the pointer was there
	Place []float64 // longitude, latitude
	Legs  []string
}

// painted reads that; ok is false while no point is dragged.
func (p *tab) painted() (seen painted, ok bool) {
	p.t.Helper()
	text := read[string](p, `document.querySelector(".keelroom-chart")?.dataset.painted ?? ""`)
	if text == "" {
		return painted{}, false
	}
	if err := json.Unmarshal([]byte(text), &seen); err != nil {
		p.t.Fatal(err)
	}
	return seen, true
}

// demoDay is the demo's plan and its chart, checked by this program.
func demoDay(t *testing.T) (*plan.Plan, *hazards.Session) {
	t.Helper()
	day := waters.Plan(t, "web", "demo", "plan.geojson")
	return day, hazards.NewSession(charted.New(waters.Demo(t)))
}

// reread is a plan as its file gives it.
func reread(t *testing.T, p *plan.Plan) *plan.Plan {
	t.Helper()
	text, err := p.Write()
	if err != nil {
		t.Fatal(err)
	}
	whole, err := plan.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	return whole
}

// legsWith is how each leg of the day is with a waypoint of the first route elsewhere,
// by a check of its own.
func legsWith(t *testing.T, day *plan.Plan, s *hazards.Session, vertex int, at orb.Point) []string {
	t.Helper()
	moved := day.Clone()
	if err := edit.MoveVertex(moved, 0, vertex, at); err != nil {
		t.Fatal(err)
	}
	report, err := s.Check(reread(t, moved))
	if err != nil {
		t.Fatal(err)
	}
	worst := make([]plan.Severity, len(report.Legs)+1)
	for i := range worst {
		worst[i] = plan.Clear
	}
	for _, f := range report.Findings {
		worst[f.Leg] = worst[f.Leg].Worse(f.Severity)
		for _, also := range f.Also {
			worst[also.Leg] = worst[also.Leg].Worse(f.Severity)
		}
	}
	legs := make([]string, len(report.Legs))
	for i := range legs {
		legs[i] = worst[i+1].String()
	}
	return legs
}

// What is painted while a waypoint is dragged belongs to one place: the legs are
// those that a check finds with the waypoint where it is painted, and once the
// pointer rests that is where the pointer is. Given up, the day is as it was; let go,
// the report is that of the place.
func TestDragPaintsWhatIsFound(t *testing.T) {
	t.Parallel()
	day, session := demoDay(t)
	vertex := slices.Index(day.Routes()[0].Points, orb.Point{offTheBay.lon, offTheBay.lat})
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.press(button("Whole day"))
		from := p.pixel(offTheBay.lon, offTheBay.lat)
		p.grasp(from, from.plus(14, 3))
		kinds := map[string]bool{}
		compare := func() (seen painted) {
			p.t.Helper()
			seen, ok := p.painted()
			if !ok {
				t.Fatal("nothing says where the waypoint is painted")
			}
			if slices.Contains(seen.Legs, "unchecked") {
				return seen
			}
			at := orb.Point{seen.Place[0], seen.Place[1]}
			if got, want := seen.Legs, legsWith(t, day, session, vertex, at); !slices.Equal(got, want) {
				t.Errorf("painted at %v the legs are %v, a check finds %v", at, got, want)
			}
			for _, leg := range seen.Legs {
				kinds[leg] = true
			}
			return seen
		}
		for i, to := range []lonLat{{-35.99, 43.004}, headland, {-35.98, 43.0}, dryBank, {-35.985, 43.006}} {
			end := p.pixel(to.lon, to.lat)
			for _, s := range from.between(end, 8) {
				if v.touch {
					p.slide(s)
				} else {
					p.move(s)
				}
				compare()
			}
			from = end
			p.until("the waypoint to be painted where the pointer rests, and checked there", func() bool {
				seen, ok := p.painted()
				there := ok && math.Hypot(p.pixel(seen.Place[0], seen.Place[1]).x-end.x, p.pixel(seen.Place[0], seen.Place[1]).y-end.y) < 3
				return there && !slices.Contains(seen.Legs, "unchecked")
			})
			compare()
			if i == 1 {
				p.shot("drag-truth-" + v.name())
			}
		}
		if !kinds["not-clear"] || !kinds["clear"] {
			t.Errorf("only %v was painted", kinds)
		}
		p.letGo(from)
		p.gone(css(".keelroom-chart[data-painted]"))
		dropped := day.Clone()
		if err := edit.MoveVertex(dropped, 0, vertex, p.droppedAt(vertex)); err != nil {
			t.Fatal(err)
		}
		report, err := session.Check(reread(t, dropped))
		if err != nil {
			t.Fatal(err)
		}
		words.English.Fill(report, day.Zone)
		sameJSON(t, "the report after the drop", p.reported(), report.Encode(day.Zone))
	})
}

// droppedAt is where a waypoint of the first route lies in the plan as it is exported.
func (p *tab) droppedAt(vertex int) orb.Point {
	p.t.Helper()
	out, err := plan.Decode(p.exported())
	if err != nil {
		p.t.Fatal(err)
	}
	return out.Routes()[0].Points[vertex]
}

// A drag that is given up leaves the day as it was checked, at once.
func TestDragGivenUp(t *testing.T) {
	t.Parallel()
	p := atSea(t, phone)
	p.press(button("Whole day"))
	from, to := p.pixel(offTheBay.lon, offTheBay.lat), p.pixel(headland.lon, headland.lat)
	p.grasp(from, to)
	p.until("the verdict while the waypoint is held", func() bool { return p.has(css(".verdict-not-clear")) })
	p.touch(to, to.plus(60, 60)) // a second finger: it is no drag any more
	p.gone(css(".verdict-not-clear"))
	p.lift()
	p.verdict(isCare)
	p.gone(css(".keelroom-chart[data-painted]"))
	if p.enabled(button("Undo")) {
		t.Error("a drag that was given up can be undone")
	}
}
