package chart

import (
	"math/rand"
	"testing"
	"time"
	_ "time/tzdata"
)

// A season touches a time if it holds at any quarter of an hour of it or at its ends:
// in zones whose days have 23 and 25 hours, over New Year and over 29 February.
func TestSeasonTouchesLikeAnyHourOfIt(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	day := func() MonthDay { return MonthDay((1+rng.Intn(12))*100 + 1 + rng.Intn(28)) }
	touched := 0
	for range 3000 {
		zone, err := time.LoadLocation([]string{"UTC", "Europe/Oslo", "America/New_York", "Pacific/Apia"}[rng.Intn(4)])
		if err != nil {
			t.Fatal(err)
		}
		from := time.Date(2024+rng.Intn(3), time.Month(1+rng.Intn(12)), 1+rng.Intn(31), rng.Intn(24), rng.Intn(60), 0, 0, zone)
		to := from.Add(time.Duration(rng.Intn(4*24*60)) * time.Minute)
		var s Season
		if rng.Intn(3) > 0 {
			s.From, s.To = day(), day()
		}
		if rng.Intn(3) == 0 {
			s.FirstDay = time.Date(2024+rng.Intn(3), time.Month(1+rng.Intn(12)), 1+rng.Intn(28), 0, 0, 0, 0, time.UTC)
		}
		if rng.Intn(3) == 0 {
			s.Last = time.Date(2024+rng.Intn(3), time.Month(1+rng.Intn(12)), 1+rng.Intn(28), 0, 0, 0, 0, time.UTC)
		}
		want := s.Holds(to)
		for at := from; !at.After(to); at = at.Add(15 * time.Minute) {
			want = want || s.Holds(at)
		}
		if got := s.Touches(from, to); got != want {
			t.Fatalf("%+v from %v to %v: %v, want %v", s, from, to, got, want)
		}
		if want {
			touched++
		}
	}
	if touched < 300 || touched > 2700 {
		t.Errorf("%d of 3000 touched: the seasons are not mixed", touched)
	}
}

func TestSeasonTouchesLongTimes(t *testing.T) {
	leap := Season{From: 229, To: 229}
	at := func(year int, month time.Month, day int) time.Time {
		return time.Date(year, month, day, 12, 0, 0, 0, time.UTC)
	}
	for _, c := range []struct {
		s        Season
		from, to time.Time
		want     bool
	}{
		{leap, at(1896, 3, 1), at(1904, 2, 28), false}, // 1900 was no leap year
		{leap, at(1896, 3, 1), at(1904, 2, 29), true},
		{leap, at(1, 1, 1), at(9000, 1, 1), true},
		{Season{}, at(2026, 1, 1), at(2026, 1, 1), true},
		{Season{From: 1001, To: 430, Last: at(2025, 4, 30).Truncate(24 * time.Hour)}, at(2026, 1, 1), at(2300, 1, 1), false},
	} {
		if got := c.s.Touches(c.from, c.to); got != c.want {
			t.Errorf("%+v from %v to %v: %v", c.s, c.from, c.to, got)
		}
	}
}
