//go:build !js

package cli

import (
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"
)

// row is a line of the table.
type row struct {
	at      time.Time
	kind    string
	heightM float64
}

// table runs a tide command that succeeds.
func table(t *testing.T, args ...string) (rows []row, out, diag string) {
	t.Helper()
	status, out, diag := cli(append([]string{"tide"}, args...)...)
	if status != statusOK {
		t.Fatalf("status %d: %s", status, diag)
	}
	lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	if lines[0] != "time,kind,height_m" {
		t.Fatalf("header %q", lines[0])
	}
	for _, line := range lines[1:] {
		parts := strings.Split(line, ",")
		at, err := time.Parse(time.RFC3339, parts[0])
		h, err2 := strconv.ParseFloat(parts[2], 64)
		if err != nil || err2 != nil || len(parts[2])-strings.Index(parts[2], ".") != 4 {
			t.Fatalf("line %q", line)
		}
		rows = append(rows, row{at, parts[1], h})
	}
	return rows, out, diag
}

// NOAA CO-OPS published predictions for Mayport, every half hour. They are above
// another datum than the station list's, so ranges are compared. Between half
// hours the water stands up to 6 mm beyond the extreme sample (a cosine of
// 0.8 m and 12.4 h, 15 min off its top); nodal factors at the time itself may
// differ from NOAA's by the tolerance that the file names.
func TestTideAgainstPublished(t *testing.T) {
	var published struct {
		Start     time.Time
		StepMin   int `json:"step_min"`
		Values    []float64
		Tolerance map[string]float64 `json:"tolerance_m"`
	}
	if err := json.Unmarshal([]byte(read(t, "testdata/tide/mayport.json")), &published); err != nil {
		t.Fatal(err)
	}
	rows, _, diag := table(t, "-from", "2019-08-15", "-days", "5", "-zone", "UTC", "8720218")
	if len(rows) < 18 {
		t.Fatalf("%d high and low waters in 5 days", len(rows))
	}
	step := time.Duration(published.StepMin) * time.Minute
	sampled := func(r row) float64 { // the extreme sample within an hour
		best := math.NaN()
		for i, v := range published.Values {
			at := published.Start.Add(time.Duration(i) * step)
			if d := at.Sub(r.at); d > -time.Hour && d < time.Hour && (math.IsNaN(best) || (v > best) == (r.kind == "HW")) {
				best = v
			}
		}
		return best
	}
	for i := 1; i < len(rows); i++ {
		got := math.Abs(rows[i].heightM - rows[i-1].heightM)
		want := math.Abs(sampled(rows[i]) - sampled(rows[i-1]))
		tolerance := 2*published.Tolerance["continuous nodal factors"] + 2*0.0065
		if math.IsNaN(want) || math.Abs(got-want) > tolerance {
			t.Errorf("range before %s: %.3f m, published samples %.3f m", rows[i].at, got, want)
		}
	}
	for _, want := range []string{"Mayport", "heights: metres above MLLW", "method: harmonic", "times: UTC", "licence: public domain", "attribution: "} {
		if !strings.Contains(diag, want) {
			t.Errorf("no %q on standard error:\n%s", want, diag)
		}
	}
}

// The station's own zone is the default, and days start at its midnight.
func TestTideInTheStationsZone(t *testing.T) {
	rows, out, diag := table(t, "-from", "2026-07-01", "-days", "2", "8720218")
	first, last := rows[0].at, rows[len(rows)-1].at
	midnight := time.Date(2026, 7, 1, 4, 0, 0, 0, time.UTC) // Mayport keeps UTC-4 in July
	if first.Before(midnight) || first.After(midnight.Add(7*time.Hour)) || !last.Before(midnight.Add(48*time.Hour)) {
		t.Errorf("from %s to %s", first, last)
	}
	if !strings.Contains(diag, "times: America/New_York") || strings.Count(out, "-04:00,") != len(rows) {
		t.Errorf("not in the station's zone:\n%s%s", diag, out)
	}
	for i := 1; i < len(rows); i++ {
		if rows[i].kind == rows[i-1].kind {
			t.Errorf("%s follows %s", rows[i].kind, rows[i-1].kind)
		}
	}
}

const tideTable = `{"station": "INVENTED roads", "datum": 23, "adjust_m": -0.1, "events": [
 {"time": "2026-10-24T23:30:00Z", "height_m": 1.1},
 {"time": "2026-10-25T05:30:00Z", "height_m": 3.3},
 {"time": "2026-10-25T12:00:00Z", "height_m": 0.9},
 {"time": "2026-10-25T18:15:00Z", "height_m": 3.1}]}`

// What a prediction leaves out is said: of a station's analysis, and of constants typed by hand. A
// table that is not whole is refused, and one that may not be is asked for its kinds.
func TestTideSaysWhatItRestsOn(t *testing.T) {
	_, _, diag := table(t, "-from", "2026-07-01", "-days", "1", "ticon/avonmouth-avo-gbr-bodc")
	if !strings.Contains(diag, "left out: T3 and R3, whose arguments are not published, at most 44 mm") { // 25.7 + 18.2 mm of its analysis
		t.Error(diag)
	}
	_, _, diag = table(t, "-from", "2026-07-01", "-days", "1", scratch(t, "m2.json", `{"datum":23,"z0_m":2,"constituents":[{"name":"M2","amplitude_m":1,"phase_deg":0}]}`))
	if !strings.Contains(diag, "one constituent alone (M2); without S2, N2") {
		t.Error(diag)
	}
	for kinds, says := range map[string][2]string{
		"stated":     {`,"kind":"HW"`, "between 07:10 on 1 Jul and 01:50 on 2 Jul a water seems to be missing"},
		"not stated": {``, "say of each water whether it is high or low"},
	} {
		low := strings.ReplaceAll(says[0], "HW", "LW")
		text := `{"datum":23,"events":[{"time":"2026-07-01T01:00:00Z","height_m":0.5` + low + `},{"time":"2026-07-01T07:10:00Z","height_m":4` + says[0] + `},{"time":"2026-07-02T01:50:00Z","height_m":0.6` + low + `}]}`
		err := runTide([]string{"-from", "2026-07-01", "-days", "1", scratch(t, "t.json", text)}, io.Discard, io.Discard)
		if err == nil || !strings.Contains(err.Error(), "events[2]: ") || !strings.Contains(err.Error(), says[1]) {
			t.Errorf("kinds %s: %v", kinds, err)
		}
	}
}

// A table comes out as it went in. On 25 October 2026 clocks in Germany go back
// (last Sunday of October, Directive 2000/84/EC): the day has 25 hours and two
// offsets.
func TestTideFromFile(t *testing.T) {
	const want = "time,kind,height_m\n" +
		"2026-10-25T01:30:00+02:00,LW,1.000\n" +
		"2026-10-25T06:30:00+01:00,HW,3.200\n" +
		"2026-10-25T13:00:00+01:00,LW,0.800\n" +
		"2026-10-25T19:15:00+01:00,HW,3.000\n"
	for name, text := range map[string]string{
		"the member":             tideTable,
		"an object that has one": "{\"tide\":\n" + tideTable + "}",
		"with a byte order mark": "\ufeff" + tideTable,
	} {
		t.Run(name, func(t *testing.T) {
			_, out, diag := table(t, "-from", "2026-10-25", "-days", "1", "-zone", "Europe/Berlin", scratch(t, "tide.json", text))
			if out != want {
				t.Errorf("got\n%swant\n%s", out, want)
			}
			for _, said := range []string{"station: INVENTED roads", "above LAT", "method: tide table", "-0.10 m added", "warning: heights are known from 2026-10-25T01:30:00+02:00 to 2026-10-25T19:15:00+01:00 only"} {
				if !strings.Contains(diag, said) {
					t.Errorf("no %q on standard error:\n%s", said, diag)
				}
			}
		})
	}
	if _, out, diag := table(t, "-from", "2026-10-25", "-days", "1", scratch(t, "t.json", tideTable)); !strings.Contains(diag, "times: UTC") || !strings.Contains(out, "T05:30:00Z") {
		t.Error("a file without a zone is not in UTC")
	}
	if _, _, diag := table(t, "-from", "2026-07-01", "-days", "1", goodPlan); !strings.Contains(diag, "times: Etc/GMT+2") || strings.Contains(diag, "warning") {
		t.Errorf("a plan file: %s", diag)
	}
	if rows, _, diag := table(t, "-from", "2026-07-01", "-days", "1", scratch(t, "still.json", `{"level_m": 0.3}`)); len(rows) != 0 || !strings.Contains(diag, "no tide") || !strings.Contains(diag, "does not name") {
		t.Errorf("tideless: %d rows, %s", len(rows), diag)
	}
}

func TestBadTides(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"empty", "", "line 1, column 1"},
		{"truncated", tideTable[:60], "line 1"},
		{"an array", "[]", "an object is wanted"},
		{"key twice", `{"datum": 23, "datum": 1, "level_m": 0}`, `the key "datum" occurs twice`},
		{"closing early", `{"level_m": 0}}, "boat": {"draught_m": 1`, "line 1"},
		{"no form", `{"datum": 23}`, "the tide (line 1, column 1): none or several of constituents"},
		{"two forms", changed(t, tideTable, `"datum": 23`, `"level_m": 1`), "none or several"},
		{"NaN", `{"level_m": NaN}`, "NaN, which is not JSON"},
		{"wrong kind, by line", changed(t, tideTable, `3.3`, `"3.3"`), "events[1].height_m (line 3, column 47)"},
		{"wrong kind within", "{\"tide\":\n\n {\"level_m\": \"0\"}}", "level_m (line 3, column 14)"},
		{"no zone offset", changed(t, tideTable, "05:30:00Z", "05:30:00"), "events[1].time"},
		{"order", changed(t, tideTable, "12:00:00Z", "02:00:00Z"), "events[2]"},
		{"two high waters running", changed(t, tideTable, "0.9", "3.2"), ": events["},
		{"unknown constituent", `{"z0_m": 1, "constituents": [{"name": "Q99", "amplitude_m": 1, "phase_deg": 0}]}`, "Q99"},
		{"a plan without tide", `{"type": "FeatureCollection", "plan": {"version": 1}, "features": []}`, "no tide"},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := scratch(t, "tide.json", test.text)
			refused(t, []string{"tide", "-from", "2026-10-25", "-days", "1", path}, path, test.want)
		})
	}
	path := scratch(t, "tide.json", tideTable)
	refused(t, []string{"tide", "-from", "2026-11-25", "-days", "1", path}, "none of the days asked for")
	refused(t, []string{"tide", "-from", "2150-11-25", "-days", "1", "8720218"}, "none of the days asked for")
	refused(t, []string{"tide", "-from", "2026-11-25", "-days", "1", "none.json"}, "none.json")
}

func TestFindStation(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"noaa/8720218", "(noaa/8720218)"},
		{"8720218", "(noaa/8720218)"},
		{"mayport (bar pilot dock)", "(noaa/8720218)"},
	} {
		if _, _, diag := table(t, "-from", "2026-07-01", "-days", "1", test.text); !strings.Contains(diag, test.want) {
			t.Errorf("%q: %s", test.text, diag)
		}
	}
	refused(t, []string{"tide", "-from", "2026-07-01", "-days", "1", "san"}, `"san" is `, "stations; the id of one is wanted:", "more")
	refused(t, []string{"tide", "-from", "2026-07-01", "-days", "1", "no such place at all"}, `no station "no such place at all"`)
	refused(t, []string{"tide", "-from", "2026-07-01", "-days", "1", ""}, "wanted")
}
