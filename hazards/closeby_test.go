package hazards

import (
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

func mooring(catmor int, x, y float64) chart.Feature {
	f := point(chart.MORFAC, x, y)
	f.CatMor = catmor
	return f
}

// What is kept off is mark_off_m, at any speed and however wide the corridor.
func TestKeptOffByTheMarginOfMarks(t *testing.T) {
	for _, c := range []struct {
		name   string
		margin float64
		kn     float64
		f      chart.Feature
		want   []string
	}{
		{"buoy within 20 m", 20, 20, mark(chart.BOYSPP, chart.Mark{}, 50, off(19.8)), []string{"care mark"}},
		{"buoy beyond 20 m", 20, 20, mark(chart.BOYSPP, chart.Mark{}, 50, off(20.3)), nil},
		{"buoy just within 10 m", 10, 20, mark(chart.BOYSPP, chart.Mark{}, 50, off(9.9)), []string{"care mark"}},
		{"buoy just beyond 10 m", 10, 20, mark(chart.BOYSPP, chart.Mark{}, 50, off(10.2)), nil},
		{"farther than the widest corridor", 200, 20, mark(chart.BCNSPP, chart.Mark{}, 50, off(190)), []string{"not-clear mark"}},
		{"farther than the slow corridor", 10, 6, mooring(1, 50, off(9.5)), []string{"not-clear hazard"}},
		{"beside the start of the route", 10, 20, mark(chart.BOYSPP, chart.Mark{}, 10, off(5)), []string{"care mark"}},
		{"at a waypoint, once", 10, 20, mark(chart.BOYSPP, chart.Mark{}, 50, off(5)), []string{"care mark"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day(at(10, 50), at(50, 50), at(90, 50))
			p.Margins.MarkOffM, p.Boat.CruiseKn = c.margin, c.kn
			r := mustCheck(t, set(c.f), p)
			expect(t, r, c.want...)
			if len(r.Findings) != len(c.want) {
				t.Errorf("%d findings, want %d", len(r.Findings), len(c.want))
			}
		})
	}
}

// Bollards, walls and piles near a berth are passed by eye like the shore, and count
// where the track runs over them. A chain, a structure of a kind that is not said, a
// beacon and a crane stay what they are.
func TestStructuresNearABerth(t *testing.T) {
	p := day(at(50, 50), at(90, 50))
	p.Margins.BerthM = 150
	for catmor, want := range map[int]string{1: "note hazard", 2: "note hazard", 3: "note hazard", 4: "note hazard", 5: "note hazard", 6: "not-clear hazard", 0: "not-clear hazard"} {
		expect(t, mustCheck(t, set(mooring(catmor, 50.5, off(6))), p), want)
		expect(t, mustCheck(t, set(mooring(catmor, 50.5, off(1))), p), "not-clear hazard")
	}
	expect(t, mustCheck(t, set(mark(chart.BCNSPP, chart.Mark{}, 50.5, off(6))), p), "not-clear mark")
	expect(t, mustCheck(t, set(point(chart.CRANES, 50.5, off(6))), p), "not-clear hazard")
}

// The buoy that a stay moors to is none that she comes too close to; another one is,
// and so is hers for a plan that anchors beside it.
func TestTheBuoyThatSheMoorsTo(t *testing.T) {
	p := day()
	stay := lunch(p)
	stay.Kind = plan.AtMooring
	expect(t, mustCheck(t, set(mooring(7, 90, off(2))), p))
	expect(t, mustCheck(t, set(mooring(7, 50, off(2))), p), "care mark")
	expect(t, mustCheck(t, set(mooring(1, 90, off(2))), p), "not-clear hazard", "not-clear swing")
	stay.Kind = plan.AtAnchor
	expect(t, mustCheck(t, set(mooring(7, 90, off(2))), p), "care mark", "care swing")
}

// A daymark is part of what carries it: on a buoy it is no fixed mark, on a pile and
// on a beacon nothing of its own.
func TestDaymarkOnAnotherThing(t *testing.T) {
	dayMark := point(chart.DAYMAR, 50, off(3))
	expect(t, mustCheck(t, set(dayMark), day()), "not-clear mark")
	expect(t, mustCheck(t, set(dayMark, mark(chart.BOYSPP, chart.Mark{}, 50, off(3))), day()), "care mark")
	expect(t, mustCheck(t, set(dayMark, point(chart.PILPNT, 50, off(3))), day()), "not-clear hazard")
	expect(t, mustCheck(t, set(dayMark, mark(chart.BOYSPP, chart.Mark{}, 50, off(5))), day()), "care mark", "not-clear mark")
	own := bareSet(mark(chart.BOYSPP, chart.Mark{}, 50, off(3)))
	own.Authority = chart.Private
	expect(t, mustCheckOn(t, chart.New(set(dayMark), own), day()), "care mark", "not-clear mark")
}

// Words say what a thing is and where it is.
func TestWordsOfThings(t *testing.T) {
	crane := point(chart.CRANES, 50, off(20))
	crane.Overhead = &chart.Overhead{VerClrM: 0, VerCclM: chart.Unknown, VerCsaM: chart.Unknown, HorClrM: chart.Unknown, HeightDatum: 17}
	prohibited := func(m float64) chart.Feature {
		return ruled(rectangle(40, off(m), 60, 60), chart.Rules{Restrn: chart.CodesOf(7)})
	}
	for _, c := range []struct {
		f     chart.Feature
		check string
		title string
		want  string
	}{
		{mooring(4, 50, off(6.04)), plan.CheckHazard, "In the way", "A wall to tie up to stands 6.0 m from the track; 10.0 m off is wanted."},
		{mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(0.02)), plan.CheckMark, "Close to a buoy", "A lateral buoy floats on the track;"},
		{crane, plan.CheckBridge, "Too little room overhead", "crane: "},
		{prohibited(20.5), plan.CheckNoEntry, "Close by: Entry prohibited", "A restricted area, 20 m from the track: entry prohibited."},
		{prohibited(0.5), plan.CheckNoEntry, "Close by: Entry prohibited", "A restricted area, less than 1 m from the track: entry prohibited."},
		{prohibited(-1), plan.CheckNoEntry, "Entry prohibited", "A restricted area, which the track enters: entry prohibited."},
		{danger(chart.WRECKS, chart.Danger{CatWrk: 1}, chart.Unknown, 50, 50), plan.CheckHazard, "A wreck without a depth", "A wreck is said to be no danger"},
		{danger(chart.OBSTRN, chart.Danger{CatObs: 9}, chart.Unknown, 50, 50), plan.CheckHazard, "Ground tackle", "Ground tackle is said to be no danger"},
	} {
		f := finding(t, mustCheck(t, set(buoyage(1, 90), c.f), day()), c.check)
		if f.Title != c.title || !strings.Contains(f.Detail, c.want) {
			t.Errorf("%s: %q %q, want %q %q", c.f.Class, f.Title, f.Detail, c.title, c.want)
		}
	}
}

// Every code of a restricted area is told in words, and by its number where S-57 and
// S-101 have none.
func TestEveryRuleIsTold(t *testing.T) {
	for code := 1; code < 64; code++ {
		for _, r := range []chart.Rules{{Restrn: chart.CodesOf(code)}, {CatRea: chart.CodesOf(code)}} {
			if speed := code == 13 || code == 27 || code == 24; speed {
				continue // a speed zone tells them
			}
			f := finding(t, mustCheck(t, set(ruled(rectangle(40, 40, 60, 60), r)), day()), plan.CheckNoEntry)
			rule := facts.Rule{Restrn: code}
			if r.CatRea != 0 {
				rule = facts.Rule{CatRea: code}
			}
			name := words.English.For(nil, leaving).Title(facts.Area{What: facts.EntryRestricted, Rule: rule})
			if !strings.Contains(strings.ToLower(f.Detail), strings.ToLower(name)) || strings.Contains(f.Detail, "does not say") {
				t.Errorf("%+v: %s", r, f.Detail)
			}
		}
	}
}
