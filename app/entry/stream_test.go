package entry

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"keelroom/hazards/plan"
)

func TestStreamTable(t *testing.T) {
	day := Day{2026, time.July, 18}
	got, lines, err := StreamTable("time toward kn\n09:00 NE 1.2\n1000 225 0,4 kn\n2026-07-19 00:30 000 0", day, time.UTC)
	if err != nil {
		t.Fatal(err, lines)
	}
	want := []plan.Stream{
		{Time: time.Date(2026, 7, 18, 9, 0, 0, 0, time.UTC), TowardDeg: 45, Kn: 1.2},
		{Time: time.Date(2026, 7, 18, 10, 0, 0, 0, time.UTC), TowardDeg: 225, Kn: 0.4},
		{Time: time.Date(2026, 7, 19, 0, 30, 0, 0, time.UTC), TowardDeg: 0, Kn: 0},
	}
	for i, w := range want {
		if g := got[i]; !g.Time.Equal(w.Time) || g.TowardDeg != w.TowardDeg || g.Kn != w.Kn {
			t.Errorf("line %d: %+v, want %+v", i+1, g, w)
		}
	}
}

func TestStreamTableRefuses(t *testing.T) {
	day := Day{2026, time.July, 18}
	for _, test := range []struct{ text, want string }{
		{"09:00 1.2", "direction"}, {"09:00 NE", "speed"}, {"09:00 NE 1.2 0.4", "speed"}, {"09:00 NE 1 m/s", "m/s"}, {"09:00 NE 31", "31"},
		{"09:00 NE -1", ""}, {"09:00 NE 1\n08:00 NE 1", "08:00"}, {"from kn\n09:00 NE 1", "toward"}, {"09:00 from NE 1", "toward"}, {"NE 1", "time"},
	} {
		_, _, err := StreamTable(test.text, day, time.UTC)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v, want an error with %q", test.text, err, test.want)
		}
	}
}

func TestStreamGoesRound(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(7, 7))
	at := time.Date(2026, 10, 24, 20, 0, 0, 0, time.UTC) // across the end of summer time
	var streams []plan.Stream
	for range 200 {
		at = at.Add(time.Duration(1+random.IntN(40)) * time.Minute)
		streams = append(streams, plan.Stream{Time: at, TowardDeg: float64(random.IntN(3600)) / 10, Kn: float64(random.IntN(80)) / 10})
	}
	text := FormatStream(streams, zone)
	got, lines, err := StreamTable(text, Day{2026, time.October, 24}, zone)
	if err != nil || len(got) != len(streams) {
		t.Fatal(err, len(lines))
	}
	for i := range got {
		if !got[i].Time.Equal(streams[i].Time) || got[i].TowardDeg != streams[i].TowardDeg || got[i].Kn != streams[i].Kn {
			t.Errorf("%d: %+v, want %+v", i, got[i], streams[i])
		}
	}
}
