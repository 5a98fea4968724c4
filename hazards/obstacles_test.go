package hazards

import (
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// off is the y of a place so many metres north of the track of day.
func off(m float64) float64 { return 50 + m/111.1 }

// worded is a feature of which the chart says something.
func worded(f chart.Feature) chart.Feature {
	f.Info = "INVENTED words"
	return f
}

// The rows land, hazard and no-entry of the contract's table. The corridor is
// 25 m to each side, 10 m more for dangers, A1's position accuracy about 5 m.
func TestObstacles(t *testing.T) {
	islet := func(y float64) chart.Feature { return point(chart.LNDARE, 50, y) }
	for _, c := range []struct {
		name string
		f    chart.Feature
		want []string
	}{
		{"islet charted as a point", islet(off(20)), []string{"not-clear land"}},
		{"islet within the position accuracy", islet(off(28)), []string{"care land"}},
		{"islet beyond", islet(off(32)), nil},
		{"land area", area(chart.LNDARE, rectangle(49, off(10), 51, off(500))), []string{"not-clear land"}},
		{"coastline", through(chart.COALNE, at(50, off(20)), at(50, off(200))), []string{"not-clear land"}},
		{"harbour wall", through(chart.SLCONS, at(50, off(20)), at(50, off(200))), []string{"not-clear land"}},
		{"pile", point(chart.PILPNT, 50, off(24)), []string{"not-clear hazard"}},
		{"pontoon", area(chart.PONTON, rectangle(49, off(10), 51, off(20))), []string{"not-clear hazard"}},
		{"marine farm", area(chart.MARCUL, rectangle(49, off(10), 51, off(20))), []string{"not-clear hazard"}},
		{"dam", through(chart.DAMCON, at(50, 40), at(50, 60)), []string{"not-clear hazard"}},
		{"rock without a depth", danger(chart.UWTROC, chart.Danger{WatLev: 4}, chart.Unknown, 50, off(34)), []string{"not-clear hazard"}},
		{"the same within the position accuracy", danger(chart.UWTROC, chart.Danger{WatLev: 4}, chart.Unknown, 50, off(39)), []string{"care hazard"}},
		{"the same beyond", danger(chart.UWTROC, chart.Danger{WatLev: 4}, chart.Unknown, 50, off(42)), nil},
		{"foul ground", danger(chart.OBSTRN, chart.Danger{CatObs: 7}, chart.Unknown, 50, 50), []string{"care hazard"}},
		{"non-dangerous wreck", danger(chart.WRECKS, chart.Danger{CatWrk: 1}, chart.Unknown, 50, 50), []string{"care hazard"}},
		{"gate", through(chart.GATCON, at(50, 40), at(50, 60)), []string{"care no-entry"}},
		{"separation zone", area(chart.TSEZNE, rectangle(40, 40, 60, 60)), []string{"care no-entry"}},
		{"caution area with words", worded(area(chart.CTNARE, rectangle(40, 40, 60, 60))), []string{"note no-entry"}},
		{"caution area without words", area(chart.CTNARE, rectangle(40, 40, 60, 60)), nil},
		{"entry prohibited", ruled(rectangle(40, off(-1), 60, 60), chart.Rules{Restrn: chart.CodesOf(7)}), []string{"not-clear no-entry"}},
		{"entry prohibited beside the track", ruled(rectangle(40, off(20), 60, 60), chart.Rules{Restrn: chart.CodesOf(7)}), []string{"care no-entry"}},
		{"to be avoided", ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(14)}), []string{"not-clear no-entry"}},
		{"no power-driven vessels", ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(42)}), []string{"not-clear no-entry"}},
		{"bathing area", ruled(rectangle(40, 40, 60, 60), chart.Rules{CatRea: chart.CodesOf(18)}), []string{"not-clear no-entry"}},
		{"entry restricted", ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(8)}), []string{"care no-entry"}},
		{"anchoring prohibited", ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(1)}), []string{"note no-entry"}},
		{"a rule not stated", ruled(rectangle(40, 40, 60, 60), chart.Rules{}), []string{"care no-entry"}},
		{"entry prohibited in winter", ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(7), Season: chart.Season{From: 1001, To: 430}}), nil},
		{"entry prohibited in July", ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(7), Season: chart.Season{From: 701, To: 718}}), []string{"not-clear no-entry"}},
		{"poor survey", survey(5, rectangle(40, 40, 60, 60)), []string{"care hazard"}},
	} {
		t.Run(c.name, func(t *testing.T) { expect(t, mustCheck(t, set(c.f), day()), c.want...) })
	}
}

// Near a berth land counts where the track crosses it; else it is a note.
func TestLandNearABerth(t *testing.T) {
	p := day(at(50, 50), at(90, 50))
	p.Margins.BerthM = 150
	beside, across := point(chart.PILPNT, 50.5, off(6)), through(chart.SLCONS, at(50.5, 49.9), at(50.5, 50.1))
	ahead := through(chart.SLCONS, at(50.5, off(6)), at(50.5, off(100)))
	expect(t, mustCheck(t, set(beside), p), "note hazard")
	expect(t, mustCheck(t, set(ahead), p), "note land")
	expect(t, mustCheck(t, set(across), p), "not-clear land")
	expect(t, mustCheck(t, set(sounding(-1, 50.5, off(6))), p), "not-clear clearance")
}

func TestOneFindingForThingsCloseTogether(t *testing.T) {
	rock := func(x float64) chart.Feature {
		return danger(chart.UWTROC, chart.Danger{WatLev: 4}, chart.Unknown, x, 50)
	}
	r := mustCheck(t, set(rock(50), rock(50.5), rock(51), rock(80)), day())
	if len(r.Findings) != 2 {
		for _, f := range r.Findings {
			t.Log(describe(f), f.Detail)
		}
		t.Errorf("%d findings, want one for the three close together and one for the fourth", len(r.Findings))
	}
}

// The speed row: the limit and where to slow are notes, a limit without a
// figure and a speed above it are care.
func TestSpeedZones(t *testing.T) {
	zone := func(r chart.Rules) chart.Feature { r.SpeedZone = true; return ruled(rectangle(40, 40, 60, 60), r) }
	five := chart.Rules{Restrn: chart.CodesOf(27), Limits: []chart.SpeedLimit{{Kn: 5}}}
	r := mustCheck(t, set(zone(five)), day())
	expect(t, r, "note speed")
	if len(r.Zones) != 1 || len(r.SlowDowns) != 1 || !r.Zones[0].Stated {
		t.Fatalf("zones %v, slow-downs %v", r.Zones, r.SlowDowns)
	}
	near(t, "limit", *r.Zones[0].LimitKn, 5, 0)
	near(t, "entry", r.Zones[0].Entry.Lon(), at(40, 50).Lon(), 1e-6)
	near(t, "exit", r.Zones[0].Exit.Lon(), at(60, 50).Lon(), 1e-6)
	expect(t, mustCheck(t, set(zone(chart.Rules{Restrn: chart.CodesOf(13)})), day()), "care speed")
	p := day()
	p.Parts[0].Route.SpeedsKn = []float64{12}
	expect(t, mustCheck(t, set(zone(five)), p), "care speed", "note speed")
}

// The bridge row. Clearances are above mean high water springs (17), 4 m above
// the tide's datum; the tide stands at 2 m + 0.3 m margin; she is 3 m high and
// 2.5 m wide. So clearance + 4 − 2.3 − 3 is left and 0.5 m wanted: 1.8 m just
// do.
func TestBridges(t *testing.T) {
	unknown := chart.Unknown
	opening := span(9, 1.9, unknown, 10)
	opening.Opening = true
	openingOnly := span(9, unknown, unknown, 10)
	openingOnly.Opening = true
	fixed := func(verclr, verccl float64) chart.Overhead {
		o := span(verclr, verccl, unknown, 10)
		o.Fixed = true
		return o
	}
	same := span(5.7, unknown, unknown, 10)
	same.HeightDatum = lat
	for _, c := range []struct {
		name  string
		class chart.Class
		o     chart.Overhead
		want  []string
	}{
		{"high enough", chart.BRIDGE, span(1.9, unknown, unknown, 10), nil},
		{"too low", chart.BRIDGE, span(1.7, unknown, unknown, 10), []string{"not-clear bridge"}},
		{"clearance unknown", chart.BRIDGE, span(unknown, unknown, unknown, 10), []string{"no-data bridge"}},
		{"wide enough", chart.BRIDGE, span(9, unknown, unknown, 4.6), nil},
		{"too narrow", chart.BRIDGE, span(9, unknown, unknown, 4.4), []string{"not-clear bridge"}},
		{"width unknown", chart.BRIDGE, span(9, unknown, unknown, unknown), []string{"no-data bridge"}},
		{"opening, closed clearance counts", chart.BRIDGE, opening, nil},
		{"opening, no closed clearance", chart.BRIDGE, openingOnly, []string{"no-data bridge"}},
		{"category not given, the lower counts", chart.BRIDGE, span(20, 1.7, unknown, 10), []string{"not-clear bridge"}},
		{"category not given, the lower is enough", chart.BRIDGE, span(20, 1.9, unknown, 10), nil},
		{"category not given, the other is the lower", chart.BRIDGE, span(1.7, 20, unknown, 10), []string{"not-clear bridge"}},
		{"category not given, closed clearance alone", chart.BRIDGE, span(unknown, 1.7, unknown, 10), []string{"not-clear bridge"}},
		{"category not given, closed clearance alone is enough", chart.BRIDGE, span(unknown, 1.9, unknown, 10), nil},
		{"fixed", chart.BRIDGE, fixed(1.9, unknown), nil},
		{"fixed, and a lower closed clearance", chart.BRIDGE, fixed(20, 1.7), []string{"not-clear bridge"}},
		{"fixed, no clearance of its own", chart.BRIDGE, fixed(unknown, 9), []string{"no-data bridge"}},
		{"crane", chart.CRANES, span(1.7, unknown, unknown, unknown), []string{"not-clear bridge", "not-clear hazard"}},
		{"cable, safe clearance", chart.CBLOHD, span(2, unknown, 1.9, unknown), nil},
		{"cable, safe clearance too low", chart.CBLOHD, span(20, unknown, 1.7, unknown), []string{"not-clear bridge"}},
		{"cable, plain clearance less 5 m", chart.CBLOHD, span(6.9, unknown, unknown, unknown), nil},
		{"cable, plain clearance too low", chart.CBLOHD, span(6.7, unknown, unknown, unknown), []string{"not-clear bridge"}},
		{"pipe", chart.PIPOHD, span(1.7, unknown, unknown, unknown), []string{"not-clear bridge"}},
		{"above the tide's own datum", chart.BRIDGE, same, []string{"not-clear bridge"}},
	} {
		t.Run(c.name, func(t *testing.T) { expect(t, mustCheck(t, set(overheadLine(c.class, c.o, 50)), day()), c.want...) })
	}
	p := day()
	p.Boat.AirDraughtM = nil
	expect(t, mustCheck(t, set(overheadLine(chart.BRIDGE, span(9, unknown, unknown, 10), 50)), p), "no-data bridge")
	p = day()
	p.Boat.BeamM = nil
	expect(t, mustCheck(t, set(overheadLine(chart.BRIDGE, span(9, unknown, unknown, 10), 50)), p), "no-data bridge")
	p = day()
	p.Tide = nil
	expect(t, mustCheck(t, set(overheadLine(chart.BRIDGE, span(9, unknown, unknown, 10), 50)), p), "no-data bridge", "no-data clearance")
}

// A higher tide leaves less room overhead, and the greatest within 15 min of
// passing counts.
func TestBridgeTakesTheGreatestTide(t *testing.T) {
	p := day()
	swinging(p)
	bridge := set(overheadLine(chart.BRIDGE, span(1.7, chart.Unknown, chart.Unknown, 10), 50))
	clear, not := 0, 0
	for h := range 13 {
		depart := time.Date(2026, 7, 18, 6+h, 0, 0, 0, time.UTC)
		p.Parts[0].Route.Depart = &depart
		r := mustCheck(t, bridge, p)
		for _, f := range r.Findings {
			if f.Check != plan.CheckBridge {
				continue
			}
			not++
			for _, w := range f.Windows {
				if !f.Time.Before(w[0]) && !f.Time.After(w[1]) {
					t.Errorf("not clear at %v, within the window %v", f.Time, w)
				}
			}
		}
		if len(r.Findings) == 0 {
			clear++
		}
	}
	if clear == 0 || not == 0 {
		t.Errorf("clear %d times, not clear %d times; want both", clear, not)
	}
}

// Lateral marks by CATLAM and the direction of buoyage, cardinals by their
// side (IALA R1001; the codes from IHO S-57 App. A). The track of day runs
// east.
func TestMarks(t *testing.T) {
	port, starboard := chart.Mark{CatLam: 1}, chart.Mark{CatLam: 2}
	north, south := off(100), off(-100)
	redMark, greenMark := chart.Mark{Colours: []int{3}}, chart.Mark{Colours: []int{4}}
	for _, c := range []struct {
		name   string
		orient float64
		region int
		m      chart.Feature
		want   []string
	}{
		{"port hand to port, inbound", 90, 1, mark(chart.BOYLAT, port, 50, north), nil},
		{"port hand to starboard, inbound", 90, 1, mark(chart.BOYLAT, port, 50, south), []string{"note mark"}},
		{"port hand to starboard, outbound", 270, 1, mark(chart.BOYLAT, port, 50, south), nil},
		{"port hand to port, outbound", 270, 1, mark(chart.BCNLAT, port, 50, north), []string{"note mark"}},
		{"starboard hand to starboard, inbound", 80, 2, mark(chart.BCNLAT, starboard, 50, south), nil},
		{"starboard hand to port, inbound", 80, 2, mark(chart.BOYLAT, starboard, 50, north), []string{"note mark"}},
		{"red to port in region A", 90, 1, mark(chart.BOYLAT, redMark, 50, north), nil},
		{"red to port in region B", 90, 2, mark(chart.BOYLAT, redMark, 50, north), []string{"note mark"}},
		{"green to port in region B", 90, 2, mark(chart.BOYLAT, greenMark, 50, north), nil},
		{"CATLAM before colour", 90, 2, mark(chart.BOYLAT, chart.Mark{CatLam: 1, Colours: []int{3}}, 50, north), nil},
		{"no colour, no CATLAM", 90, 1, mark(chart.BOYLAT, chart.Mark{}, 50, north), []string{"no-data mark"}},
		{"preferred channel", 90, 1, mark(chart.BOYLAT, chart.Mark{CatLam: 3}, 50, north), []string{"note mark"}},
		{"across the channel", 0, 1, mark(chart.BOYLAT, port, 50, north), []string{"note mark"}},
		{"too far off to count", 90, 1, mark(chart.BOYLAT, port, 50, off(-210)), nil},
		{"north cardinal, passing north", 90, 1, mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 50, south), nil},
		{"north cardinal, passing south", 90, 1, mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 50, north), []string{"not-clear mark"}},
		{"south cardinal, passing south", 90, 1, mark(chart.BCNCAR, chart.Mark{CatCam: 3}, 50, north), nil},
		{"cardinal without a side", 90, 1, mark(chart.BOYCAR, chart.Mark{}, 50, north), []string{"no-data mark"}},
		{"isolated danger", 90, 1, mark(chart.BOYISD, chart.Mark{}, 50, north), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			expect(t, mustCheck(t, set(buoyage(c.region, c.orient), c.m), day()), c.want...)
		})
	}
}

func TestMarkWithFoulWater(t *testing.T) {
	s := set(buoyage(1, 90), mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(-100)), sounding(-1, 50, 50))
	expect(t, mustCheck(t, s, day()), "not-clear clearance", "not-clear mark")
}

// Where no direction is charted the channel that the marks show counts, then the
// plan's own direction, then gates, then one warning a day.
func TestDirectionNotCharted(t *testing.T) {
	port, starboard := chart.Mark{CatLam: 1}, chart.Mark{CatLam: 2}
	wrong := mark(chart.BOYLAT, port, 50, off(-100))
	p := day()
	expect(t, mustCheck(t, set(wrong, mark(chart.BOYLAT, port, 70, off(100))), p), "note mark")
	p.Margins.ComfortDepthM = 6
	expect(t, mustCheck(t, set(wrong, bank(4.2, 9)), p), "care clearance", "care mark")
	p = day()
	p.BuoyageDeg = ptr(270.0)
	expect(t, mustCheck(t, set(wrong), p))
	p.BuoyageDeg = ptr(90.0)
	expect(t, mustCheck(t, set(wrong), p), "note mark")
	p.BuoyageDeg = nil
	gate := set(wrong, mark(chart.BOYLAT, starboard, 50, off(100)))
	expect(t, mustCheck(t, gate, p))
	apart := set(wrong, mark(chart.BOYLAT, starboard, 50, off(-150)))
	expect(t, mustCheck(t, apart, p), "note mark")
	p.Parts[0].Route.Points = append(p.Parts[0].Route.Points, at(90, 80))
	p.Parts = append(p.Parts, plan.Part{Stay: &plan.Stay{Name: "stop", Kind: plan.AtMooring, At: at(90, 80), Until: leaving.Add(time.Hour)}}, plan.Part{Route: &plan.Route{Points: []orb.Point{at(90, 80), at(90, 50), at(10, 50)}}})
	r := apartReport(t, NewSession(chart.New(set(wrong, mark(chart.BOYLAT, port, 70, off(100))))), p)
	if n := len(findingsOf(r, plan.CheckMark)); n != 1 {
		t.Errorf("%d warnings, want one a day", n)
	}
}

// A cardinal rounded at a waypoint is judged from the nearest place.
func TestMarkAtAWaypoint(t *testing.T) {
	s := set(mark(chart.BOYCAR, chart.Mark{CatCam: 2}, 49, 50))
	expect(t, mustCheck(t, s, day(at(50, 10), at(50, 50), at(50.5, 90))))
	if r := mustCheck(t, s, day(at(48, 10), at(48, 50), at(48.5, 90))); len(r.Findings) != 1 {
		t.Errorf("%d findings, want one: %q", len(r.Findings), said(r))
	}
}

func TestDaylight(t *testing.T) {
	p := day()
	// INVENTED waters at 43° N 36° W: sun.On gives the times; the altitude
	// itself decides, checked against PyEphem in package sun.
	for _, c := range []struct {
		hour, min int
		want      []string
	}{{12, 0, nil}, {22, 0, []string{"care daylight"}}, {23, 30, []string{"not-clear daylight"}}, {5, 30, []string{"not-clear daylight"}}, {7, 30, nil}} {
		depart := time.Date(2026, 7, 18, c.hour, c.min, 0, 0, time.UTC)
		p.Parts[0].Route.Depart = &depart
		p.Wind = []plan.Wind{{Time: depart.Add(-time.Hour)}, {Time: depart.Add(5 * time.Hour)}}
		expect(t, mustCheck(t, set(), p), c.want...)
		p.Boat.Night = true
		expect(t, mustCheck(t, set(), p))
		p.Boat.Night = false
	}
}

func TestSchedule(t *testing.T) {
	p := day()
	stay := lunch(p)
	stay.Until = leaving.Add(5 * time.Minute)
	expect(t, mustCheck(t, set(), p), "not-clear schedule")
	p = day()
	p.BackBy = ptr(leaving.Add(10 * time.Minute))
	expect(t, mustCheck(t, set(), p), "not-clear schedule")
	p.BackBy = ptr(leaving.Add(time.Hour))
	expect(t, mustCheck(t, set(), p))
}
