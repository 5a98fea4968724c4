package passage

import (
	"testing"
	"time"

	"keelroom/geo/chart"
)

// A zone whose season begins or ends at midnight while she is inside is in force for
// all of her passage. She leaves at 23:50 at 20 kn and runs 2 to 6 nm through a zone
// of 6 kn: outside it she would be at 6 nm at 00:08.
func TestSeasonBeginsOrEndsInside(t *testing.T) {
	late := time.Date(2026, 7, 18, 23, 50, 0, 0, time.UTC)
	for _, c := range []struct {
		name   string
		season chart.Season
		from   float64 // where the zone begins, nm
		want   bool
	}{
		{"begins at midnight", chart.Season{From: 719, To: 731}, 2, true},
		{"ends at midnight", chart.Season{From: 701, To: 718}, 2, true},
		{"is of that one day", chart.Season{FirstDay: day0(19), Last: day0(19)}, 2, true},
		{"was over the day before", chart.Season{From: 701, To: 717}, 2, false},
		{"begins two days later", chart.Season{From: 720, To: 731}, 2, false},
		{"was over before she came", chart.Season{From: 701, To: 718}, 5, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			six := limit(6)
			six.Season = c.season
			p := day(start, east(8))
			p.Boat.WarmUpMin = 0
			p.Parts[0].Route.Depart = &late
			track := lay(t, p, waters(band(c.from, 6, six)))
			if got := len(track.Zones) == 1; got != c.want {
				t.Errorf("in force %v, want %v", got, c.want)
			}
			fastest := fastestBetween(track, c.from, 6)
			if c.want && fastest > 6.001 || !c.want && fastest < 20 {
				t.Errorf("%.1f kn inside it", fastest)
			}
		})
	}
}

func day0(d int) time.Time { return time.Date(2026, 7, d, 0, 0, 0, 0, time.UTC) }

// fastestBetween is the greatest speed inside [from, to] nm of a track of one leg.
func fastestBetween(track *Track, from, to float64) float64 {
	fastest := 0.0
	for _, s := range track.StepsOf(&track.Legs[0]) {
		for _, nm := range []float64{from + 0.01, (from + to) / 2, to - 0.01} {
			if m := nm * 1852; s.FromM <= m && m <= s.ToM {
				fastest = max(fastest, s.KnAt(m))
			}
		}
	}
	return fastest
}
