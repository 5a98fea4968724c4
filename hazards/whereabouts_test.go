package hazards

import (
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
	"keelroom/hazards/tide/stationdata"
)

func titled(r *plan.Report, title string) *plan.Finding {
	for i := range r.Findings {
		if r.Findings[i].Title == title {
			return &r.Findings[i]
		}
	}
	return nil
}

// A tide station over 30 km from any waypoint is a care that names both.
func TestStationFarAway(t *testing.T) {
	p := day()
	p.Tide.Station = "INVENTED Head"
	last := p.Parts[0].Route.Points[1]
	for _, c := range []struct {
		m   float64
		far bool
	}{{29_900, false}, {30_100, true}, {400_000, true}} {
		// East of a track that runs east: the first waypoint is further by the track.
		m := c.m - geo.DistanceM(p.Parts[0].Route.Points[0], last)
		station := geo.RhumbDirect(last, 90, m)
		p.Tide.Position = &station
		r := mustCheck(t, set(), p)
		f := titled(r, "The tide is that of a far place")
		switch {
		case (f != nil) != c.far:
			t.Errorf("at %.0f m: %v", c.m, said(r))
		case f != nil && (f.Severity != plan.Care || f.Leg != 1 || f.Geometry != p.Parts[0].Route.Points[0] || !strings.Contains(f.Detail, "INVENTED Head") || !strings.Contains(f.Detail, "km from 4")):
			t.Errorf("at %.0f m: %+v", c.m, f)
		case f == nil:
			expect(t, r)
		}
	}
	p.Tide.Position = nil
	r := mustCheck(t, set(), p)
	expect(t, r)
	if !strings.Contains(strings.Join(r.Cautions, " "), "does not say where its tide station lies") {
		t.Error("a station whose place is not known is not told of")
	}
}

// A station behind land is that of another water, though it is near.
func TestStationBehindLand(t *testing.T) {
	p := day()
	p.Tide.Station = "INVENTED Bay"
	end := p.Parts[0].Route.Points[1]
	station := geo.RhumbDirect(end, 90, 10_000)
	p.Tide.Position = &station
	isthmus := func(from, to float64) *chart.Set {
		a, b := geo.RhumbDirect(end, 90, from), geo.RhumbDirect(end, 90, to)
		n, s := geo.RhumbDirect(a, 0, 500), geo.RhumbDirect(a, 180, 500)
		return set(area(chart.LNDARE, closed(orb.Point{a[0], s[1]}, orb.Point{b[0], s[1]}, orb.Point{b[0], n[1]}, orb.Point{a[0], n[1]})))
	}
	for _, c := range []struct {
		from, to float64
		behind   bool
	}{{2000, 6900, false}, {2000, 7200, true}, {2000, 4000, false}} {
		r := mustCheck(t, isthmus(c.from, c.to), p)
		f := titled(r, "The tide is that of another water")
		if (f != nil) != c.behind {
			t.Errorf("land from %.0f to %.0f m of 10 km: %q", c.from, c.to, said(r))
		}
		if f != nil && (f.Severity != plan.Care || !strings.Contains(f.Detail, "INVENTED Bay") || f.Geometry != end) {
			t.Errorf("%+v", f)
		}
	}
}

// The clock of no real place is a false alarm: every station of the built-in list
// in its own zone, in January and in July (Spain, France, China, Iceland,
// Greenland, Alaska, Kiribati, Samoa and Chatham among them).
func TestZonesOfRealPlaces(t *testing.T) {
	list, err := tide.LoadStations(stationdata.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	zones := map[string]bool{}
	for _, s := range list.Near(orb.Point{0, 0}, list.Len()) {
		zone, err := time.LoadLocation(s.TimeZone)
		if err != nil {
			t.Fatal(err)
		}
		zones[s.TimeZone] = true
		for _, month := range []time.Month{time.January, time.July} {
			_, offset := time.Date(2026, month, 15, 12, 0, 0, 0, zone).Zone()
			if ahead := aheadOfSun(time.Duration(offset)*time.Second, s.Position.Lon()); ahead < -solarBehind || ahead > solarAhead {
				t.Errorf("%s, %s in %s: %s ahead of the sun", s.Name, s.Country, s.TimeZone, ahead)
			}
		}
	}
	t.Logf("%d zones", len(zones))
	for _, z := range []string{"Europe/Madrid", "Europe/Paris", "Asia/Shanghai", "Atlantic/Reykjavik", "America/Nuuk", "America/Nome", "Pacific/Kiritimati", "Pacific/Apia", "Pacific/Chatham"} {
		if !zones[z] {
			t.Errorf("%s is among none", z)
		}
	}
}

// Zones that are not the place's, as clocks were on those days (IANA time zone
// database): by the sun alone, and against the tide station's own, where two hours
// are the most.
func TestClockOfAnotherPlace(t *testing.T) {
	boston, brest, auckland, vigo := orb.Point{-71.05, 42.35}, orb.Point{-4.49, 48.38}, orb.Point{174.78, -36.84}, orb.Point{-8.73, 42.24}
	july := time.Date(2026, 7, 18, 10, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		at        orb.Point
		zone, own string
		wrong     bool
	}{
		{boston, "America/New_York", "", false},
		{boston, "UTC", "", true}, // 4 h 44 min ahead of the sun
		{boston, "Europe/London", "America/New_York", true},
		{boston, "America/Halifax", "America/New_York", false}, // an hour
		{boston, "America/Los_Angeles", "", true},              // −7 h; the sun −4 h 44 min
		{boston, "America/Chicago", "America/New_York", false},
		{boston, "America/Denver", "America/New_York", false},     // two hours
		{boston, "America/Los_Angeles", "America/New_York", true}, // three
		{brest, "Europe/Paris", "", false},
		{brest, "Europe/Paris", "Europe/Paris", false},
		{brest, "Asia/Dubai", "", true},
		{brest, "Asia/Tbilisi", "Europe/Paris", false}, // +4 h and +2 h
		{brest, "Asia/Karachi", "Europe/Paris", true},  // +5 h
		{vigo, "Europe/Madrid", "", false},
		{auckland, "Pacific/Auckland", "", false},
		{auckland, "Europe/London", "", true},
		{auckland, "Pacific/Auckland", "Pacific/Auckland", false},
		{auckland, "Pacific/Honolulu", "Pacific/Auckland", true}, // 22 h: the clock two hours ahead, of the day before
	} {
		p := day(c.at, orb.Point{c.at[0] + 0.02, c.at[1]})
		if err := p.SetZone(c.zone); err != nil {
			t.Fatal(err)
		}
		p.Parts[0].Route.Depart = &july
		p.Tide.Station = "INVENTED Quay"
		if c.own != "" {
			p.Tide.ZoneName, p.Tide.Position = c.own, &orb.Point{c.at[0] + 0.1, c.at[1]}
		}
		f := titled(mustCheck(t, set(), p), "The clock is that of another place")
		switch {
		case (f != nil) != c.wrong:
			t.Errorf("%v in %s, station in %q: %+v", c.at, c.zone, c.own, f)
		case f != nil && (f.Severity != plan.Care || !strings.Contains(f.Detail, c.zone) || c.own != "" && !strings.Contains(f.Detail, c.own)):
			t.Errorf("%v in %s: %+v", c.at, c.zone, f)
		}
	}
}

// Wind rows of another day give no wind on this one: rows are held three hours, and
// the sea is then not known.
func TestWindOfAnotherDay(t *testing.T) {
	for _, days := range []int{-1, 1, 30, -365} {
		p := day()
		p.Wind = []plan.Wind{{Time: leaving.AddDate(0, 0, days).Add(-2 * time.Hour), FromDeg: 90, Kn: 8}, {Time: leaving.AddDate(0, 0, days).Add(4 * time.Hour), FromDeg: 90, Kn: 8}}
		r := mustCheck(t, set(), p)
		if worst(r, plan.CheckSea) != plan.NoData {
			t.Errorf("wind of %d days from it: sea is %s: %q", days, worst(r, plan.CheckSea), said(r))
		}
	}
}
