package tide

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestTableWhole checks the rules of the plan-file contract, "A tide table must be whole", on hand-made tables.
// A line is hours after midnight, height, kind and d for double.
func TestTableWhole(t *testing.T) {
	for name, c := range map[string]struct {
		table string
		index int
		ask   bool
		want  string // "" where it is whole
	}{
		"semidiurnal, stated":               {"1 .5 LW, 7.17 4 HW, 13.3 .6 LW, 19.5 4.1 HW", 0, false, ""},
		"semidiurnal, not stated":           {"1 .5, 7.17 4, 13.3 .6, 19.5 4.1", 0, false, ""},
		"two of them":                       {"1 .5, 7.17 4", 0, false, ""},
		"a low water left out":              {"1 .5 LW, 7.17 4 HW, 19.5 4.1 HW", 2, false, "two high waters run: between 07:10 and 19:30 a water seems to be missing (1 Jul 2026, UTC)"},
		"the same, not stated":              {"1 .5, 7.17 4, 19.5 4.1", 1, true, "neither a high nor a low"},
		"the same, falling":                 {"1 .5, 7.17 4.1, 19.5 4", 2, true, "moves only 0.10 m"},
		"18 h 40 from high to low":          {"1 .5 LW, 7.17 4 HW, 25.83 .6 LW", 2, false, "between 07:10 on 1 Jul and 01:49 on 2 Jul a water seems to be missing (2026, UTC): 18.7 hours"},
		"the same alone":                    {"7.17 4 HW, 25.83 .6 LW", 1, false, "a water seems to be missing"},
		"the same among others":             {"1 .5 LW, 7.17 4 HW, 25.83 .6 LW, 32 4.1 HW, 38.2 .5 LW", 2, false, "a water seems to be missing"},
		"daylight only":                     {"6 4 HW, 12.2 .6 LW, 30.8 4.1 HW, 37 .5 LW, 55.6 4.1 HW, 61.8 .6 LW", 2, false, "a water seems to be missing"},
		"one tide a day, stated":            {"3 .9 HW, 15.5 .1 LW, 27.8 .9 HW, 40.5 .1 LW", 0, false, ""},
		"one tide a day, not stated":        {"3 .9, 15.5 .1, 27.8 .9, 40.5 .1", 0, false, ""},
		"the same, one left out":            {"3 .9 HW, 15.5 .1 LW, 40.5 .1 LW, 52.9 .9 HW", 2, false, "two low waters run"},
		"the same, two left out":            {"3 .9 HW, 40.5 .1 LW, 52.9 .9 HW", 1, false, "37.5 hours"},
		"a span of 1.6 × the others":        {"1 .5, 7 4, 13 .6, 22.6 4.1, 28.6 .5", 0, false, ""},
		"a little more":                     {"1 .5, 7 4, 13 .6, 22.7 4.1, 28.7 .5", 3, true, "9.7 hours"},
		"a quarter of the median":           {"1 0, 7 4, 13 3, 19 7, 25 3", 0, false, ""}, // falls of 1 among 4, 1, 4, 4
		"a little less":                     {"1 0, 7 4, 13 3.01, 19 7, 25 3", 2, true, "moves only 0.99 m"},
		"three, 9 hours apart":              {"1 .5, 10 4, 19 .5", 0, false, ""},
		"three, more than that":             {"1 .5, 10.1 4, 19 .5", 1, true, "9.1 hours"},
		"three, the same stated":            {"1 .5 LW, 10.1 4 HW, 19 .5 LW", 0, false, ""},
		"13 hours among short ones":         {"1 .5 LW, 7 4 HW, 20 .6 LW, 26 4 HW", 0, false, ""},
		"more than that":                    {"1 .5 LW, 7 4 HW, 20.1 .6 LW, 26.1 4 HW", 2, false, "13.1 hours"},
		"the same among longer ones":        {"1 .5 LW, 9 4 HW, 22.1 .6 LW, 30.1 4 HW", 0, false, ""},
		"20 hours among long ones":          {"1 .9 HW, 13 .1 LW, 33 .9 HW, 45 .1 LW", 0, false, ""},
		"more than 20":                      {"1 .9 HW, 13 .1 LW, 33.1 .9 HW, 45 .1 LW", 2, false, "20.1 hours"},
		"every second pair left out":        {"1 4 HW, 19.67 .5 LW, 38.33 4 HW", 2, false, "37.3 hours between two like waters"},
		"every second pair, not stated":     {"1 4, 19.67 .5, 38.33 4, 57 .5", 2, true, "between two like waters"},
		"faint once, not the next day":      {"0 -.5 LW, 6 2 HW, 10 1.1 LW, 16 3.5 HW, 24.5 -.5 LW, 40.67 3.5 HW, 48.33 -.5 LW", 5, false, "16.2 hours"},
		"a double high water":               {"0 .5 LW, 4.8 4 HW d, 7 4.1 HW d, 12.3 .6 LW", 0, false, ""},
		"double, 5 hours apart":             {"0 .5 LW, 4.8 4 HW d, 9.8 4.1 HW d, 14 .6 LW", 1, false, "a water seems to be missing"},
		"one of them marked":                {"0 .5 LW, 4.8 4 HW d, 7 4.1 HW, 12.3 .6 LW", 1, false, "the other of the two is not beside it"},
		"neither marked":                    {"0 .5 LW, 4.8 4 HW, 7 4.1 HW, 12.3 .6 LW", 2, false, "two high waters run"},
		"three run":                         {"0 .5 LW, 3 4 HW d, 5 4.1 HW d, 7 4 HW d, 12 .6 LW", 3, false, "two high waters run"},
		"half of a double at the beginning": {"7 4.1 HW d, 12.3 .6 LW", 0, false, ""},
		"half of a double in the middle":    {"0 .5 LW, 4.8 4 HW d, 12.3 .6 LW", 1, false, "a water seems to be missing"},
		"a double and no more":              {"4.8 4 HW d, 7 4.1 HW d", 0, false, "high waters only"},
		"high below low":                    {"1 4 LW, 7 .5 HW", 1, false, "wrong side"},
		"as high as low":                    {"1 .5 LW, 7 .5 HW, 13 .4 LW", 0, false, ""},
		"some stated":                       {"1 .5 LW, 7.17 4, 13.3 .6, 19.5 4.1 HW", 0, false, ""},
		"some stated, wrongly":              {"1 .5 HW, 7.17 4, 13.3 .6, 19.5 4.1 HW", 0, false, "its neighbours say otherwise"},
		"some stated, one left out":         {"1 .5 LW, 7.17 4 HW, 19.5 4.1", 1, true, "neither a high nor a low"},
		"no kind":                           {"1 .5 LW, 7.17 4 high", 1, false, `kind "high"; wanted HW or LW`},
	} {
		_, err := NewTable(lines(t, c.table))
		var at *TableError
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s: %v; it is whole", name, err)
		case c.want == "":
		case !errors.As(err, &at) || at.Index != c.index || at.Ask != c.ask || !strings.Contains(err.Error(), c.want):
			t.Errorf("%s: %v; want water %d, ask %v, %q", name, err, c.index, c.ask, c.want)
		}
	}
}

func lines(t *testing.T, table string) []Water {
	t.Helper()
	var out []Water
	for line := range strings.SplitSeq(table, ", ") {
		var w Water
		var hours float64
		var double string
		if n, _ := fmt.Sscan(line, &hours, &w.HeightM, &w.Kind, &double); n < 2 {
			t.Fatalf("%q is no line", line)
		}
		w.Time, w.Double = at(hours*60), double == "d"
		out = append(out, w)
	}
	return out
}

// A double water's margin is a share of the tide beside it, for how far the water falls between the
// two is in no table; a secondary port keeps both.
func TestDoubleWater(t *testing.T) {
	tb, err := NewTable(lines(t, "0 .5 LW, 4.8 4 HW d, 7 4.1 HW d, 12.3 .6 LW"))
	if err != nil {
		t.Fatal(err)
	}
	sec, err := NewSecondary(tb, Difference{Minutes: 30, Metres: 0.1}, Difference{})
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		tide                Tide
		minute, height, rng float64
	}{
		"table":     {tb, 354, 4.05, 3.5},  // midway; 4.1 − 0.6 and 4.0 − 0.5
		"secondary": {sec, 384, 4.15, 3.6}, // 4.2 − 0.6 and 4.1 − 0.5
	} {
		h, ok := c.tide.HeightM(at(c.minute))
		r, okRange := c.tide.RangeM(at(c.minute))
		if !ok || !okRange || h-c.height > 1e-9 || c.height-h > 1e-9 || r-c.rng > 1e-9 || c.rng-r > 1e-9 {
			t.Errorf("%s: height %g, %v, range %g, %v; want %g and %g", name, h, ok, r, okRange, c.height, c.rng)
		}
	}
}

// namedPorts are a mixed, a microtidal, a diurnal and five semidiurnal ports: those of the reference
// files, from NOAA CO-OPS (Boston, Philadelphia, Mayport, Pensacola, Seattle), Kartverket (Oslo) and
// TICON-4 (Cuxhaven, Newlyn).
func namedPorts(t *testing.T) map[string]Tide {
	t.Helper()
	s := loadList(t)
	out := map[string]Tide{}
	for _, file := range references {
		var ref struct{ Station string }
		readJSON(t, file, &ref)
		st, ok := s.Station(ref.Station)
		if !ok {
			t.Fatalf("%s is not in the list", ref.Station)
		}
		tide, err := st.Tide()
		if err != nil {
			t.Fatal(err)
		}
		out[st.Name] = tide
	}
	return out
}

// tableOf is what a table of those days prints: heights to the centimetre, times to the minute.
func tableOf(tide Tide, from time.Time, days int) []Water {
	var out []Water
	for _, e := range tide.Events(from, from.AddDate(0, 0, days)) {
		w := Water{Time: e.Time.Round(time.Minute), HeightM: round(e.HeightM, 2), Kind: e.Kind()}
		if n := len(out); n > 0 && !w.Time.After(out[n-1].Time) {
			out = out[:n-1] // up and down within a minute: in no table
			continue
		}
		out = append(out, w)
	}
	return out
}

func unstated(waters []Water) []Water {
	out := slices.Clone(waters)
	for i := range out {
		out[i].Kind = ""
	}
	return out
}

// True tables of the named ports, begun on any day of half a year, are never refused where kinds
// are stated, and never refused but asked about where they are not.
func TestTrueTablesAreWhole(t *testing.T) {
	for name, port := range namedPorts(t) {
		tide := NewWindow(port, day.AddDate(0, 0, -182), day.AddDate(0, 0, 31))
		for _, days := range []int{1, 3, 7, 30} {
			for d := range 180 {
				waters := tableOf(tide, day.AddDate(0, 0, d-181), days)
				if len(waters) < 3 {
					continue
				}
				if _, err := NewTable(waters); err != nil {
					t.Errorf("%s, %d days from %s: %v", name, days, waters[0].Time, err)
				}
				var at *TableError
				if _, err := NewTable(unstated(waters)); err != nil && (!errors.As(err, &at) || !at.Ask) {
					t.Errorf("%s, %d days from %s, kinds not stated: %v", name, days, waters[0].Time, err)
				}
			}
		}
	}
}

// Of a sample of the whole list, true tables of 30 days are whole but for some in a hundred: where
// tides are of centimetres and come and go.
func TestTrueTablesOfTheList(t *testing.T) {
	s := loadList(t)
	tables, refused := 0, 0
	for i := 0; i < s.Len(); i += 29 {
		tide, err := s.station(i).Tide()
		if err != nil || s.heads[i].subordinate() {
			continue
		}
		waters := tableOf(tide, day, 30)
		if len(waters) < 2 {
			continue
		}
		tables++
		if _, err := NewTable(waters); err != nil {
			refused++
			t.Logf("%s: %v", s.station(i).Name, err)
		}
	}
	if tables < 100 || refused*50 > tables {
		t.Errorf("%d of %d true tables are refused", refused, tables)
	}
}

// A table of three days that lacks one water is never taken; one that lacks a pair is not either,
// where tides are two a day or the kinds are not stated; where they are mixed, but for a faint pair.
func TestTablesWithoutAWater(t *testing.T) {
	mixed := map[string]bool{"Seattle": true, "Pensacola": true, "Oslo": true}
	for name, tide := range namedPorts(t) {
		for d := 0; d < 60; d += 3 {
			waters := tableOf(tide, day.AddDate(0, 0, d), 3)
			for i := 1; i < len(waters)-1; i++ {
				one := slices.Delete(slices.Clone(waters), i, i+1)
				if _, err := NewTable(one); err == nil {
					t.Errorf("%s without the water of %s is taken", name, waters[i].Time)
				}
				if i+2 >= len(waters) {
					continue
				}
				two := slices.Delete(slices.Clone(waters), i, i+2)
				r := waters[i].HeightM - waters[i+1].HeightM
				_, err := NewTable(two)
				if err == nil && !isMixed(mixed, name) && max(r, -r) > 0.1 {
					t.Errorf("%s without the two waters from %s is taken", name, waters[i].Time)
				}
				if _, err := NewTable(unstated(two)); err == nil && max(r, -r) > 0.15 {
					t.Errorf("%s without the two waters from %s is taken, kinds not stated", name, waters[i].Time)
				}
			}
		}
	}
}

func isMixed(mixed map[string]bool, name string) bool {
	for m := range mixed {
		if strings.Contains(strings.ToLower(name), strings.ToLower(m)) {
			return true
		}
	}
	return false
}
