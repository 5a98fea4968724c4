package tide

import (
	"math"
	"strings"
	"testing"
	"time"
)

var day = time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC)

// at is a time minutes after the start of day.
func at(minutes float64) time.Time {
	return day.Add(time.Duration(minutes * float64(time.Minute)))
}

func mustTable(t testing.TB, events ...Event) *Table {
	t.Helper()
	tb, err := NewTable(stated(events...))
	if err != nil {
		t.Fatal(err)
	}
	return tb
}

// stated are waters whose kinds are stated: each is what its next neighbour, or at the end the one
// before, makes of it.
func stated(events ...Event) []Water {
	out := printed(events...)
	for i := range out {
		j := i + 1
		if j == len(out) {
			j = i - 1
		}
		out[i].Kind = LowWater
		if j >= 0 && out[i].HeightM > out[j].HeightM {
			out[i].Kind = HighWater
		}
	}
	return out
}

// printed are waters whose kinds are not stated.
func printed(events ...Event) []Water {
	out := make([]Water, len(events))
	for i, e := range events {
		out[i] = Water{Time: e.Time, HeightM: e.HeightM}
	}
	return out
}

// TestInterpolation checks the half cosine, and the rule of twelfths against it
// (tide_secondary_interp.json: rules of U.S. Tide Tables and Bowditch; arithmetic).
func TestInterpolation(t *testing.T) {
	var ref struct {
		Interp []struct {
			T1       float64 `json:"t1_min"`
			H1       float64
			T2       float64 `json:"t2_min"`
			H2       float64
			T        float64 `json:"t_min"`
			Cosine   float64
			Twelfths float64 `json:"twelfths_linear_between_hours"`
		}
		Published struct {
			Cosine float64 `json:"cosine_value_ft"`
		}
	}
	readJSON(t, "tide_secondary_interp.json", &ref)
	for _, c := range ref.Interp {
		tb := mustTable(t, Event{Time: at(c.T1), HeightM: c.H1}, Event{Time: at(c.T2), HeightM: c.H2})
		got, ok := tb.HeightM(at(c.T))
		if !ok || math.Abs(got-c.Cosine) > 1e-4 {
			t.Errorf("at %g min: %.4f, %v; want %.4f", c.T, got, ok, c.Cosine)
		}
		if tw := twelfths(c.T1, c.H1, c.T2, c.H2, c.T); math.Abs(tw-c.Twelfths) > 1e-4 {
			t.Errorf("twelfths at %g min: %.4f, want %.4f", c.T, tw, c.Twelfths)
		} else if math.Abs(tw-got) > 0.0225*math.Abs(c.H1-c.H2) {
			// 1.9 % of the range by the file at whole sixths; between them the chords add a little.
			t.Errorf("twelfths at %g min: %.3f m from the cosine", c.T, tw-got)
		}
	}
	checkRainsford(t, ref.Published.Cosine)
}

// twelfths is the rule of twelfths: 1, 2, 3, 3, 2, 1 twelfths of the range in the six sixths of
// the time (Bowditch). It is here to check the half cosine, and nowhere else.
func twelfths(t1, h1, t2, h2, t float64) float64 {
	sums := []float64{0, 1, 3, 6, 9, 11, 12}
	x := (t - t1) / (t2 - t1) * 6
	i := min(int(x), 5)
	return h1 + (h2-h1)*(sums[i]+(x-float64(i))*(sums[i+1]-sums[i]))/12
}

// checkRainsford is the published exercise: Boston 2004-04-19, HW 11:11 10.0 ft, LW 17:10 0.5 ft;
// Rainsford Island HW +0:00 × 0.95, LW +0:02 × 0.95; the height at 14:00.
func checkRainsford(t *testing.T, wantFt float64) {
	boston := mustTable(t, Event{Time: at(11*60 + 11), HeightM: 10}, Event{Time: at(17*60 + 10), HeightM: 0.5})
	rainsford, err := NewSecondary(boston, Difference{Factor: 0.95}, Difference{Minutes: 2, Factor: 0.95})
	if err != nil {
		t.Fatal(err)
	}
	got, ok := rainsford.HeightM(at(14 * 60))
	if !ok || math.Abs(got-wantFt) > 0.01 {
		t.Errorf("Rainsford Island at 14:00: %.3f ft, %v; want %.3f", got, ok, wantFt)
	}
}

func TestTableErrors(t *testing.T) {
	e := func(minutes, h float64) Event { return Event{Time: at(minutes), HeightM: h} }
	for _, c := range []struct {
		name   string
		events []Event
		want   string
	}{
		{"none", nil, "events: 0 given"},
		{"one", []Event{e(0, 1)}, "events: 1 given"},
		{"two highs run", []Event{e(0, 4), e(370, 1), e(740, 2.1), e(1100, 3)},
			"events[2]: 2.10 m at 2026-07-01T12:20:00Z is neither a high nor a low water between its neighbours; a tide table alternates"},
		{"equal", []Event{e(0, 1), e(370, 1)}, "events[0]: 1.00 m"},
		{"equal later", []Event{e(0, 1), e(370, 3), e(700, 3)}, "events[1]: 3.00 m"},
		{"order", []Event{e(0, 1), e(0, 3)}, "events[1]: 2026-07-01T00:00:00Z is not after events[0]"},
		{"not a number", []Event{e(0, 1), e(100, math.NaN())}, "events[1]: height NaN m"},
		{"too high", []Event{e(0, 1), e(100, 20.5)}, "events[1]: height 20.5 m"},
		{"infinite", []Event{e(0, math.Inf(-1)), e(100, 2)}, "events[0]: height -Inf m"},
	} {
		if _, err := NewTable(printed(c.events...)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q in it", c.name, err, c.want)
		}
	}
}

// TestTableEnds: kinds are derived, and nothing is known beyond the ends (plan-file.md: tables are
// never extended).
func TestTableEnds(t *testing.T) {
	tb := mustTable(t, Event{Time: at(60), HeightM: 3}, Event{Time: at(420), HeightM: 0.5}, Event{Time: at(800), HeightM: 3.4})
	for i, high := range []bool{true, false, true} {
		if tb.events[i].High != high {
			t.Errorf("events[%d] high: %v", i, !high)
		}
	}
	for _, c := range []struct {
		minutes float64
		want    float64
		ok      bool
	}{{59.9, 0, false}, {60, 3, true}, {420, 0.5, true}, {800, 3.4, true}, {800.1, 0, false}} {
		if got, ok := tb.HeightM(at(c.minutes)); ok != c.ok || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("at %g: %g, %v; want %g, %v", c.minutes, got, ok, c.want, c.ok)
		}
	}
	if _, ok := tb.Least(at(0), at(500)); ok {
		t.Error("least is known before the table begins")
	}
	if _, ok := tb.Greatest(at(500), at(900)); ok {
		t.Error("greatest is known after the table ends")
	}
	if got, ok := tb.Least(at(100), at(700)); !ok || got != 0.5 {
		t.Errorf("least %g, %v", got, ok)
	}
	if got, ok := tb.RangeM(at(420)); !ok || math.Abs(got-2.9) > 1e-12 {
		t.Errorf("range at low water %g, %v; want the larger, 2.9", got, ok)
	}
	if _, ok := tb.RangeM(at(30)); ok {
		t.Error("range known before the table begins")
	}
	if from, to, bounded := tb.Covers(); !bounded || !from.Equal(at(60)) || !to.Equal(at(800)) {
		t.Errorf("covers %v %v %v", from, to, bounded)
	}
}

func TestTidelessAndAdjusted(t *testing.T) {
	w := Adjusted(NewTideless(0.4), -0.15)
	for _, f := range []func() (float64, bool){
		func() (float64, bool) { return w.HeightM(day) },
		func() (float64, bool) { return w.Least(day, day.AddDate(0, 0, 1)) },
		func() (float64, bool) { return w.Greatest(day, day.AddDate(0, 0, 1)) },
	} {
		if got, ok := f(); !ok || math.Abs(got-0.25) > 1e-12 {
			t.Errorf("%g, %v; want 0.25", got, ok)
		}
	}
	if len(w.Events(day, day.AddDate(1, 0, 0))) != 0 {
		t.Error("a tideless water has turning points")
	}
	tb := Adjusted(mustTable(t, Event{Time: at(0), HeightM: 1}, Event{Time: at(360), HeightM: 3}), 0.5)
	if e := tb.Events(at(0), at(360)); len(e) != 2 || e[0].HeightM != 1.5 || e[1].HeightM != 3.5 {
		t.Errorf("events %v", e)
	}
	if _, ok := tb.HeightM(at(-1)); ok {
		t.Error("an adjustment makes a height known")
	}
	if !strings.Contains(tb.Describe(), "+0.50 m") {
		t.Error(tb.Describe())
	}
}
