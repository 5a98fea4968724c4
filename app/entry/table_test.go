package entry

import (
	"errors"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"keelroom/hazards/plan"
)

func form(t testing.TB, table string) TideForm {
	return TideForm{Day: day, Table: zone(t, table), Plan: zone(t, "Etc/GMT+2")}
}

func told(events []plan.TideEvent) string {
	var all []string
	for _, e := range events {
		all = append(all, e.Time.UTC().Format("02T15:04 ")+fmt.Sprint(e.HeightM))
	}
	return strings.Join(all, ", ")
}

// One day in the ways a table is typed, pasted or exported.
func TestTideTable(t *testing.T) {
	const want = "18T03:12 0.4, 18T09:20 3.1, 18T15:30 0.6, 18T21:45 3.3"
	for name, text := range map[string]string{
		"dates":    "2026-07-18 03:12 0.4\n2026-07-18 09:20 3.1\n2026-07-18 15:30 0.6\n2026-07-18 21:45 3.3",
		"kinds":    "03:12 LW 0.4 m\n09:20 HW 3.1 m\r\n15:30 LW 0.6m\n\n21:45 HW 3.3m\n",
		"commas":   "LW 0312 0,4\nHW 0920 3,1\nLW 1530 0,6\nHW 2145 3,3",
		"csv":      "time,kind,height_m\n2026-07-18T03:12:00Z,LW,0.400\n2026-07-18T07:20:00-02:00,HW,3.100\n2026-07-18T15:30:00Z,LW,0.600\n2026-07-18T21:45:00Z,HW,3.300\n",
		"quotes":   "\ufeff\"date\",\"time\",\"height\"\n\"2026-07-18\",\"03:12\",\"0.4\"\n\"2026-07-18\",\"09:20\",\"3.1\"\n\"2026-07-18\",\"15:30\",\"0.6\"\n\"2026-07-18\",\"21:45\",\"3.3\"",
		"tabs":     "Sat 18.7.2026\n03:12\tLow water\t0.4\n09:20\tHigh water\t3.1\n15:30\tLow\t0.6\n21:45\tHigh\t3.3",
		"dotted":   "18.7.2026 03:12 0,4\n09:20 3,1\n15:30 0,6\n21:45 3,3",
		"comments": "# INVENTED\n0.4 0312\n3.1 0920\n0.6 1530\n3.3 2145",
	} {
		t.Run(name, func(t *testing.T) {
			got, err := TideTable(text, form(t, "UTC"))
			if err != nil {
				t.Fatal(err)
			}
			if told(got.Events) != want {
				t.Errorf("%s, want %s", told(got.Events), want)
			}
			if len(got.Doubts) > 0 {
				t.Error(got.Doubts)
			}
			if last := got.Lines[len(got.Lines)-1].Read; last != "high water 3.3 m at 2026-07-18 19:45" {
				t.Errorf("the preview is in the plan's zone: %s", last)
			}
		})
	}
}

// The times of the table are in the zone that was asked for.
func TestTideTableZone(t *testing.T) {
	const text = "03:12 0.4\n09:20 3.1"
	berlin := zone(t, "Europe/Berlin")
	for _, test := range []struct {
		table *time.Location
		want  string
	}{
		{berlin, "18T01:12 0.4, 18T07:20 3.1"}, {StandardTime(berlin, 2026), "18T02:12 0.4, 18T08:20 3.1"},
		{time.UTC, "18T03:12 0.4, 18T09:20 3.1"}, {time.FixedZone("", -5*3600), "18T08:12 0.4, 18T14:20 3.1"},
	} {
		got, err := TideTable(text, TideForm{day, test.table, berlin})
		if err != nil || told(got.Events) != test.want {
			t.Errorf("%v: %s, %v; want %s", test.table, told(got.Events), err, test.want)
		}
	}
}

func TestTideTableRefused(t *testing.T) {
	for _, test := range []struct {
		text string
		line int
		says string
	}{
		{"", 0, "at least one high and one low"},
		{"03:12 0.4", 0, "at least one high and one low"},
		{"03:12 1.3 ft\n09:20 10 ft", 1, "feet"},
		{"time,height_ft\n03:12,1.3\n09:20,10.1", 1, "in feet"},
		{"03:12 Height (cm)\n", 1, "not read here"},
		{"Time Height (cm)\n03:12 40\n09:20 310", 1, "in centimetres"},
		{"03:12 40\n09:20 310", 1, "no height of tide"},
		{"03:12 0.4\n09:20 310", 2, "no height of tide"},
		{"09:20 3.1\n03:12 0.4", 2, "times must increase"},
		{"21:45 3.3\n03:40 0.5", 2, "begin the line with its date"},
		{"03:12 0.4\n03:12 3.1", 2, "times must increase"},
		{"03:12 HW 0.4\n09:20 LW 3.1", 1, "below the water beside it"},
		{"03:12 LW 0.4\n09:20 LW 3.1", 2, "above the water beside it"},
		{"03:12 0.4\n09:20 3.1\n15:30 3.5\n21:45 0.3", 2, "a line is missing"},
		{"03:12 0.4\n09:20 0.4", 1, "take turns"},
		{"03:12 -5\n09:20 17", 1, "more than 17 m"},
		{"03:12 0.4\n03:20 3.1", 2, "only 8 minutes"},
		{"2026-07-18 03:12 0.4\n2026-07-20 09:20 3.1", 2, "54 hours after"},
		{"03:12 0.4 3.1", 1, "two figures"},
		{"LW,0312,0,4", 1, "two figures"},
		{"03:12 0.4 09:20 3.1", 1, "two times"},
		{"03:12 HW LW 0.4", 1, "both a high and a low"},
		{"03:12 HW", 1, "height is missing"},
		{"HW 3.1", 1, "no time is found"},
		{"3.12 LW 0.4", 1, "no time is found"},
		{"03:12 slack 0.4", 1, "not read here"},
		{"25:12 0.4", 1, "00 to 23"},
		{"24:00 0.4", 1, "next day"},
		{"7/18/2026 03:12 0.4", 1, "day or the month first"},
		{"2026-02-30 03:12 0.4", 1, "not in the calendar"},
		{"2026-07-18T03:12 0.4", 1, "date and offset"},
		{"Sun 2026-07-19 03:12 0.4\nSun 2026-07-20 03:12 0.4", 2, "is a Monday"},
		{strings.Repeat("\n", 4000), 0, "too many"},
	} {
		got, err := TideTable(test.text, form(t, "UTC"))
		var wrong *LineErrors
		if !errors.As(err, &wrong) || wrong.Lines[0].Number != test.line || !strings.Contains(wrong.Lines[0].Wrong, test.says) {
			t.Errorf("%q: %v; want line %d, %q", test.text, err, test.line, test.says)
		}
		if got.Events != nil {
			t.Errorf("%q: events of a table that was refused", test.text)
		}
	}
	_, err := TideTable("2026-10-25 02:30 0.4\n08:50 3.1", form(t, "Europe/Berlin"))
	if err == nil || !strings.Contains(err.Error(), "2026-10-25T02:30+02:00 or 2026-10-25T02:30+01:00") {
		t.Errorf("a time that occurs twice: %v", err)
	}
	if _, err := TideTable("2026-10-25T02:30+01:00 0.4\n08:50 3.1", form(t, "Europe/Berlin")); err != nil {
		t.Errorf("a time with its offset: %v", err)
	}
	_, err = TideTable("2026-03-29 02:30 0.4\n08:50 3.1", form(t, "Europe/Berlin"))
	if err == nil || !strings.Contains(err.Error(), "does not occur") {
		t.Errorf("a time that is skipped: %v", err)
	}
}

// A table that lacks waters is refused, or its kinds are asked for (plan-file contract, "A tide
// table must be whole"), at the line after the gap; one whose kinds are plain is taken, a double
// high water and equal heights among it.
func TestTideTableWhole(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		line int
		says string // "" where it is taken
	}{
		"a pair left out, kinds not stated": {"03:12 0.4\n21:45 3.3", 2, "type HW or LW on every line"},
		"a pair left out, kinds stated":     {"03:12 LW 0.4\n09:20 HW 3.1\n2026-07-19 03:50 LW 0.5\n10:00 HW 3.2", 3, "between 09:20 on 18 Jul and 03:50 on 19 Jul a water seems to be missing"},
		"a low water left out":              {"01:00 0.5\n07:10 4.1\n19:30 4.0", 3, "type HW or LW on every line"},
		"the same, stated":                  {"01:00 LW 0.5\n07:10 HW 4.0\n19:30 HW 4.0", 2, "a line is missing"},
		"the same, of other heights":        {"01:00 LW 0.5\n07:10 HW 4.0\n19:30 HW 4.1", 2, "a line is missing"},
		"one tide a day, stated":            {"03:00 HW 0.9\n15:30 LW 0.1\n2026-07-19 03:50 HW 0.9", 0, ""},
		"one tide a day, not stated":        {"03:00 0.9\n15:30 0.1\n2026-07-19 03:50 0.9", 2, "type HW or LW on every line"},
		"a double high water":               {"00:10 LW 0.5\n04:50 HW 4.0 double\n07:05 HW 4.1 double\n12:20 LW 0.6", 0, ""},
		"a double high water, equal":        {"00:10 LW 0.5\n04:50 HW 4.1 double\n07:05 HW 4.1 double\n12:20 LW 0.6", 0, ""},
		"half of a double high water":       {"00:10 LW 0.5\n04:50 HW 4.0 double\n12:20 LW 0.6", 2, "the other of the two is not beside it"},
		"double, kinds not stated":          {"00:10 0.5\n04:50 4.0 double\n12:20 0.6", 2, "type HW or LW on every line"},
		"faint, to the table's decimals":    {"00:10 LW 0.5\n06:20 HW 0.5\n12:30 LW 0.4", 0, ""},
		"the same, not stated":              {"00:10 0.5\n06:20 0.5\n12:30 0.4", 1, "take turns"},
	} {
		got, err := TideTable(test.text, form(t, "UTC"))
		var wrong *LineErrors
		switch {
		case test.says == "" && err != nil:
			t.Errorf("%s: refused: %v", name, err)
		case test.says == "":
			again, err := TideTable(formatTides(got.Events, time.UTC), form(t, "UTC"))
			if err != nil || !reflect.DeepEqual(again.Events, got.Events) {
				t.Errorf("%s: not read again: %v\n%s", name, err, formatTides(got.Events, time.UTC))
			}
		case !errors.As(err, &wrong) || wrong.Lines[0].Number != test.line || !strings.Contains(wrong.Lines[0].Wrong, test.says):
			t.Errorf("%s: %v; want line %d, %q", name, err, test.line, test.says)
		}
	}
}

func TestWindTable(t *testing.T) {
	const want = "18T11:00 225 12 18, 18T14:00 225 12 18, 18T17:00 247.5 9.5 -"
	for _, text := range []string{
		"09:00 SW 12 18\n12:00 SW 12 18\n15:00 WSW 9.5",
		"0900 225 12 G18\n1200 225° 12 g 18\n1500 247.5 9.5\n",
		"time,from,kn,gust\n09:00,225,12,18\n12:00,225,12kn,18 kn\n15:00,wsw,9.5,\n",
		"2026-07-18 09:00 SW 12 kn gusts 18 kn\n12:00;SW;12;18\n2026-07-18T15:00-02:00 WSW 9.5kt",
	} {
		got, lines, err := WindTable(text, day, zone(t, "Etc/GMT+2"))
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		var all []string
		for _, w := range got {
			gust := "-"
			if w.GustKn != nil {
				gust = fmt.Sprint(*w.GustKn)
			}
			all = append(all, fmt.Sprintf("%s %v %v %s", w.Time.UTC().Format("02T15:04"), w.FromDeg, w.Kn, gust))
		}
		if s := strings.Join(all, ", "); s != want {
			t.Errorf("%q: %s, want %s", text, s, want)
		}
		if last := lines[len(lines)-1].Read; last != "2026-07-18 15:00 from 247.5° (WSW), 9.5 kn" {
			t.Error(last)
		}
	}
}

func TestWindTableRefused(t *testing.T) {
	for _, test := range []struct {
		text string
		line int
		says string
	}{
		{"", 0, "no line with figures"},
		{"09:00 12 18", 1, "three figures"},
		{"09:00 5 12", 1, "three figures"},
		{"09:00 SW", 1, "speed is missing"},
		{"09:00", 1, "direction and speed are missing"},
		{"09:00 SW 12 8", 1, "below the mean"},
		{"09:00 SW 8 m/s", 1, "8 m/s is 15.6 kn"},
		{"09:00 SW 8m/s", 1, "8m/s is 15.6 kn"},
		{"Time Wind (m/s)\n09:00 SW 8", 1, "not in knots"},
		{"09:00 SW 4 Bft", 1, "Beaufort"},
		{"09:00 SW 4bft", 1, "Beaufort"},
		{"09:00 SW F4", 1, "Beaufort"},
		{"09:00 SW B4", 1, "Beaufort"},
		{"09:00 VRB 3", 1, "direction is needed"},
		{"09:00 calm", 1, "direction is needed"},
		{"09:00 400 12", 1, "0 to 360"},
		{"09:00 SW 12 18 20", 1, "too many figures"},
		{"09:00 SW G18 12", 1, "after the mean"},
		{"09:00 SW 12-18", 1, "not a number"},
		{"09:00 SW 400", 1, "more than is known"},
		{"09:00 SW 12\n08:00 SW 12", 2, "times must increase"},
		{"09:00 SW 9,12", 1, "9.12, or 9 12"},
		{"09:00 247.5 9,5", 1, "all decimals with a point"},
		{"SW 12", 1, "no time is found"},
		{"09:00 SW kn", 1, "speed is missing"},
		{"09:00 225T 12 X", 1, "not a number"},
	} {
		_, _, err := WindTable(test.text, day, time.UTC)
		var wrong *LineErrors
		if !errors.As(err, &wrong) || wrong.Lines[0].Number != test.line || !strings.Contains(wrong.Lines[0].Wrong, test.says) {
			t.Errorf("%q: %v; want line %d, %q", test.text, err, test.line, test.says)
		}
	}
}

func TestSwellTable(t *testing.T) {
	for _, text := range []string{"09:00 W 0.4 6", "0900 270 0.4m 6s", "09:00 W 0,4 m 6 s", "Time,From,m,s\n09:00,W,0.4,6"} {
		got, _, err := SwellTable(text, day, time.UTC)
		want := []plan.Swell{{Time: time.Date(2026, 7, 18, 9, 0, 0, 0, time.UTC), FromDeg: 270, HeightM: 0.4, PeriodS: 6}}
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"09:00 W 0.4": "a height and a period", "09:00 W 4 ft 6 s": "4ft is 1.22 m", "09:00 W 0.4 6 min": "no period", "09:00 W 0.4 60": "no period", "09:00 W 40 6": "no height",
		"09:00 0.4 6": "three figures", "": "no line with figures", "Swell (ft)\n09:00 W 4 6": "in feet", "09:00 W 0.4 6\n09:00 W 0.4 6": "times must increase",
	} {
		if _, _, err := SwellTable(text, day, time.UTC); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v; want %q", text, err, says)
		}
	}
}

// What is written is read as the same, through both changes of the clocks too.
func TestTablesRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	berlin := zone(t, "Europe/Berlin")
	round := func(v float64) float64 { return math.Round(v*10) / 10 }
	for _, start := range []time.Time{time.Date(2026, 7, 18, 0, 0, 0, 0, time.UTC), time.Date(2026, 10, 24, 20, 0, 0, 0, time.UTC), time.Date(2026, 3, 28, 20, 0, 0, 0, time.UTC)} {
		for range 50 {
			var winds []plan.Wind
			var swells []plan.Swell
			var events []plan.TideEvent
			at := start
			for i := range 12 {
				at = at.Add(time.Duration(30+rng.Intn(60)) * time.Minute)
				w := plan.Wind{Time: at, FromDeg: round(rng.Float64() * 360), Kn: round(rng.Float64() * 40)}
				if rng.Intn(2) == 0 {
					gust := w.Kn + round(rng.Float64()*10)
					w.GustKn = &gust
				}
				winds = append(winds, w)
				swells = append(swells, plan.Swell{Time: at.Add(17 * time.Second), FromDeg: rng.Float64() * 360, HeightM: round(rng.Float64() * 5), PeriodS: 3.5})
				events = append(events, plan.TideEvent{Time: at, HeightM: round(float64(i%2)*3 + rng.Float64()), Kind: []string{plan.LowWater, plan.HighWater}[i%2]})
			}
			other := Day{1999, 1, 1}
			if got, _, err := WindTable(FormatWind(winds, berlin), other, berlin); err != nil || !reflect.DeepEqual(got, winds) {
				t.Fatalf("%v\n%s", err, FormatWind(winds, berlin))
			}
			if got, _, err := SwellTable(FormatSwell(swells, berlin), other, berlin); err != nil || !reflect.DeepEqual(got, swells) {
				t.Fatalf("%v\n%s", err, FormatSwell(swells, berlin))
			}
			if got, err := TideTable(formatTides(events, berlin), TideForm{other, berlin, berlin}); err != nil || !reflect.DeepEqual(got.Events, events) {
				t.Fatalf("%v\n%s", err, formatTides(events, berlin))
			}
		}
	}
}

func FuzzTables(f *testing.F) {
	for _, s := range []string{
		"03:12 LW 0.4 m\n09:20 HW 3.1 m", "time,kind,height_m\n2026-07-18T03:12:00Z,LW,0.4", "LW 0415 0,6", "09:00 SW 12 18", "0900 225 12 G18\n1000 SW 4 Bft",
		"09:00 W 0.4 m 6 s", "Sat 18.7.2026\n|;,\"#", "2026-10-25 02:30 0.4",
	} {
		f.Add(s)
	}
	z := zone(f, "Europe/Berlin")
	f.Fuzz(func(t *testing.T, text string) {
		tides, err := TideTable(text, TideForm{day, z, z})
		if (err == nil) != (len(tides.Events) >= 2) {
			t.Errorf("%q: %v, %v", text, tides.Events, err)
		}
		if err == nil {
			again, err := TideTable(formatTides(tides.Events, z), TideForm{day, z, z})
			if err != nil || len(again.Events) != len(tides.Events) {
				t.Errorf("%q is not read again: %v", text, err)
			}
		}
		winds, _, err := WindTable(text, day, z)
		if err == nil {
			if again, _, err := WindTable(FormatWind(winds, z), day, z); err != nil || len(again) != len(winds) {
				t.Errorf("%q is not read again: %v", text, err)
			}
		}
		_, _, _ = SwellTable(text, day, z)
	})
}

// formatTides writes a table that TideTable reads as the same, in that zone.
func formatTides(events []plan.TideEvent, zone *time.Location) string {
	var b strings.Builder
	for _, e := range events {
		words := []string{stamp(e.Time, zone), e.Kind, exact(e.HeightM), "m"}
		if e.Double {
			words = append(words, "double")
		}
		b.WriteString(strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), " ") + "\n")
	}
	return b.String()
}
