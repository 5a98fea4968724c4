package engine

import (
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/anchorages"
)

// The grid is that of one worked out without the service, though other questions come in
// between; the newest question wins.
func TestShelterGridOfTheService(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	part, bounds := aboutTheFirstStay(t, 1)
	text := demoPlan(t)
	// The older one is long, so that it is not done before the newer is asked for.
	s.Handle(Request{ID: 2, Kind: ShelterGrid, Plan: text, Stay: part, Bounds: bounds, Cells: 32})
	s.Handle(Request{ID: 3, Kind: ShelterGrid, Plan: text, Stay: part, Bounds: bounds, Cells: 6})
	s.Handle(Request{ID: 4, Kind: CheckPlan, Plan: text})
	if r := h.end(t, 2); r.State != Cancelled {
		t.Errorf("the older grid is %s", r.State)
	}
	b := body[ShelterBody](t, h.end(t, 3))
	p := planOf(t, demoPlan(t))
	session := hazards.NewSession(chart.New(decodeFiles(t, demoFiles(t))))
	r, err := session.Check(p)
	if err != nil {
		t.Fatal(err)
	}
	g, err := anchorages.NewGrid(anchorages.Question{Plan: p, Stay: *p.Parts[part].Stay, Arrive: r.Stays[0].Arrive.Truncate(1e9), Area: anchorages.Around(p.Parts[part].Stay.At, 1)}, 6)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.Run(session, nil); err != nil {
		t.Fatal(err)
	}
	if b.Cols != g.Cols || b.Rows != g.Rows || len(b.Hours) != len(g.Hours) || b.Bounds != *bounds {
		t.Fatalf("%d × %d cells, %d hours in %v", b.Cols, b.Rows, len(b.Hours), b.Bounds)
	}
	seen := map[int]bool{}
	for i := range g.Hours {
		for k := range g.Hours[i].Cells {
			sea, verdict := cellFigures(&g.Hours[i].Cells[k])
			if b.Hours[i].SeaCM[k] != sea || b.Hours[i].Verdict[k] != verdict {
				t.Errorf("hour %d, cell %d: %d cm, %d, want %d cm, %d", i, k, b.Hours[i].SeaCM[k], b.Hours[i].Verdict[k], sea, verdict)
			}
			seen[verdict] = true
		}
	}
	if len(seen) < 2 {
		t.Errorf("all cells are alike: %v", seen)
	}
}

func TestShelterGridRefused(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	part, bounds := aboutTheFirstStay(t, 1)
	for i, q := range []Request{{Stay: part}, {Stay: 99, Bounds: bounds}, {Stay: part, Bounds: bounds, Cells: 1000}, {Stay: part, Bounds: &[4]float64{0, 0, 0, 0}}} {
		q.ID, q.Kind, q.Plan = 10+i, ShelterGrid, demoPlan(t)
		s.Handle(q)
		if r := h.end(t, q.ID); r.State != Failed || r.Words == "" {
			t.Errorf("request %d: %s %q", i, r.State, r.Words)
		}
	}
}
