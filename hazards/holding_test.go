package hazards

import (
	"math"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// Gusts of 14 kn on 2.5 × 1.84 m² of wind area pull with 2.5 · ½ · 1.225 · 1.2 · 4.6 ·
// (14 · 0.514444)² = 438.4 N: 439 N, or the weight of 45 kg.
const pullN = 438.445

func TestHolding(t *testing.T) {
	const notGiven = 0
	bed := func(natsur int, metres float64) []chart.Feature { return []chart.Feature{bedOf(natsur, metres)} }
	weed := area(chart.WEDKLP, rectangle(89, 49, 91, 51))
	rock := func(metres float64) chart.Feature {
		f := danger(chart.UWTROC, chart.Danger{WatLev: 3}, 3, 90, off(metres))
		f.NatSur = chart.CodesOf(9)
		return f
	}
	for _, c := range []struct {
		name    string
		bed     []chart.Feature
		holding float64
		want    string
	}{
		{"sand, just enough", bed(4, 40), pullN + 0.01, ""},
		{"sand, too little", bed(4, 40), pullN - 0.01, "not-clear holding-too-little"},
		{"gravel, just enough", bed(6, 40), 2*pullN + 0.01, ""},
		{"gravel, too little", bed(6, 40), 2*pullN - 0.01, "not-clear holding-too-little"},
		{"rock", bed(9, 40), 10 * pullN, "care poor-holding"},
		{"rock, too little", bed(9, 40), pullN - 1, "not-clear holding-too-little"},
		{"weed on sand", append(bed(4, 40), weed), 10 * pullN, "care poor-holding"},
		{"sand and shells: the worse", append(bed(4, 40), bedOf(17, 40)), 2*pullN - 1, "not-clear holding-too-little"},
		{"not charted, over half", nil, 2*pullN - 0.01, "care holding-doubtful"},
		{"not charted, half", nil, 2*pullN + 0.01, ""},
		{"not charted, too little", nil, pullN - 0.01, "not-clear holding-too-little"},
		{"of an unknown nature", bed(40, 40), 2*pullN - 0.01, "care holding-doubtful"},
		// 10 m of the anchor's place and 5 m + 5 % of 20 m of a survey of zone A1.
		{"a rock 15 m away", append(bed(4, 40), rock(15)), 10 * pullN, "care poor-holding"},
		{"a rock 17 m away", append(bed(4, 40), rock(17)), 10 * pullN, ""},
		{"not given", nil, notGiven, "note holding-not-given"},
		{"not given, on rock", bed(9, 40), notGiven, "care poor-holding"},
	} {
		p, _ := atAnchor(0)
		blow(p, 0, 10)
		p.Boat.HoldingN = &c.holding
		if c.holding == notGiven {
			p.Boat.HoldingN = nil
		}
		r := mustCheck(t, pool(3, 4, c.bed...), p)
		if got := foundOf(r, plan.CheckHolding); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		near(t, c.name+": load", *r.Stays[0].LoadN, 439, 0)
	}
}

// What a private layer says of the ground is taken where it is bad.
func TestPrivateGround(t *testing.T) {
	for natsur, want := range map[int]facts.Ground{4: {Natures: chart.CodesOf(4), Holds: facts.HoldsNotCharted}, 9: {Natures: chart.CodesOf(9), Holds: facts.HoldsPoorly}} {
		p, _ := atAnchor(0)
		own := &chart.Set{Authority: chart.Private, Features: []chart.Feature{bedOf(natsur, 40)}}
		if got := *mustCheckOn(t, chart.New(pool(3, 4), own), p).Stays[0].Ground; got != want {
			t.Errorf("%d: %+v, want %+v", natsur, got, want)
		}
	}
}

// A load that is not all known is judged by what is known of it.
func TestHoldingOfALoadPartlyKnown(t *testing.T) {
	for _, c := range []struct {
		holding float64
		change  func(*plan.Plan)
		want    string
	}{
		{1e4, func(p *plan.Plan) { windUntil(p, -2*time.Hour) }, "no-data load-not-known"},
		{400, func(p *plan.Plan) { windUntil(p, -2*time.Hour) }, "not-clear holding-too-little"},
		{1e4, func(p *plan.Plan) { p.Boat.BeamM = nil }, "no-data load-not-known"},
		{1e4, func(p *plan.Plan) { p.Wind = nil }, "no-data load-not-known"},
	} {
		p, _ := atAnchor(0)
		blow(p, 0, 10)
		p.Boat.HoldingN = &c.holding
		c.change(p)
		r := mustCheck(t, pool(3, 4, bedOf(4, 40)), p)
		if got := foundOf(r, plan.CheckHolding); got != c.want {
			t.Errorf("%.0f N: %q, want %q", c.holding, got, c.want)
		}
		if r.Stays[0].LoadN != nil {
			t.Errorf("a load of %v", *r.Stays[0].LoadN)
		}
	}
}

// Wind and stream are summed when both pull: 2 kn on 2.5 × 1 m² are 678.2 N.
func TestLoadOfWindAndStream(t *testing.T) {
	p, _ := atAnchor(0)
	blow(p, 0, 10)
	p.Stream = []plan.Stream{{Time: leaving.Add(-time.Hour), Kn: 2}, {Time: leaving.Add(9 * time.Hour), Kn: 2}}
	r := mustCheck(t, pool(3, 4), p)
	near(t, "load", *r.Stays[0].LoadN, math.Ceil(pullN+678.2), 0)
	made := explained(t, r, "load_n")
	if len(made) != 2 || made[0].Value+made[1].Value != *r.Stays[0].LoadN || made[0].Value != 439 || !strings.Contains(made[1].Why, "2.0 kn") {
		t.Errorf("%+v", made)
	}
}

// explained is what a figure of the first stay is made of.
func explained(t *testing.T, r *plan.Report, figure string) []plan.Term {
	t.Helper()
	for _, e := range r.Stays[0].Explained {
		if e.Figure == figure {
			return e.Made
		}
	}
	t.Fatalf("%s is not explained", figure)
	return nil
}

// The ground in words: what is charted, and how it holds.
func TestGroundInWords(t *testing.T) {
	for _, c := range []struct {
		bed  []chart.Feature
		want string
	}{{nil, "not charted"}, {[]chart.Feature{bedOf(4, 40)}, "sand (good holding)"}, {[]chart.Feature{bedOf(4, 40), area(chart.WEDKLP, rectangle(89, 49, 91, 51))}, "sand and weed (poor holding)"}} {
		p, stay := atAnchor(0)
		if got := mustCheck(t, pool(3, 4, c.bed...), p).Stays[0].Bottom; strings.ReplaceAll(got, ", ", " and ") != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
		stay.Kind = plan.AtMooring
		if got := mustCheck(t, pool(3, 4, c.bed...), p).Stays[0].Bottom; got != "" {
			t.Errorf("a mooring on %q", got)
		}
	}
}
