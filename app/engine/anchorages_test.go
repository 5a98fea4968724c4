package engine

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/anchorages"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// aboutTheFirstStay is a part of the demo's chart about the day's first stay.
func aboutTheFirstStay(t *testing.T, nm float64) (part int, bounds *[4]float64) {
	t.Helper()
	p := planOf(t, demoPlan(t))
	part = slices.IndexFunc(p.Parts, func(x plan.Part) bool { return x.Stay != nil })
	b := anchorages.Around(p.Parts[part].Stay.At, nm)
	return part, &[4]float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
}

// The places are those of a search made without the service, though a check, a move's
// worth of questions and a ribbon come in between.
func TestAnchoragesOfTheService(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	part, bounds := aboutTheFirstStay(t, 1)
	text := demoPlan(t)
	s.Handle(Request{ID: 2, Kind: FindAnchorages, Plan: text, Stay: part, Bounds: bounds})
	s.Handle(Request{ID: 3, Kind: Ribbon, Plan: text})
	s.Handle(Request{ID: 4, Kind: CheckPlan, Plan: text})
	b := body[AnchoragesBody](t, h.end(t, 2))
	if r := h.end(t, 3); r.State != Done {
		t.Errorf("the ribbon is %s: %s", r.State, r.Words)
	}
	c := chart.New(decodeFiles(t, demoFiles(t)))
	session := hazards.NewSession(c)
	p := planOf(t, demoPlan(t))
	r, err := session.Check(p)
	if err != nil {
		t.Fatal(err)
	}
	q := anchorages.Question{Plan: p, Stay: *p.Parts[part].Stay, Arrive: r.Stays[0].Arrive.Truncate(1e9), From: &p.Routes()[0].Points[0],
		Area: anchorages.Around(p.Parts[part].Stay.At, 1)}
	search, err := anchorages.New(q)
	if err != nil {
		t.Fatal(err)
	}
	if err := search.Run(session, nil); err != nil {
		t.Fatal(err)
	}
	want := search.Worded(words.English, math.MaxInt)
	if len(b.Places) == 0 || len(b.Places) != min(len(want), mostPlaces) || b.More != len(want)-len(b.Places) {
		t.Fatalf("%d places and %d more, want %d", len(b.Places), b.More, len(want))
	}
	for i, p := range b.Places {
		w := want[i]
		if p.Rank != i+1 || p.At != [2]float64(w.At) || p.Verdict != w.Severity.String() || !reflect.DeepEqual(p.Why, w.Why) {
			t.Errorf("place %d: %+v, want %+v", i+1, p, w)
		}
	}
}

func TestAnchoragesRefused(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	part, bounds := aboutTheFirstStay(t, 1)
	for i, q := range []Request{
		{Stay: part}, {Stay: 0, Bounds: bounds}, {Stay: -1, Bounds: bounds}, {Stay: 99, Bounds: bounds},
		{Stay: part, Bounds: &[4]float64{0, 0, 0, 0}}, {Stay: part, Bounds: &[4]float64{-37, 42, -35, 44}}, {Stay: part, Bounds: &[4]float64{math.NaN(), 0, 1, 1}},
		{Stay: part, Bounds: bounds, Time: 4e9},
	} {
		q.ID, q.Kind, q.Plan = 10+i, FindAnchorages, demoPlan(t)
		s.Handle(q)
		if r := h.end(t, q.ID); r.State != Failed || r.Words == "" {
			t.Errorf("request %d: %s %q", i, r.State, r.Words)
		}
	}
}

// What is said of lying at a place is what a check of the plan's own stay says there.
func TestLieHere(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	part, _ := aboutTheFirstStay(t, 1)
	p := planOf(t, demoPlan(t))
	at := p.Parts[part].Stay.At
	s.Handle(Request{ID: 2, Kind: LieHere, Plan: demoPlan(t), Stay: part, Lon: &at[0], Lat: &at[1]})
	b := body[LieBody](t, h.end(t, 2))
	if len(b.Why) == 0 || b.Verdict == "" {
		t.Errorf("%+v", b)
	}
	c := chart.New(decodeFiles(t, demoFiles(t)))
	r, err := hazards.Check(c, p)
	if err != nil {
		t.Fatal(err)
	}
	words.English.Fill(r, p.Zone)
	worst := plan.Clear
	for _, f := range r.Findings {
		if f.Geometry == at && f.Severity != plan.Note {
			worst = worst.Worse(f.Severity)
		}
	}
	if b.Verdict != worst.String() {
		t.Errorf("lying there is %s, the stay of the plan is %s: %v", b.Verdict, worst, b.Against)
	}
	land := 0.0
	s.Handle(Request{ID: 3, Kind: LieHere, Plan: demoPlan(t), Stay: part, Lon: &land, Lat: &land})
	if b := body[LieBody](t, h.end(t, 3)); b.Verdict != "no-data" && b.Verdict != "not-clear" || len(b.Against) == 0 {
		t.Errorf("far from every chart: %+v", b)
	}
}
