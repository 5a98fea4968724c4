package hazards

import (
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// away is a stay some metres from the end of the day's route, in a direction.
func away(p *plan.Plan, course, metres float64) *plan.Stay {
	stay := lunch(p)
	stay.At = geo.RhumbDirect(stay.At, course, metres)
	return stay
}

// A stay may lie up to 50 m from the end of its route: it is looked at itself.
func TestWhereSheLies(t *testing.T) {
	for _, c := range []struct {
		name string
		set  *chart.Set
		end  orb.Point
		want []string
	}{
		{"on land", set(area(chart.LNDARE, rectangle(50, off(40), 90, 60))), at(80, 50), []string{"not-clear land", "not-clear swing"}},
		{"beside an islet", set(point(chart.LNDARE, 80, off(50))), at(80, 50), []string{"not-clear land", "not-clear swing"}},
		{"on a pontoon", set(area(chart.PONTON, rectangle(79, off(44), 81, off(60)))), at(80, 50), []string{"not-clear hazard", "not-clear swing"}},
		{"outside the data", set(), at(80, 99.7), []string{"no-data chain", "no-data clearance", "no-data coverage", "no-data swing"}},
		{"where entry is prohibited", set(ruled(rectangle(70, off(40), 90, 60), chart.Rules{Restrn: chart.CodesOf(7)})), at(80, 50), []string{"not-clear no-entry"}},
		{"under a cable", set(func() chart.Feature {
			f := through(chart.CBLOHD, at(60, off(48)), at(95, off(48)))
			f.Overhead = ptr(span(chart.Unknown, chart.Unknown, 1.7, chart.Unknown))
			return f
		}()), at(80, 50), []string{"not-clear bridge", "not-clear swing"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day(orb.Point{at(40, 0)[0], c.end[1]}, c.end)
			away(p, 0, 48)
			expect(t, mustCheck(t, c.set, p), c.want...)
		})
	}
}

// A rule that comes into force while she lies there counts.
func TestSeasonBeginsDuringAStay(t *testing.T) {
	p := day()
	lunch(p).Until = leaving.Add(20 * time.Hour)
	windUntil(p, 40*time.Hour)
	rule := ruled(rectangle(80, 40, 100, 60), chart.Rules{Restrn: chart.CodesOf(7), Season: chart.Season{From: 719, To: 801}})
	expect(t, mustCheck(t, set(rule), p), "not-clear no-entry")
}

// What is known of a stay is judged though the wind or the tide ends early.
func TestUnknownEndDoesNotHideADanger(t *testing.T) {
	p := day(at(60, 50), at(30, 50))
	blow(p, 270, 30)
	p.Boat.SeaLimitM, p.Boat.SeaStopM = 5, 6
	lunch(p)
	windUntil(p, -2*time.Hour) // held until 11:00; she lies there until 13:00
	r := mustCheck(t, coast(), p)
	if worst(r, plan.CheckShelter) != plan.NotClear {
		t.Errorf("shelter is %s, want not-clear: %q", worst(r, plan.CheckShelter), said(r))
	}
	p = day()
	lunch(p)
	p.Tide = &plan.TideSource{Datum: lat, Events: []plan.TideEvent{{Time: leaving.Add(-3 * time.Hour), HeightM: 2.5}, {Time: leaving.Add(2 * time.Hour), HeightM: 0.1}}}
	r = mustCheck(t, set(depth(1.4, 5, rectangle(89.9, 0, 100, 100))), p)
	lies := plan.Clear
	for _, f := range r.Findings {
		if f.Check == plan.CheckClearance && f.Geometry.GeoJSONType() == "Point" {
			lies = lies.Worse(f.Severity)
		}
	}
	if lies != plan.NotClear {
		t.Errorf("the clearance where she lies is %s, want not-clear: %q", lies, said(r))
	}
}

// Near a berth only land, pontoons, piles and shoreline are passed by eye, and
// not what the track runs over.
func TestByEyeIsNotBlind(t *testing.T) {
	p := day(at(50, 50), at(90, 50))
	p.Margins.BerthM = 150
	for _, c := range []struct {
		name string
		f    chart.Feature
		want string
	}{
		{"pile on the track", point(chart.PILPNT, 50.5, 50), "not-clear hazard"},
		{"islet on the track", point(chart.LNDARE, 50.5, off(2)), "not-clear land"},
		{"pile beside the track", point(chart.PILPNT, 50.5, off(4)), "note hazard"},
		{"dam beside the track", through(chart.DAMCON, at(50.5, off(4)), at(50.5, off(60))), "not-clear hazard"},
		{"marine farm beside the track", area(chart.MARCUL, rectangle(50.4, off(4), 50.6, off(60))), "not-clear hazard"},
	} {
		t.Run(c.name, func(t *testing.T) { expect(t, mustCheck(t, set(c.f), p), c.want) })
	}
}

// Of two bars on one leg the one whose window closes first speaks, though the
// other needs a higher tide.
func TestFirstWindowToCloseSpeaks(t *testing.T) {
	p := day()
	swinging(p)
	a, b := depth(0.2, 9, rectangle(12, 0, 13, 100)), depth(0.4, 9, rectangle(85, 0, 86, 100))
	p.Boat.CruiseKn = 4
	p.Boat.Fuel.Burn[0].Kn = 4
	p.Boat.Night = true
	windUntil(p, 40*time.Hour)
	tried := 0
	for m := range 72 {
		depart := time.Date(2026, 7, 18, 0, 10*m, 0, 0, time.UTC)
		p.Parts[0].Route.Depart = &depart
		both := worst(mustCheck(t, set(a, b), p), plan.CheckTideWindow)
		alone := worst(mustCheck(t, set(b), p), plan.CheckTideWindow)
		if alone == plan.Care {
			tried++
			if both < alone && worst(mustCheck(t, set(a, b), p), plan.CheckClearance) != plan.NotClear {
				t.Errorf("leaving %v: %s with both bars, %s with one", depart, both, alone)
			}
		}
	}
	if tried == 0 {
		t.Error("no closing window was tried")
	}
}

// A mark passed twice is judged twice.
func TestMarkPassedTwice(t *testing.T) {
	north := mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 50, 50)
	out := []orb.Point{at(10, off(60)), at(90, off(60)), at(90, off(-90)), at(10, off(-90))}
	r := mustCheck(t, set(north), day(out...))
	if n := len(r.Findings); n != 1 || r.Findings[0].Leg != 3 {
		t.Errorf("%d findings %q, want one on leg 3", n, said(r))
	}
}

// A cardinal where the route ends counts, and so does running over one.
func TestCardinalAtTheEnd(t *testing.T) {
	expect(t, mustCheck(t, set(mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 90, off(80))), day()), "not-clear mark")
	expect(t, mustCheck(t, set(mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 50, off(1))), day()), "not-clear mark")
	expect(t, mustCheck(t, set(buoyage(1, 90), mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 90, off(-80))), day()))
}

// At a sharp turn a mark lies on the outside of it.
func TestMarkOutsideASharpTurn(t *testing.T) {
	around := []orb.Point{at(50, 20), at(50, 50), at(55, 20)} // north, then back to the right
	for _, c := range []struct {
		catlam int
		want   []string
	}{{1, nil}, {2, []string{"note mark"}}} {
		s := set(buoyage(1, 0), mark(chart.BOYLAT, chart.Mark{CatLam: c.catlam}, 50.3, off(100)))
		expect(t, mustCheck(t, s, day(around...)), c.want...)
	}
}

// Streams that do not reach the time are missing input; one she cannot stem is
// not clear.
func TestStreamsNotKnownOrTooStrong(t *testing.T) {
	p := day()
	p.Stream = []plan.Stream{{Time: leaving.Add(-10 * time.Hour), TowardDeg: 90, Kn: 1}}
	expect(t, mustCheck(t, set(), p), "no-data sea")
	p.Stream[0].Time, p.Stream[0].TowardDeg, p.Stream[0].Kn = leaving, 270, 25
	r := mustCheck(t, set(), p)
	if worst(r, plan.CheckSea) != plan.NotClear {
		t.Errorf("a stream of 25 kn: %q", said(r))
	}
}

// A private layer's word on the quality of the survey, or on the buoyage, does
// not make a chart better.
func TestPrivateWordOnTheChart(t *testing.T) {
	whole := rectangle(0, 0, 100, 100)
	poor := set()
	poor.Features = poor.Features[:2] // without its survey quality
	own := &chart.Set{Authority: chart.Private, Features: []chart.Feature{survey(1, whole), buoyage(1, 270)}}
	without := mustCheckOn(t, chart.New(poor), day())
	with := mustCheckOn(t, chart.New(poor, own), day())
	expect(t, without, "care hazard")
	expect(t, with, "care hazard")
	wrong := set(mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(-100)))
	expect(t, mustCheckOn(t, chart.New(wrong, own), day()), "note mark")
}

// A gap in the survey's quality is no quality.
func TestGapInTheSurvey(t *testing.T) {
	s := set()
	s.Features = append(s.Features[:2], survey(1, rectangle(0, 0, 40, 100)), survey(1, rectangle(60, 0, 100, 100)))
	expect(t, mustCheck(t, s, day()), "care hazard")
	s.Features = append(s.Features, bank(1.4, 9)) // 1.75 m left, 1 m wanted, zone C may be 2 m out
	expect(t, mustCheck(t, s, day()), "care clearance", "care hazard")
}

// A depth above the tide's own datum takes no answer; one of a third datum
// takes none either.
func TestAnsweredDatum(t *testing.T) {
	s := set(bank(0.5, 9))
	s.Features[3].Datum = 1
	p := day()
	p.Tide.Datum, p.Choices.TideAboveChartM = 1, ptr(1.0)
	expect(t, mustCheck(t, s, p), "not-clear clearance")
	s.Features[3].Datum = 5
	s.Features[3].DepthMinM = 3
	expect(t, mustCheck(t, s, p), "no-data datum")
}

// Foul ground that dries is no ground to pass over.
func TestFoulGroundThatDries(t *testing.T) {
	expect(t, mustCheck(t, set(danger(chart.OBSTRN, chart.Danger{CatObs: 7, WatLev: 4}, chart.Unknown, 50, 50)), day()), "not-clear hazard")
}

// The margin of a table is a tenth of the greatest range inside.
func TestMarginOverALongStay(t *testing.T) {
	p := day()
	stay := lunch(p)
	stay.Until = leaving.Add(21 * time.Hour)
	windUntil(p, 30*time.Hour)
	hours := []float64{-4, 2, 8, 14, 20, 26}
	levels := []float64{2, 3, 1, 8, 2, 3}
	p.Tide = &plan.TideSource{Datum: lat}
	for i, h := range hours {
		p.Tide.Events = append(p.Tide.Events, plan.TideEvent{Time: leaving.Add(time.Duration(h * float64(time.Hour))), HeightM: levels[i]})
	}
	// The least is 1 m at 8 h, the greatest range 7 m.
	near(t, "least depth", *mustCheck(t, set(), p).Stays[0].DepthLeastM, 10+1-0.7, 1e-9)
}

// A bridge's own datum of heights is not the chart's.
func TestBridgeWithItsOwnDatum(t *testing.T) {
	o := span(4, chart.Unknown, chart.Unknown, 10)
	o.HeightDatum = 3 // mean sea level: how far above the tide's datum is not said
	expect(t, mustCheck(t, set(overheadLine(chart.BRIDGE, o, 50)), day()), "not-clear bridge")
	o.VerClrM = 6
	expect(t, mustCheck(t, set(overheadLine(chart.BRIDGE, o, 50)), day()), "note bridge")
}

// M_VDAT gives the datum of heights inside it.
func TestBridgeUnderAnAreaOfAnotherDatum(t *testing.T) {
	vdat := area(chart.MVDAT, rectangle(40, -1, 60, 101))
	vdat.Meta = &chart.Meta{VerDat: lat} // the tide's own: heights add nothing
	bridge := overheadLine(chart.BRIDGE, span(4, chart.Unknown, chart.Unknown, 10), 50)
	expect(t, mustCheck(t, set(vdat, bridge), day()), "not-clear bridge")
	expect(t, mustCheck(t, set(overheadLine(chart.BRIDGE, span(4, chart.Unknown, chart.Unknown, 10), 50)), day()))
}

// A hole in the larger chart is not filled by a smaller one that it covers.
func TestHoleInTheLargerChart(t *testing.T) {
	large := set()
	large.Features[1] = depth(10, 20, rectangle(0, 0, 45, 100))
	large.Features = append(large.Features, depth(10, 20, rectangle(55, 0, 100, 100)))
	small := set()
	small.Scale = 50000
	expect(t, mustCheckOn(t, chart.New(large), day()), "no-data clearance")
	expect(t, mustCheckOn(t, chart.New(large, small), day()), "no-data clearance")
	beside := day(at(10, 50), at(44.8, 50)) // ends 16 m before the hole
	expect(t, mustCheckOn(t, chart.New(large, small), beside), "no-data clearance")
}

// The dusk that ends a day is the next one, also after midnight.
func TestDuskAfterMidnight(t *testing.T) {
	zone := time.FixedZone("an hour east", 3600)
	back := time.Date(2026, 7, 20, 0, 6, 0, 0, zone)
	dusk, ok := newMemory().nextDusk(back, orb.Point{-7, 62})
	if !ok || dusk.Sub(back) > time.Hour || dusk.Before(back) {
		t.Errorf("the next dusk after %v is %v", back, dusk)
	}
}

// What was left out may have been a danger: it is kept off as one.
func TestRefusedDangerKeepsItsDistance(t *testing.T) {
	s := set()
	at33 := chart.CoordOf(at(50, off(33)))
	s.Refused = []chart.Refused{{Class: chart.WRECKS, Min: at33, Max: at33, Code: "E-NUM"}}
	expect(t, mustCheck(t, s, day()), "no-data clearance")
}
