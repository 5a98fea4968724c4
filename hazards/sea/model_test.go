package sea

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

var origin = orb.Point{0, 0}

// steady is a wind long enough that 12 h of it are known at noon.
func steady(t testing.TB, fromDeg, kn float64) *WindSeries {
	var rows [][4]float64
	for h := -24.0; h <= 24; h += 12 { // farther apart they would not join
		rows = append(rows, [4]float64{h, fromDeg, kn, kn})
	}
	return wind(t, rows...)
}

func at(t *testing.T, m *Model) State {
	t.Helper()
	s, ok := m.At(origin, noon)
	if !ok {
		t.Fatal("the sea is not known")
	}
	return s
}

// The mean of nine rays: SPM 1984 p 3-39, the case in testdata/waves.json.
func TestFetchMeanOfNine(t *testing.T) {
	for _, c := range loadWaves(t).Fetch {
		if c.Radials9 == nil {
			continue
		}
		cast := &bearings{ray: func(deg float64) Ray {
			k := int(math.Round(math.Remainder(deg-355, 360)/3)) + 4
			return Ray{LengthM: c.Radials9[k], MeanDepthM: 5}
		}}
		s := at(t, &Model{Wind: steady(t, 355, 12), Cast: cast})
		near(t, "fetch", s.FetchM, c.SPMMean, 1e-6)
		if cast.cast != fanRays {
			t.Errorf("%d rays cast, 9 are wanted", cast.cast)
		}
	}
}

// The rectangular channel of testdata/waves.json, 500 m wide, 4000 m ahead: first
// that the basin of these tests is that channel (its 15 rays at 6°), then the
// fetch in it by hand: rays at 0° and ±3° reach the head (4000/cos), those at
// ±6°, ±9°, ±12° the sides (250/sin).
func TestFetchInChannel(t *testing.T) {
	b := basin{min: orb.Point{-250, -1000}, max: orb.Point{250, 4000}, depthM: 6}
	found := false
	for _, c := range loadWaves(t).Fetch {
		if !strings.Contains(c.Note, "rectangular channel") {
			continue
		}
		found = true
		for i, want := range c.Radials {
			got := b.Cast(origin, fullCircle(float64(i-7)*6), MaxRayM, noon)
			near(t, "ray", got.LengthM, want, 2e-5) // two decimals
		}
	}
	if !found {
		t.Fatal("no channel in waves.json")
	}
	s := at(t, &Model{Wind: steady(t, 0, 20), Cast: b})
	rad := math.Pi / 180
	want := (4000 + 2*4000/math.Cos(3*rad) + 2*250/math.Sin(6*rad) + 2*250/math.Sin(9*rad) + 2*250/math.Sin(12*rad)) / 9
	near(t, "fetch", s.FetchM, want, 1e-9)
	h, period := Grow(AdjustedWind(20*1852.0/3600), want, 6)
	near(t, "height", s.HsM, h, 1e-9)
	near(t, "period", s.PeriodS, period, 1e-9)
}

// Mean depth is over the length of all rays; unknown on a ray of some length makes
// the fetch deep; a ray without length has no say.
func TestFetchDepth(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		rays []Ray
		want fetch
	}{
		{[]Ray{{LengthM: 100, MeanDepthM: 2}, {LengthM: 300, MeanDepthM: 6}}, fetch{200, 5}},
		{[]Ray{{LengthM: 100, MeanDepthM: inf}, {LengthM: 300, MeanDepthM: 6}}, fetch{200, inf}},
		{[]Ray{{LengthM: 0, MeanDepthM: inf}, {LengthM: 300, MeanDepthM: 6}}, fetch{150, 6}},
		{[]Ray{{}, {}}, fetch{0, inf}},
	} {
		if got := meanFetch(c.rays); got != c.want {
			t.Errorf("%+v: %+v, %+v is wanted", c.rays, got, c.want)
		}
	}
}

// What a caster must not give is read as open water or as deep, never as shelter.
func TestOddRaysAreUnsafe(t *testing.T) {
	good := at(t, &Model{Wind: steady(t, 0, 20), Cast: &bearings{ray: func(float64) Ray { return Ray{LengthM: 500, MeanDepthM: 3} }}})
	for _, r := range []Ray{
		{LengthM: math.NaN(), MeanDepthM: 3}, {LengthM: -1, MeanDepthM: 3}, {LengthM: math.Inf(1), MeanDepthM: 3},
		{LengthM: 500, MeanDepthM: math.NaN()}, {LengthM: 500, MeanDepthM: 0}, {LengthM: 500, MeanDepthM: -2}, {LengthM: 500},
	} {
		s := at(t, &Model{Wind: steady(t, 0, 20), Cast: &bearings{ray: func(float64) Ray { return r }}})
		if !(s.HsM > good.HsM) || math.IsNaN(s.WithOpenPlusHsM) {
			t.Errorf("%+v: %g m, more than %g m is wanted", r, s.HsM, good.HsM)
		}
	}
}

// A basin whose north side is the data's edge, 1 km off. By hand: nine open rays;
// with open water they are 20 km of unknown depth, 2 km where that is the fetch
// asked for, and stay as they are where it is shorter than the data.
func TestOpenWaterBeyondTheData(t *testing.T) {
	b := basin{min: orb.Point{-9000, -9000}, max: orb.Point{9000, 1000}, openNorth: true, depthM: 4}
	ua := AdjustedWind(15 * knotInMps)
	for _, c := range []struct{ open, length float64 }{{0, 20_000}, {20_000, 20_000}, {2000, 2000}, {math.NaN(), 20_000}} {
		s := at(t, &Model{Wind: steady(t, 0, 15), Cast: b, OpenFetchM: c.open})
		want, _ := Grow(ua, c.length, math.Inf(1))
		near(t, "open height", s.WithOpenHsM, want, 1e-9)
		if s.OpenRays != 9 || !(s.HsM < s.WithOpenHsM) || s.DepthM != 4 {
			t.Errorf("%d open rays, %g m, with open water %g m, depth %g m", s.OpenRays, s.HsM, s.WithOpenHsM, s.DepthM)
		}
		near(t, "+25 %", s.PlusHsM, 1.25*s.HsM, 1e-12)
		near(t, "+25 % open", s.WithOpenPlusHsM, 1.25*s.WithOpenHsM, 1e-12)
	}
	short := at(t, &Model{Wind: steady(t, 0, 15), Cast: b, OpenFetchM: 500})
	if short.WithOpenHsM != short.HsM {
		t.Errorf("an open fetch inside the data changes %g m to %g m", short.HsM, short.WithOpenHsM)
	}
	shut := at(t, &Model{Wind: steady(t, 180, 15), Cast: b})
	if shut.OpenRays != 0 || shut.WithOpen != shut.Within || shut.WithOpenHsM != shut.HsM {
		t.Errorf("toward land: %+v", shut)
	}
}

func TestNoWindIsNotCalm(t *testing.T) {
	b := basin{min: orb.Point{-1, -1}, max: orb.Point{1, 1}, depthM: 4}
	ends := wind(t, [4]float64{-10, 0, 5, 5}, [4]float64{-4, 0, 5, 5})
	for name, m := range map[string]*Model{"no series": {Cast: b}, "ended": {Wind: ends, Cast: b}, "no chart": {Wind: steady(t, 0, 5)}} {
		if s, ok := m.At(origin, noon); ok {
			t.Errorf("%s: %+v", name, s)
		}
		if _, _, ok := m.WindRoom(origin, noon, hours(1), noon, 0.3); ok {
			t.Errorf("%s: there is a wind room", name)
		}
	}
	calm := at(t, &Model{Wind: steady(t, 0, 0), Cast: b})
	if calm.HsM != 0 || calm.WithOpenPlusHsM != 0 || calm.PeriodS != 0 {
		t.Errorf("a calm raises %+v", calm)
	}
}

func TestGustsNeverRaiseTheSea(t *testing.T) {
	b := basin{min: orb.Point{-900, -900}, max: orb.Point{900, 900}, depthM: 4}
	a := at(t, &Model{Wind: wind(t, [4]float64{0, 20, 12, 12}), Cast: b})
	c := at(t, &Model{Wind: wind(t, [4]float64{0, 20, 12, 40}), Cast: b})
	if a != c {
		t.Errorf("gusts change %+v to %+v", a, c)
	}
}

// More wind, more water, deeper water never lower any of the four heights; with
// open water and with the uncertainty they never fall; the order of the places in
// time does not matter. Random basins.
func TestStateProperties(t *testing.T) {
	random := rand.New(rand.NewSource(5))
	for range 500 {
		b := basin{
			min:       orb.Point{-1 - 5000*random.Float64(), -1 - 5000*random.Float64()},
			max:       orb.Point{1 + 5000*random.Float64(), 1 + 5000*random.Float64()},
			openNorth: random.Intn(2) == 0, depthM: 0.5 + 20*random.Float64(),
		}
		rows := make([][4]float64, 5)
		for i := range rows {
			kn := 30 * random.Float64()
			rows[i] = [4]float64{float64(3*i - 10), 360 * random.Float64(), kn, kn}
		}
		s := at(t, &Model{Wind: wind(t, rows...), Cast: b})
		if s.PlusHsM < s.HsM || s.WithOpenHsM < s.HsM || s.WithOpenPlusHsM < s.PlusHsM || s.WithOpenPlusHsM < s.WithOpenHsM {
			t.Fatalf("heights out of order: %+v", s)
		}
		bigger, deeper := b, b
		for i := range 2 {
			bigger.min[i] *= 1.5
			bigger.max[i] *= 1.5
		}
		deeper.depthM *= 1.5
		for i := range rows {
			rows[i][2] *= 1.2
			rows[i][3] *= 1.2
		}
		for name, m := range map[string]*Model{
			"bigger": {Wind: steadyAs(t, s), Cast: bigger}, "deeper": {Wind: steadyAs(t, s), Cast: deeper}, "windier": {Wind: wind(t, rows...), Cast: b},
		} {
			base := s
			if name != "windier" {
				base = at(t, &Model{Wind: steadyAs(t, s), Cast: b})
			}
			if more := at(t, m); more.HsM < base.HsM*(1-1e-9) || more.WithOpenPlusHsM < base.WithOpenPlusHsM*(1-1e-9) {
				t.Fatalf("%s: %+v, then %+v", name, base, more)
			}
		}
	}
}

// steadyAs is a steady wind as it is in a state.
func steadyAs(t *testing.T, s State) *WindSeries { return steady(t, s.FromDeg, s.WindKn) }
