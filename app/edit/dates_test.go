package edit

import (
	"strings"
	"testing"
	"time"

	_ "time/tzdata"

	"keelroom/hazards/plan"
)

// The wind moves by the clock, also over a change of the clocks. In Lisbon they went
// from UTC+1 to UTC on 25 October 2026, and from UTC to UTC+1 on 29 March 2026 at
// 01:00 (IANA time zone data base, rule EU: the last Sundays of March and October).
func TestSeriesMovesByTheClock(t *testing.T) {
	for _, c := range []struct{ name, zone, day, from, want, wrong string }{
		{"a day on", "Etc/UTC", "2026-07-19", "2026-07-18T09:00:00Z", "2026-07-19T09:00:00Z", ""},
		{"back by a year", "Etc/UTC", "2025-07-18", "2026-07-18T09:00:00Z", "2025-07-18T09:00:00Z", ""},
		{"clocks that went back", "Europe/Lisbon", "2026-10-25", "2026-10-24T08:00:00Z", "2026-10-25T09:00:00Z", ""},
		{"a time that is skipped", "Europe/Lisbon", "2026-03-29", "2026-03-28T01:30:00Z", "", "01:30"},
		{"of the day already", "Etc/UTC", "2026-07-18", "2026-07-18T09:00:00Z", "", "already"},
		{"no day", "Etc/UTC", "", "2026-07-18T09:00:00Z", "", "already"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plan.New()
			if err := p.SetZone(c.zone); err != nil {
				t.Fatal(err)
			}
			at, _ := time.Parse(time.RFC3339, c.from)
			p.Day, p.Wind = c.day, []plan.Wind{{Time: at, Kn: 10}}
			err := MoveSeries(p, Wind)
			switch got := p.Wind[0].Time.Format(time.RFC3339); {
			case c.wrong != "" && (err == nil || !strings.Contains(err.Error(), c.wrong) || got != c.from):
				t.Errorf("at %s: %v; it stays, and the refusal names %s", got, err, c.wrong)
			case c.wrong == "" && (err != nil || got != c.want):
				t.Errorf("at %s, want %s: %v", got, c.want, err)
			}
		})
	}
}
