package hazards

import (
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// layered is the chart of set with an authority, scale and title of its own.
func layered(title string, who chart.Authority, scale int, more ...chart.Feature) *chart.Set {
	s := set(more...)
	s.Title, s.Authority, s.Scale = title, who, scale
	return s
}

// foul is a shoal across the track of day and a rock beside it.
func foul() []chart.Feature {
	return []chart.Feature{depth(0.2, 0.9, rectangle(60, 45, 62, 55)), danger(chart.UWTROC, chart.Danger{WatLev: 4}, chart.Unknown, 30, off(12))}
}

// An official set is never taken away from by a derived one of larger scale: both
// count, unless the skipper trusts the derived one; among sets of one authority
// the larger scale wins (layer-profile contract, section 8).
func TestWhichChartCounts(t *testing.T) {
	hit := []string{"not-clear clearance", "not-clear hazard"}
	for _, c := range []struct {
		name          string
		small, large  *chart.Set // the foul one is the smaller scale
		trust         []string
		want          []string
		alsoCautioned string
	}{
		{"official under derived", layered("O", chart.Official, 50_000, foul()...), layered("D", chart.Derived, 10_000), nil, hit, ""},
		{"official under derived that is trusted", layered("O", chart.Official, 50_000, foul()...), layered("D", chart.Derived, 10_000), []string{"D"}, nil, "“D” is trusted over official charts"},
		{"trusted by its hash", layered("O", chart.Official, 50_000, foul()...), hashed(layered("D", chart.Derived, 10_000), "0f"), []string{"0f"}, nil, "“D” is trusted over official charts"},
		{"another is trusted", layered("O", chart.Official, 50_000, foul()...), layered("D", chart.Derived, 10_000), []string{"O", "E"}, hit, "“E”"},
		{"official under official", layered("O", chart.Official, 50_000, foul()...), layered("P", chart.Official, 10_000), nil, nil, ""},
		{"derived under derived", layered("C", chart.Derived, 50_000, foul()...), layered("D", chart.Derived, 10_000), nil, nil, ""},
		{"derived under official", layered("D", chart.Derived, 50_000, foul()...), layered("O", chart.Official, 10_000), nil, nil, ""},
		{"derived without a scale over official", layered("O", chart.Official, 50_000, foul()...), layered("D", chart.Derived, 0), nil, hit, ""},
		{"a producer's own cell under derived", ownCell(layered("O", chart.Derived, 50_000, foul()...)), layered("D", chart.Derived, 10_000), nil, hit, ""},
		{"a private layer is never trusted", layered("O", chart.Official, 50_000, foul()...), layered("mine", chart.Private, 10_000), []string{"mine"}, hit, "“mine”"},
		{"foul in the derived one", layered("D", chart.Derived, 50_000), layered("E", chart.Derived, 10_000, foul()...), nil, hit, ""},
		{"foul in a derived one over official", layered("O", chart.Official, 50_000), layered("D", chart.Derived, 10_000, foul()...), nil, hit, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day()
			p.Choices.Trust = c.trust
			for _, sets := range [][]*chart.Set{{c.small, c.large}, {c.large, c.small}} {
				r := mustCheckOn(t, chart.New(sets...), p)
				expect(t, r, c.want...)
				if !strings.Contains(strings.Join(r.Cautions, "\n"), c.alsoCautioned) {
					t.Errorf("cautions %q, want %q", r.Cautions, c.alsoCautioned)
				}
			}
		})
	}
}

func hashed(s *chart.Set, sum string) *chart.Set { s.SHA256 = sum; return s }

func ownCell(s *chart.Set) *chart.Set { s.FromCell = true; return s }

// What the official chart does not know stays unknown under a derived one: an
// unsurveyed area, a hole in what it describes; and a hole in the derived one is
// not filled by the official.
func TestUnknownUnderADerivedChart(t *testing.T) {
	holed := func(who chart.Authority, scale int) *chart.Set {
		whole := rectangle(0, 0, 100, 100)
		cover := area(chart.MCOVR, whole)
		cover.Meta = &chart.Meta{CatCov: 1}
		ring := depth(10, 20, whole)
		hole := rectangle(40, 40, 60, 60)
		ring.Coords, ring.Ends = append(slices.Clone(whole), hole...), []int32{int32(len(whole)), int32(len(whole) + len(hole))}
		s := bareSet(cover, ring, survey(1, whole))
		s.Authority, s.Scale = who, scale
		return s
	}
	for name, sets := range map[string][]*chart.Set{
		"unsurveyed":            {layered("O", chart.Official, 50_000, area(chart.UNSARE, rectangle(40, 40, 60, 60))), layered("D", chart.Derived, 10_000)},
		"a hole":                {holed(chart.Official, 50_000), layered("D", chart.Derived, 10_000)},
		"a hole in the derived": {layered("O", chart.Official, 50_000), holed(chart.Derived, 10_000)},
		"a hole in one of two":  {layered("C", chart.Derived, 50_000), holed(chart.Derived, 10_000)},
	} {
		t.Run(name, func(t *testing.T) {
			expect(t, mustCheckOn(t, chart.New(sets...), day()), "no-data clearance")
			// A leg within the hole, far from its rim, too.
			expect(t, mustCheckOn(t, chart.New(sets...), day(at(48, 50), at(52, 50))), "no-data clearance")
		})
	}
	// A hole of a smaller scale that a larger one of as much authority fills is none.
	expect(t, mustCheckOn(t, chart.New(holed(chart.Derived, 50_000), layered("O", chart.Official, 10_000)), day()))
	expect(t, mustCheckOn(t, chart.New(holed(chart.Official, 50_000), layered("O", chart.Official, 10_000)), day()))
}

// Trust is the plan's, not the session's.
func TestTrustFollowsThePlan(t *testing.T) {
	s := NewSession(chart.New(layered("O", chart.Official, 50_000, foul()...), layered("D", chart.Derived, 10_000)))
	check := func(trust ...string) *plan.Report {
		p := day()
		p.Choices.Trust = trust
		r, err := s.Check(p)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	expect(t, check(), "not-clear clearance", "not-clear hazard")
	expect(t, check("D"))
	expect(t, check(), "not-clear clearance", "not-clear hazard")
}

func coverage(cat int, ring []chart.Coord) chart.Feature {
	f := area(chart.MCOVR, ring)
	f.Meta = &chart.Meta{CatCov: cat}
	return f
}

// CATCOV 2 over CATCOV 1 of the same set is no coverage (layer-profile contract,
// section 8).
func TestNoCoverageOverCoverage(t *testing.T) {
	hole := func() chart.Feature { return coverage(2, rectangle(40, 40, 60, 60)) }
	for _, c := range []struct {
		name string
		sets []*chart.Set
		from [2]float64 // ends of the leg along y = 50
		want []string
	}{
		{"across it", []*chart.Set{set(hole())}, [2]float64{10, 90}, []string{"no-data coverage"}},
		{"within it", []*chart.Set{set(hole())}, [2]float64{48, 52}, []string{"no-data coverage"}},
		{"up to 20 m of it", []*chart.Set{set(hole())}, [2]float64{10, 39.75}, []string{"no-data coverage"}},
		{"clear of it", []*chart.Set{set(hole())}, [2]float64{10, 39}, nil},
		{"beside the border", []*chart.Set{set(coverage(2, rectangle(100, 0, 120, 100)))}, [2]float64{10, 90}, nil},
		{"over the border", []*chart.Set{set(coverage(2, rectangle(80, 0, 120, 100)))}, [2]float64{10, 90}, []string{"no-data coverage"}},
		{"of another set", []*chart.Set{set(), layered("S", chart.Derived, 50_000, hole())}, [2]float64{10, 90}, nil},
		{"filled by a smaller scale", []*chart.Set{set(hole()), layered("S", chart.Derived, 50_000)}, [2]float64{10, 90}, nil},
		{"a smaller scale's shoal in it", []*chart.Set{set(hole()), layered("S", chart.Derived, 50_000, depth(0.2, 1, rectangle(49, 49, 51, 51)))}, [2]float64{10, 90}, []string{"not-clear clearance"}},
		{"a smaller scale's shoal beside it", []*chart.Set{set(hole()), layered("S", chart.Derived, 50_000, depth(0.2, 1, rectangle(29, 49, 31, 51)))}, [2]float64{10, 90}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			expect(t, mustCheckOn(t, chart.New(c.sets...), day(at(c.from[0], 50), at(c.from[1], 50))), c.want...)
		})
	}
}

// Local datums (VERDAT 24) are the same only within one set: a tide above one is
// not above that of a chart, and one answer is not about two charts.
func TestLocalDatums(t *testing.T) {
	local := func(title string, scale int) *chart.Set {
		s := layered(title, chart.Derived, scale)
		s.SoundingDatum = 24
		return s
	}
	tide := func(above *float64, stated int) *plan.Plan {
		p := day()
		p.Tide.Datum, p.Choices.TideAboveChartM, p.Choices.SoundingDatum = 24, above, stated
		return p
	}
	expect(t, mustCheck(t, local("A", 12_000), tide(nil, 0)), "no-data datum")
	expect(t, mustCheck(t, local("A", 12_000), tide(nil, 24)), "no-data datum")
	expect(t, mustCheck(t, local("A", 12_000), tide(ptr(0.0), 0)))
	expect(t, mustCheckOn(t, chart.New(local("A", 12_000), local("B", 50_000)), tide(ptr(0.0), 0)), "no-data datum")
	unstated := local("A", 12_000)
	unstated.SoundingDatum = 0
	expect(t, mustCheck(t, unstated, tide(nil, 24)), "no-data datum")
	expect(t, mustCheck(t, unstated, tide(ptr(0.5), 24)))
}

// The direction of buoyage is an official chart's, whatever a derived one of larger
// scale says: with it at 90 the green can lies on its own side, with 270 on the
// wrong one.
func TestBuoyageIsTheOfficialCharts(t *testing.T) {
	can := mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(50))
	o, d := layered("O", chart.Official, 50_000, buoyage(1, 90), can), layered("D", chart.Derived, 10_000, buoyage(1, 270))
	expect(t, mustCheckOn(t, chart.New(o, d), day()))
	d.Authority = chart.Official
	expect(t, mustCheckOn(t, chart.New(o, d), day()), "note mark")
}

// Private depth areas give coverage only where no other set is loaded, and then
// always with care (layer-profile contract, section 8).
func TestPrivateDepthsAlone(t *testing.T) {
	own := func() *chart.Set {
		s := bareSet(depth(10, 20, rectangle(0, 0, 100, 100)), survey(1, rectangle(0, 0, 100, 100)))
		s.Authority = chart.Private
		return s
	}
	far := set()
	for i := range far.Features {
		for k := range far.Features[i].Coords {
			far.Features[i].Coords[k].Lat += 10_000_000
		}
	}
	expect(t, mustCheck(t, own(), day()), "care coverage")
	expect(t, mustCheck(t, own(), day(at(10, 50), at(50, 50), at(90, 50))), "care coverage")
	expect(t, mustCheck(t, own(), day(at(10, 50), at(120, 50))), "no-data coverage", "care coverage")
	r := mustCheckOn(t, chart.New(own(), far), day())
	if r.Verdict != plan.NoData {
		t.Errorf("with a chart of other waters the verdict is %v: %q", r.Verdict, said(r))
	}
}
