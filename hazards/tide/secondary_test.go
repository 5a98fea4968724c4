package tide

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"
)

// TestSecondary checks the worked cases of tide_secondary_interp.json.
func TestSecondary(t *testing.T) {
	var ref struct {
		Secondary []struct {
			Ref, Out [][3]json.RawMessage
			DHW      float64 `json:"dHW_min"`
			DLW      float64 `json:"dLW_min"`
			RatioH   float64
			RatioL   float64
			DH       float64
		}
	}
	readJSON(t, "tide_secondary_interp.json", &ref)
	for i, c := range ref.Secondary {
		events := clockEvents(t, c.Ref)
		if len(events) == 1 { // a table must have two
			events = append([]Event{{Time: events[0].Time.Add(-6 * time.Hour), HeightM: 0.2}}, events...)
		}
		sec, err := NewSecondary(mustTable(t, events...),
			Difference{Minutes: c.DHW, Factor: c.RatioH, Metres: c.DH},
			Difference{Minutes: c.DLW, Factor: c.RatioL, Metres: c.DH})
		if err != nil {
			t.Fatal(err)
		}
		got := sec.Events(at(0), at(48*60))
		for _, want := range clockEvents(t, c.Out) {
			if !contains(got, want) {
				t.Errorf("case %d: %v not among %v", i, want, got)
			}
		}
	}
}

func contains(events []Event, want Event) bool {
	for _, e := range events {
		if e.Time.Equal(want.Time) && math.Abs(e.HeightM-want.HeightM) < 5e-4 && e.High == want.High {
			return true
		}
	}
	return false
}

// clockEvents reads ["H", "05:30", 4.2]; "+1d" after the time is the next day.
func clockEvents(t *testing.T, rows [][3]json.RawMessage) (out []Event) {
	t.Helper()
	for _, r := range rows {
		var kind, clock string
		var h float64
		for _, err := range []error{json.Unmarshal(r[0], &kind), json.Unmarshal(r[1], &clock), json.Unmarshal(r[2], &h)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		clock, next := strings.CutSuffix(clock, "+1d")
		hour, _ := strconv.Atoi(clock[:2])
		minute, _ := strconv.Atoi(clock[3:])
		e := Event{Time: at(float64(hour*60 + minute)), High: kind == "H", HeightM: h}
		if next {
			e.Time = e.Time.AddDate(0, 0, 1)
		}
		out = append(out, e)
	}
	return out
}

// TestSecondaryCrossing: where differences bring waters out of order the height is unknown, and
// elsewhere it is not.
func TestSecondaryCrossing(t *testing.T) {
	ref := mustTable(t, Event{Time: at(0), HeightM: 0.5}, Event{Time: at(360), HeightM: 4},
		Event{Time: at(420), HeightM: 3.5}, Event{Time: at(800), HeightM: 4.2}, Event{Time: at(1200), HeightM: 0.4})
	sec, err := NewSecondary(ref, Difference{Minutes: 90}, Difference{Minutes: 10})
	if err != nil {
		t.Fatal(err)
	}
	// Waters at 10, 450, 430 (out of order), 890, 1210.
	for _, c := range []struct {
		minutes float64
		ok      bool
	}{{5, false}, {10, true}, {300, true}, {440, false}, {600, true}, {1000, true}, {1211, false}} {
		if _, ok := sec.HeightM(at(c.minutes)); ok != c.ok {
			t.Errorf("at %g: known %v, want %v", c.minutes, ok, c.ok)
		}
	}
	if _, ok := sec.Least(at(400), at(500)); ok {
		t.Error("least known across waters out of order")
	}
	if _, ok := NewWindow(sec, at(20), at(1200)).Least(at(300), at(1000)); ok {
		t.Error("a window knows the least across waters out of order")
	}
	if _, ok := sec.Least(at(600), at(1000)); !ok {
		t.Error("least unknown where waters are in order")
	}
	// A high water that comes out below the low water beside it.
	low, err := NewSecondary(ref, Difference{Factor: 0.5}, Difference{Metres: 1})
	if err != nil {
		t.Fatal(err)
	}
	if h, ok := low.HeightM(at(390)); ok {
		t.Errorf("height %g between a high water of 2.0 m and a low water of 4.5 m", h)
	}
}

func TestSecondaryErrors(t *testing.T) {
	ref := NewTideless(1)
	for _, c := range []struct {
		ref       Tide
		high, low Difference
		want      string
	}{
		{nil, Difference{}, Difference{}, "reference: none given"},
		{ref, Difference{Metres: 1, Factor: 0.9}, Difference{}, "high: both metres (1) and factor (0.9)"},
		{ref, Difference{}, Difference{Factor: -1}, "low.factor: -1"},
		{ref, Difference{}, Difference{Minutes: 2000}, "low.minutes: 2000"},
		{ref, Difference{Metres: math.NaN()}, Difference{}, "high.metres: NaN"},
		{ref, Difference{Factor: math.Inf(1)}, Difference{}, "high.factor: +Inf"},
	} {
		if _, err := NewSecondary(c.ref, c.high, c.low); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %v, want %q in it", err, c.want)
		}
	}
}

// Differences that bring high water below low water are refused, whatever the reference is; one
// faint tide that they turn over is not (TestSecondaryCrossing).
func TestSecondaryUpsideDown(t *testing.T) {
	table := mustTable(t, Event{Time: at(0), HeightM: 0.5}, Event{Time: at(370), HeightM: 4}, Event{Time: at(740), HeightM: 0.6})
	for name, ref := range map[string]Tide{"table": table, "harmonic": boston(t), "adjusted": Adjusted(table, 0.2)} {
		for _, c := range []struct {
			high, low Difference
			ok        bool
		}{
			{Difference{Metres: -0.3}, Difference{Metres: 0.2}, true},
			{Difference{Metres: -3}, Difference{Metres: 3}, false}, // Boston's mean range is 2.9 m
			{Difference{Factor: 0.1}, Difference{Metres: 1.5}, false},
			{Difference{Factor: 0.1}, Difference{Factor: 0.1}, true},
		} {
			sec, err := NewSecondary(ref, c.high, c.low)
			if c.ok && err != nil {
				t.Errorf("%s with %v and %v: %v", name, c.high, c.low, err)
			}
			if !c.ok && (sec != nil || err == nil || !strings.Contains(err.Error(), "a high water cannot lie below its low water")) {
				t.Errorf("%s with %v and %v: %v; it is upside down", name, c.high, c.low, err)
			}
		}
	}
}

// TestSecondaryOnTideless: a reference without waters gives nothing, not nonsense.
func TestSecondaryOnTideless(t *testing.T) {
	sec, err := NewSecondary(NewTideless(1), Difference{}, Difference{})
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := sec.HeightM(day); ok {
		t.Error("height known")
	}
	if _, ok := sec.RangeM(day); ok {
		t.Error("range known")
	}
}

// TestSecondaryNoDifference: without differences a secondary port has its reference's waters, and
// a curve of half cosines through them, also over the seams between its blocks.
func TestSecondaryNoDifference(t *testing.T) {
	ref := boston(t)
	sec, err := NewSecondary(ref, Difference{}, Difference{Factor: 1})
	if err != nil {
		t.Fatal(err)
	}
	from, to := day, day.AddDate(0, 2, 0)
	want, got := ref.Events(from, to), sec.Events(from, to)
	if len(want) != len(got) {
		t.Fatalf("%d waters, want %d", len(got), len(want))
	}
	tb := mustTable(t, want...)
	for x := want[0].Time; x.Before(want[len(want)-1].Time); x = x.Add(7 * time.Minute) {
		a, okA := tb.HeightM(x)
		b, okB := sec.HeightM(x)
		if !okA || !okB || math.Abs(a-b) > 1e-9 {
			t.Fatalf("at %v: %g, %v; want %g, %v", x, b, okB, a, okA)
		}
	}
}
