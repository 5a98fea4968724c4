package plan

import (
	"strings"
	"testing"
	"time"
)

// A plan without a departure keeps the day it is for; with one, the departure says
// the day, in the plan's zone.
func TestDayOfAPlan(t *testing.T) {
	const head = `{"type":"FeatureCollection","plan":{"version":1,"time_zone":"Etc/GMT+2"`
	const route = `{"type":"Feature","properties":{"role":"route"DEPART},"geometry":{"type":"LineString","coordinates":[[-36,43],[-36,43.1]]}}`
	for _, c := range []struct{ name, day, depart, want string }{
		{"neither", "", "", ""},
		{"set before any departure", `,"day":"2026-07-18"`, "", "2026-07-18"},
		{"a route without a departure", `,"day":"2026-07-18"`, "none", "2026-07-18"},
		// 00:30 UT on the 20th is 22:30 on the 19th two hours west.
		{"a departure", "", "2026-07-20T00:30:00Z", "2026-07-19"},
		{"a departure on another day", `,"day":"2026-07-18"`, "2026-07-20T00:30:00Z", "2026-07-19"},
		{"null is none", `,"day":null`, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			features := ""
			if c.depart != "" {
				features = strings.Replace(route, "DEPART", `,"depart":"`+c.depart+`"`, 1)
			}
			if c.depart == "none" {
				features = strings.Replace(route, "DEPART", "", 1)
			}
			file := head + c.day + `},"features":[` + features + `]}`
			p, err := DecodeDraft([]byte(file))
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			if date, ok := p.Date(); ok {
				got = date.Format(time.DateOnly)
			}
			if got != c.want {
				t.Errorf("the day is %q, want %q", got, c.want)
			}
			again, err := Encode(p)
			if err != nil {
				t.Fatal(err)
			}
			if strings.Contains(c.day, "18") && !strings.Contains(string(again), `"day":"2026-07-18"`) {
				t.Errorf("the day is not written again: %s", again)
			}
		})
	}
	for _, wrong := range []string{`"18.7.2026"`, `"2026-02-30"`, `"1874-07-18"`, `20260718`} {
		if _, err := DecodeDraft([]byte(head + `,"day":` + wrong + `},"features":[]}`)); err == nil || !strings.Contains(err.Error(), "plan.day") {
			t.Errorf("day %s: %v; a refusal that names plan.day is wanted", wrong, err)
		}
	}
}
