package sun

import (
	"encoding/json"
	"math"
	"math/rand"
	"os"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/paulmach/orb"
)

// reference is testdata/sun.json: rows computed with a general astronomy library
// and checked against NREL, whose own example is published_check. Source and
// licence stand in the file.
type reference struct {
	ToleranceS float64 `json:"tolerance_s"`
	Published  struct {
		Lat, Lon float64
		Zenith   float64   `json:"topocentric_zenith_deg_with_refraction"`
		Local    time.Time `json:"local_time"`
	} `json:"published_check"`
	Rows []referenceRow
}

type referenceRow struct {
	Place        string
	Lat, Lon     float64
	LocalDate    string `json:"local_date"`
	Sunrise      string
	Sunset       string
	CivilDawn    string `json:"civil_dawn"`
	CivilDusk    string `json:"civil_dusk"`
	NauticalDawn string `json:"nautical_dawn"`
	NauticalDusk string `json:"nautical_dusk"`
}

func load(t *testing.T) reference {
	t.Helper()
	data, err := os.ReadFile("testdata/sun.json")
	if err != nil {
		t.Fatal(err)
	}
	var ref reference
	if err := json.Unmarshal(data, &ref); err != nil {
		t.Fatal(err)
	}
	if len(ref.Rows) != 36 {
		t.Fatalf("%d rows in testdata/sun.json, 36 are wanted", len(ref.Rows))
	}
	return ref
}

func zone(t *testing.T, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

// The zones of the reference places, so that the dates are theirs.
var zones = map[string]string{
	"Stockholm": "Europe/Stockholm", "Cowes": "Europe/London", "Seattle": "America/Los_Angeles",
	"Sydney": "Australia/Sydney", "Tromso": "Europe/Oslo", "Equator 0N 30W": "Etc/GMT+2",
}

func (r referenceRow) day(t *testing.T) Day {
	t.Helper()
	date, err := time.ParseInLocation(time.DateOnly, r.LocalDate, zone(t, zones[r.Place]))
	if err != nil {
		t.Fatal(err)
	}
	return On(date, orb.Point{r.Lon, r.Lat})
}

// Every event of every row, within the tolerance the file states, below and above
// 65° alike. The largest difference is logged.
func TestOnReference(t *testing.T) {
	ref, worst := load(t), 0.0
	for _, r := range ref.Rows {
		d := r.day(t)
		for _, e := range []struct {
			name string
			got  time.Time
			pass Pass
			want string
		}{
			{"sunrise", d.Sunrise, d.Sun, r.Sunrise}, {"sunset", d.Sunset, d.Sun, r.Sunset},
			{"civil dawn", d.CivilDawn, d.Civil, r.CivilDawn}, {"civil dusk", d.CivilDusk, d.Civil, r.CivilDusk},
			{"nautical dawn", d.NauticalDawn, d.Nautical, r.NauticalDawn}, {"nautical dusk", d.NauticalDusk, d.Nautical, r.NauticalDusk},
		} {
			if off := difference(t, e.got, e.pass, e.want); off > ref.ToleranceS {
				t.Errorf("%s %s %s: %v (%d), %s is wanted", r.Place, r.LocalDate, e.name, e.got.UTC(), e.pass, e.want)
			} else {
				worst = math.Max(worst, off)
			}
		}
	}
	t.Logf("largest difference %.1f s", worst)
}

// difference in seconds, +Inf where one says an event and the other none.
func difference(t *testing.T, got time.Time, pass Pass, want string) float64 {
	t.Helper()
	switch want {
	case "always_up", "always_down":
		wantPass := map[string]Pass{"always_up": AlwaysUp, "always_down": AlwaysDown}[want]
		if got.IsZero() && pass == wantPass {
			return 0
		}
		return math.Inf(1)
	}
	at, err := time.Parse(time.RFC3339, want)
	if err != nil {
		t.Fatal(err)
	}
	if got.IsZero() || pass != Crosses {
		return math.Inf(1)
	}
	return math.Abs(got.Sub(at).Seconds())
}

// Reda and Andreas, NREL/TP-560-34302, rev. 2008, table A5.1: sunrise and sunset
// of the example, and the Sun's altitude. The table's altitude includes
// refraction, which at 40° is above 0 and below 0.02° (1.02′·cot h, Saemundsson
// 1986, at sea level 0.020°), and so is taken as a range.
func TestPublishedExample(t *testing.T) {
	p := load(t).Published
	place := orb.Point{p.Lon, p.Lat}
	within := func(name string, got time.Time, want string) {
		at, _ := time.Parse(time.RFC3339, want)
		if d := got.Sub(at).Abs(); d > time.Minute {
			t.Errorf("%s: %v, %s is wanted", name, got, want)
		}
	}
	loc := p.Local.Location()
	within("sunrise", On(p.Local, place).Sunrise, "2003-10-17T06:12:43-07:00")
	within("sunset of the day before", On(time.Date(2003, 10, 16, 23, 0, 0, 0, loc), place).Sunset, "2003-10-16T17:20:19-07:00")
	within("sunset", On(p.Local, place).Sunset, "2003-10-17T17:18:51-07:00")
	const ours = 0.01 // stated error of the solution in longitude
	if lift := 90 - p.Zenith - AltitudeDeg(p.Local, place); lift < 0-ours || lift > 0.020+ours {
		t.Errorf("altitude is %.4f° below the published one with refraction", lift)
	}
}

// The light changes at the events of the reference: a minute and a half before and
// after each, which is its tolerance and some.
func TestLightAtReference(t *testing.T) {
	const margin = 90 * time.Second
	for _, r := range load(t).Rows {
		for _, e := range []struct {
			at            string
			before, after Light
		}{
			{r.Sunrise, Twilight, Daylight}, {r.Sunset, Daylight, Twilight},
			{r.CivilDawn, Night, Twilight}, {r.CivilDusk, Twilight, Night},
		} {
			at, err := time.Parse(time.RFC3339, e.at)
			if err != nil {
				continue // does not occur; TestOnReference holds that
			}
			place := orb.Point{r.Lon, r.Lat}
			if b, a := LightAt(at.Add(-margin), place), LightAt(at.Add(margin), place); b != e.before || a != e.after {
				t.Errorf("%s %s: %v then %v, %v then %v is wanted", r.Place, e.at, b, a, e.before, e.after)
			}
		}
	}
}

// The astronomical facts behind these: within the polar circles there is midnight
// sun in June and polar night in December; Tromsø has civil twilight at noon then
// (reference row 2025-12-21).
func TestLightAtHighLatitude(t *testing.T) {
	for _, c := range []struct {
		name string
		at   string
		p    orb.Point
		want Light
	}{
		{"midnight sun", "2026-06-21T23:00:00Z", orb.Point{19, 75}, Daylight},
		{"polar night at noon", "2026-12-21T10:45:00Z", orb.Point{19, 80}, Night},
		{"noon twilight", "2025-12-21T10:45:00Z", orb.Point{18.9553, 69.6492}, Twilight},
		{"north pole, June", "2026-06-21T00:00:00Z", orb.Point{0, 90}, Daylight},
		{"south pole, June", "2026-06-21T12:00:00Z", orb.Point{0, -90}, Night},
	} {
		at, _ := time.Parse(time.RFC3339, c.at)
		if got := LightAt(at, c.p); got != c.want {
			t.Errorf("%s: %v, %v is wanted", c.name, got, c.want)
		}
	}
}

func TestDateLineIsOneLine(t *testing.T) {
	at := time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC)
	west, east := AltitudeDeg(at, orb.Point{-180, 40}), AltitudeDeg(at, orb.Point{180, 40})
	if math.Abs(west-east) > 1e-9 {
		t.Errorf("altitude %v at 180° W, %v at 180° E", west, east)
	}
}

// A calendar date has one sunrise on that date and one sunset, on days of clock
// change and beside the date line too; a zone far from the place changes nothing
// but which date is meant.
func TestOnKeepsTheCalendarDate(t *testing.T) {
	for _, c := range []struct {
		zone, date string
		p          orb.Point
	}{
		{"Europe/Stockholm", "2026-03-29", orb.Point{18, 59}}, // clock forward
		{"Europe/Stockholm", "2026-10-25", orb.Point{18, 59}}, // clock back
		{"Pacific/Kiritimati", "2026-01-01", orb.Point{-157.4, 1.9}},
		{"Pacific/Pago_Pago", "2026-01-01", orb.Point{-170.7, -14.3}},
		{"Asia/Shanghai", "2026-07-01", orb.Point{75, 39}}, // three hours from its sun
	} {
		date, _ := time.ParseInLocation(time.DateOnly, c.date, zone(t, c.zone))
		for _, clock := range []time.Duration{0, 6 * time.Hour, 22 * time.Hour} {
			d := On(date.Add(clock), c.p)
			rise, set := d.Sunrise.Format(time.DateOnly), d.Sunset.Format(time.DateOnly)
			if rise != c.date || set != c.date || !d.Sunrise.Before(d.Sunset) {
				t.Errorf("%s %s: sunrise %v, sunset %v", c.zone, c.date, d.Sunrise, d.Sunset)
			}
		}
	}
}

// A dusk after midnight belongs to the evening it ends (reference row Stockholm,
// 2025-06-21: civil dawn 23:59 UTC of the day before, which is 01:59 in the zone).
func TestOnDuskAfterMidnight(t *testing.T) {
	loc := zone(t, "Europe/Helsinki")
	d := On(time.Date(2026, 6, 10, 12, 0, 0, 0, loc), orb.Point{22, 60})
	midnight := time.Date(2026, 6, 11, 0, 0, 0, 0, loc)
	if !d.CivilDusk.After(midnight) || d.CivilDusk.After(midnight.Add(2*time.Hour)) {
		t.Errorf("civil dusk %v, soon after midnight is wanted", d.CivilDusk)
	}
	if !d.Sunset.Before(midnight) {
		t.Errorf("sunset %v, before midnight is wanted", d.Sunset)
	}
}

// Events come in their order, on consecutive days about a day apart, and the light
// agrees with them. Everywhere below 65°, where the sun crosses the horizon daily.
func TestOnProperties(t *testing.T) {
	random := rand.New(rand.NewSource(1))
	for range 500 {
		p := orb.Point{random.Float64()*360 - 180, random.Float64()*130 - 65}
		loc := time.FixedZone("", int(math.Round(p.Lon()/15))*3600)
		date := time.Date(2020+random.Intn(20), 1, 1+random.Intn(365), 0, 0, 0, 0, loc)
		d, next := On(date, p), On(date.AddDate(0, 0, 1), p)
		if !d.Sunrise.Before(d.Sunset) || d.Sunrise.IsZero() || !d.Sunset.Before(next.Sunrise) {
			t.Fatalf("%v %v: sunrise %v, sunset %v, then %v", p, date, d.Sunrise, d.Sunset, next.Sunrise)
		}
		// On the first and last day of light nights one of the two is missing.
		both := !d.CivilDawn.IsZero() && !d.CivilDusk.IsZero()
		if both && !(d.CivilDawn.Before(d.Sunrise) && d.Sunset.Before(d.CivilDusk)) {
			t.Fatalf("%v %v: civil %v to %v about %v to %v", p, date, d.CivilDawn, d.CivilDusk, d.Sunrise, d.Sunset)
		}
		if LightAt(d.Sunset.Add(-time.Second), p) != Daylight || LightAt(d.Sunset.Add(time.Second), p) != Twilight {
			t.Fatalf("%v: light does not change at sunset %v", p, d.Sunset)
		}
		if off := next.Sunrise.Sub(d.Sunrise) - 24*time.Hour; off.Abs() > 6*time.Minute {
			t.Fatalf("%v %v: sunrise moves by %v in a day", p, date, off)
		}
	}
}

func TestNoPlaceIsNight(t *testing.T) {
	at := time.Date(2026, 6, 21, 12, 0, 0, 0, time.UTC)
	for _, p := range []orb.Point{{0, 91}, {181, 0}, {math.NaN(), 0}, {0, math.NaN()}, {math.Inf(1), 0}} {
		if got := LightAt(at, p); got != Night {
			t.Errorf("%v: %v, night is wanted", p, got)
		}
		if d := On(at, p); d.Sun != AlwaysDown || !d.Sunrise.IsZero() || !d.CivilDusk.IsZero() {
			t.Errorf("%v: %+v, nothing is wanted", p, d)
		}
	}
}
