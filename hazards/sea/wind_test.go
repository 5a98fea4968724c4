package sea

import (
	"math"
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

var noon = time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)

func hours(h float64) time.Time { return noon.Add(time.Duration(h * float64(time.Hour))) }

// wind makes a series of {hours from noon, from_deg, kn, gust_kn}.
func wind(t testing.TB, rows ...[4]float64) *WindSeries {
	t.Helper()
	list := make([]Wind, len(rows))
	for i, r := range rows {
		list[i] = Wind{hours(r[0]), r[1], r[2], r[3]}
	}
	s, err := NewWindSeries(list)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The rules of the plan file, section 1, worked by hand.
func TestWindAt(t *testing.T) {
	for _, c := range []struct {
		name          string
		a, b          [4]float64
		at            float64
		deg, kn, gust float64
	}{
		{"half way", [4]float64{0, 200, 10, 14}, [4]float64{2, 240, 16, 22}, 1, 220, 13, 18},
		{"through north, veering", [4]float64{0, 350, 10, 10}, [4]float64{4, 30, 10, 10}, 1, 0, 10, 10},
		{"through north, backing", [4]float64{0, 10, 10, 10}, [4]float64{2, 350, 10, 10}, 0.5, 5, 10, 10},
		{"opposites veer from 10", [4]float64{0, 10, 10, 10}, [4]float64{2, 190, 10, 10}, 1, 100, 10, 10},
		{"opposites veer from 190", [4]float64{0, 190, 10, 10}, [4]float64{2, 10, 10, 10}, 1, 280, 10, 10},
		{"opposites in decimals veer", [4]float64{0, 100.1, 10, 10}, [4]float64{2, 280.1, 10, 10}, 1, 190.1, 10, 10},
		{"just under opposite backs", [4]float64{0, 10, 10, 10}, [4]float64{2, 191, 10, 10}, 1, 280.5, 10, 10},
		{"360 is 0", [4]float64{0, 360, 10, 10}, [4]float64{2, 0, 10, 10}, 1, 0, 10, 10},
		{"held before", [4]float64{0, 200, 10, 14}, [4]float64{2, 240, 16, 22}, -3, 200, 10, 14},
		{"held after", [4]float64{0, 200, 10, 14}, [4]float64{2, 240, 16, 22}, 5, 240, 16, 22},
		{"first row", [4]float64{0, 200, 10, 14}, [4]float64{2, 240, 16, 22}, 0, 200, 10, 14},
		{"last row", [4]float64{0, 200, 10, 14}, [4]float64{2, 240, 16, 22}, 2, 240, 16, 22},
	} {
		w, ok := wind(t, c.a, c.b).At(hours(c.at))
		off := math.Abs(math.Remainder(w.FromDeg-c.deg, 360)) + math.Abs(w.Kn-c.kn) + math.Abs(w.GustKn-c.gust)
		if !ok || off > 1e-9 || w.FromDeg < 0 || w.FromDeg >= 360 {
			t.Errorf("%s: %+v %v, %g° %g kn gusts %g is wanted", c.name, w, ok, c.deg, c.kn, c.gust)
		}
	}
}

func TestWindUnknown(t *testing.T) {
	s := wind(t, [4]float64{0, 200, 10, 14}, [4]float64{2, 240, 16, 22})
	empty := wind(t)
	for _, c := range []struct {
		s  *WindSeries
		at float64
	}{{s, -3.001}, {s, 5.001}, {empty, 0}, {nil, 0}} {
		if w, ok := c.s.At(hours(c.at)); ok {
			t.Errorf("at %g h: %+v is known", c.at, w)
		}
		if kn, ok := c.s.MeanKn(hours(c.at), hours(c.at)); ok {
			t.Errorf("at %g h: mean %g is known", c.at, kn)
		}
	}
}

// Areas under the graph by hand: a trapezium, part of one, and the held ends.
func TestMeanKn(t *testing.T) {
	s := wind(t, [4]float64{0, 0, 10, 10}, [4]float64{2, 0, 20, 20}, [4]float64{3, 0, 0, 0})
	for _, c := range []struct{ from, to, want float64 }{
		{0, 2, 15}, {0, 1, 12.5}, {2, 3, 10}, {0, 3, 40.0 / 3}, {-2, 0, 10}, {-1, 1, 11.25}, {3, 6, 0}, {1, 2.5, (17.5 + 7.5) / 1.5}, {1, 1, 15},
	} {
		if kn, ok := s.MeanKn(hours(c.from), hours(c.to)); !ok || math.Abs(kn-c.want) > 1e-9 {
			t.Errorf("%g to %g h: %g %v, %g is wanted", c.from, c.to, kn, ok, c.want)
		}
	}
	if _, ok := s.MeanKn(hours(2), hours(1)); ok {
		t.Error("a mean over times in the wrong order is known")
	}
	if _, ok := s.MeanKn(hours(0), hours(6.1)); ok {
		t.Error("a mean beyond the hold is known")
	}
}

// Two rows more than 12 h apart are no known wind between them (plan file, the
// check table's row of the sea): each stands for 3 h, as at the ends. Worked by hand.
func TestWindGap(t *testing.T) {
	s := wind(t, [4]float64{-12, 180, 20, 28}, [4]float64{0, 200, 10, 14}, [4]float64{12.5, 300, 6, 9})
	for _, c := range []struct{ at, deg, kn float64 }{{-6, 190, 15}, {0, 200, 10}, {3, 200, 10}, {9.5, 300, 6}, {12.5, 300, 6}} {
		if w, ok := s.At(hours(c.at)); !ok || w.FromDeg != c.deg || w.Kn != c.kn {
			t.Errorf("at %g h: %+v %v, %g° %g kn are wanted", c.at, w, ok, c.deg, c.kn)
		}
	}
	for _, at := range []float64{3.001, 6, 9.499} {
		if w, ok := s.At(hours(at)); ok {
			t.Errorf("at %g h: %+v is known", at, w)
		}
	}
	for _, c := range []struct {
		from, to, want float64
		ok             bool
	}{{-12, 0, 15, true}, {0, 3, 10, true}, {9.5, 12.5, 6, true}, {0, 12.5, 0, false}, {3, 9.5, 0, false}, {2, 4, 0, false}} {
		if kn, ok := s.MeanKn(hours(c.from), hours(c.to)); ok != c.ok || math.Abs(kn-c.want) > 1e-9 {
			t.Errorf("%g to %g h: %g %v, %g %v is wanted", c.from, c.to, kn, ok, c.want, c.ok)
		}
	}
}

// Rows left out between a storm and a calm leave no smaller sea after it: what
// blew in the gap is not known, and is taken as the stronger of the two rows.
func TestWindGapRaisesNoSmallerSea(t *testing.T) {
	full, gap := [][4]float64{}, [][4]float64{}
	for h := -14.0; h <= 0; h++ {
		row := [4]float64{h, 0, 10 - h, 20 - h}
		full = append(full, row)
		if h == -14 || h == 0 {
			gap = append(gap, row)
		}
	}
	room := basin{min: orb.Point{-90_000, -90_000}, max: orb.Point{90_000, 90_000}, depthM: 200}
	whole, _ := (&Model{Wind: wind(t, full...), Cast: room}).At(origin, noon)
	left, ok := (&Model{Wind: wind(t, gap...), Cast: room}).At(origin, noon)
	if !ok || left.HsM < whole.HsM {
		t.Errorf("%.3f m with the rows left out, %.3f m with them", left.HsM, whole.HsM)
	}
}

// A row added on the line between two changes nothing; speed and direction stay
// between their neighbours; the mean agrees with sampling.
func TestWindProperties(t *testing.T) {
	random := rand.New(rand.NewSource(4))
	for range 200 {
		rows := make([][4]float64, 6)
		for i := range rows {
			kn := 40 * random.Float64()
			rows[i] = [4]float64{float64(i) + random.Float64()*0.9, 360 * random.Float64(), kn, kn * 1.4}
		}
		s := wind(t, rows...)
		mid := (rows[2][0] + rows[3][0]) / 2
		w, _ := s.At(hours(mid))
		turn := math.Abs(math.Remainder(w.FromDeg-rows[2][1], 360))
		if whole := math.Abs(math.Remainder(rows[3][1]-rows[2][1], 360)); math.Abs(turn-whole/2) > 1e-9 {
			t.Fatalf("half way from %g to %g is %g", rows[2][1], rows[3][1], w.FromDeg)
		}
		split := append(append(append([][4]float64{}, rows[:3]...), [4]float64{mid, w.FromDeg, w.Kn, w.GustKn}), rows[3:]...)
		checkSame(t, random, s, wind(t, split...))
	}
}

func checkSame(t *testing.T, random *rand.Rand, a, b *WindSeries) {
	t.Helper()
	for range 20 {
		at := hours(8*random.Float64() - 1)
		wa, oka := a.At(at)
		wb, okb := b.At(at)
		turned := math.Abs(math.Remainder(wa.FromDeg-wb.FromDeg, 360))
		if oka != okb || turned > 1e-4 || math.Abs(wa.Kn-wb.Kn) > 1e-4 || math.Abs(wa.GustKn-wb.GustKn) > 1e-4 {
			t.Fatalf("%v: %+v %+v", at, wa, wb)
		}
		from := at.Add(-time.Duration(random.Float64() * float64(2*time.Hour)))
		ma, oka := a.MeanKn(from, at)
		mb, okb := b.MeanKn(from, at)
		if oka != okb || math.Abs(ma-mb) > 1e-3 || oka && math.Abs(ma-sampledMean(a, from, at)) > 0.05 {
			t.Fatalf("mean %v to %v: %g, %g, sampled %g", from, at, ma, mb, sampledMean(a, from, at))
		}
	}
}

func sampledMean(s *WindSeries, from, to time.Time) float64 {
	const n = 2000
	sum := 0.0
	for i := range n {
		w, _ := s.At(from.Add(to.Sub(from) * time.Duration(2*i+1) / (2 * n)))
		sum += w.Kn
	}
	return sum / n
}

func TestWindRefused(t *testing.T) {
	for _, c := range []struct {
		rows []Wind
		want string
	}{
		{[]Wind{{hours(0), 200, 10, 14}, {hours(0), 200, 10, 14}}, "wind[1].time"},
		{[]Wind{{hours(1), 200, 10, 14}, {hours(0), 200, 10, 14}}, "wind[1].time"},
		{[]Wind{{time.Time{}, 200, 10, 14}}, "wind[0].time"},
		{[]Wind{{hours(0), 361, 10, 14}}, "wind[0].from_deg"},
		{[]Wind{{hours(0), math.NaN(), 10, 14}}, "wind[0].from_deg"},
		{[]Wind{{hours(0), 0, -1, 14}}, "wind[0].kn"},
		{[]Wind{{hours(0), 0, math.Inf(1), 14}}, "wind[0].kn"},
		{[]Wind{{hours(0), 0, math.NaN(), 14}}, "wind[0].kn"},
		{[]Wind{{hours(0), 0, 10, math.NaN()}}, "wind[0].gust_kn"},
		{[]Wind{{hours(0), 0, 10, 9}}, "wind[0].gust_kn"},
	} {
		if _, err := NewWindSeries(c.rows); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: error %v, one naming %s is wanted", c.rows, err, c.want)
		}
	}
}

func TestSwellAndStream(t *testing.T) {
	sw, err := NewSwellSeries([]Swell{{hours(0), 350, 1, 8}, {hours(2), 10, 2, 10}})
	if err != nil {
		t.Fatal(err)
	}
	if got, ok := sw.At(hours(1)); !ok || got.FromDeg != 0 || got.HeightM != 1.5 || got.PeriodS != 9 {
		t.Errorf("swell %+v %v", got, ok)
	}
	st, err := NewStreamSeries([]Stream{{hours(0), 90, 1}, {hours(2), 270, 3}})
	if err != nil {
		t.Fatal(err)
	}
	if got, ok := st.At(hours(1)); !ok || got.TowardDeg != 180 || got.Kn != 2 {
		t.Errorf("stream %+v %v", got, ok)
	}
	if _, ok := sw.At(hours(6)); ok {
		t.Error("swell is known beyond the hold")
	}
	if _, ok := (*StreamSeries)(nil).At(noon); ok {
		t.Error("no stream is known")
	}
	if _, err := NewSwellSeries([]Swell{{hours(0), 350, -1, 8}}); err == nil || !strings.Contains(err.Error(), "swell[0].height_m") {
		t.Errorf("error %v", err)
	}
	if _, err := NewStreamSeries([]Stream{{hours(0), -5, 1}}); err == nil || !strings.Contains(err.Error(), "stream[0].toward_deg") {
		t.Errorf("error %v", err)
	}
}
