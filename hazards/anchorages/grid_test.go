package anchorages

import (
	"errors"
	"math"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/chart/demobed"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/testdata/waters"
)

// Every cell says what a plan's own check says of lying in its middle for that hour.
func TestGridIsWhatAPlanIsTold(t *testing.T) {
	c := chart.New(waters.Demo(t))
	q := lunch(t, invented, demobed.Bounds(), 0, 1)
	q.Arrive = q.Arrive.Add(10 * time.Minute)
	g, err := NewGrid(q, 12)
	if err != nil {
		t.Fatal(err)
	}
	hours := 0
	if err := g.Run(hazards.NewSession(c), func() error { hours++; return nil }); err != nil {
		t.Fatal(err)
	}
	if hours != 2 || g.Progress() != 1 || max(g.Cols, g.Rows) != 12 || !g.Hours[1].Until.Equal(q.Stay.Until) {
		t.Errorf("%d hours, %g done, %d × %d cells", hours, g.Progress(), g.Cols, g.Rows)
	}
	session := hazards.NewSession(c)
	wet, clear, dry := 0, 0, 0
	for i := range g.Hours {
		h := &g.Hours[i]
		for k := range h.Cells {
			cell := &h.Cells[k]
			if !cell.Water {
				dry++
				continue
			}
			if wet++; wet%2 != 0 { // a check of its own takes some milliseconds
				continue
			}
			one := q
			one.Arrive, one.Stay.Until = h.From, h.Until
			r := putInto(t, session, &one, g.At(k))
			if (cell.Verdict >= plan.NoData) != (worstOf(r) >= plan.NoData) {
				t.Errorf("%v at %v: %s, a plan is told %s", g.At(k), h.From, cell.Verdict, worstOf(r))
			}
			if hs := r.Stays[0].SeaGreatestM; hs != nil && (!cell.Known || math.Abs(*hs-cell.HsM) > 1e-9) {
				t.Errorf("%v at %v: a sea of %.3f m, a plan is told %.3f m", g.At(k), h.From, cell.HsM, *hs)
			}
			if cell.Verdict < plan.NoData {
				clear++
			}
		}
	}
	if wet < 50 || clear < 3 || dry < 10 {
		t.Errorf("%d cells of water, %d of those looked at clear, %d of land", wet, clear, dry)
	}
}

// worstOf is the worst that a report says of lying at its stay.
func worstOf(r *plan.Report) plan.Severity {
	worst := plan.Clear
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Geometry != nil && f.Time != nil && !f.Time.Before(*r.Stays[0].Arrive) {
			worst = worst.Worse(f.Severity)
		}
	}
	return worst
}

// A grid that is left off goes on where it was.
func TestGridCanBeLeftOff(t *testing.T) {
	c := chart.New(waters.Demo(t))
	whole, err := NewGrid(lunch(t, invented, demobed.Bounds(), 0, 1), 8)
	if err != nil {
		t.Fatal(err)
	}
	if err := whole.Run(hazards.NewSession(c), nil); err != nil {
		t.Fatal(err)
	}
	parts, _ := NewGrid(lunch(t, invented, demobed.Bounds(), 0, 1), 8)
	session, stop := hazards.NewSession(c), errors.New("stop")
	calls := 0
	session.Between = func() error {
		if calls++; calls%40 == 0 {
			return stop
		}
		return nil
	}
	left, last := 0, 0.0
	for {
		err := parts.Run(session, nil)
		if err == nil {
			break
		}
		if left++; !errors.Is(err, stop) || parts.Progress() < last || left > 10_000 {
			t.Fatalf("%v, %g done after %g", err, parts.Progress(), last)
		}
		last = parts.Progress()
	}
	if left < 3 {
		t.Errorf("left off only %d times", left)
	}
	for i := range whole.Hours {
		for k := range whole.Hours[i].Cells {
			if whole.Hours[i].Cells[k] != parts.Hours[i].Cells[k] {
				t.Fatalf("hour %d, cell %d: %+v in parts, %+v at once", i, k, parts.Hours[i].Cells[k], whole.Hours[i].Cells[k])
			}
		}
	}
}

func TestGridsThatAreRefused(t *testing.T) {
	q := lunch(t, invented, demobed.Bounds(), 0, 1)
	for _, cells := range []int{0, -1, 49} {
		if _, err := NewGrid(q, cells); err == nil {
			t.Errorf("%d cells: no error", cells)
		}
	}
	q.Stay.Until = q.Arrive.Add(49 * time.Hour)
	if _, err := NewGrid(q, 8); err == nil {
		t.Error("49 hours: no error")
	}
}

func BenchmarkGrid(b *testing.B) {
	c := chart.New(waters.Demo(b))
	session := hazards.NewSession(c)
	for b.Loop() {
		g, err := NewGrid(lunch(b, invented, demobed.Bounds(), 0, 1), 24)
		if err != nil {
			b.Fatal(err)
		}
		if err := g.Run(session, nil); err != nil {
			b.Fatal(err)
		}
	}
}
