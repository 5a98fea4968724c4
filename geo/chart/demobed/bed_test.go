package demobed

import (
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"
)

// Works of man hold their depth by construction: the values below are the
// ones the works were given.
func TestDepthOfWorks(t *testing.T) {
	for _, c := range []struct {
		name string
		at   orb.Point
		want float64
	}{
		{"fairway", HarbourMouth, 3.2},
		{"fairway, seaward", At(-3850, 1480), 3.2},
		{"west pier", At(-3994, 1785), -4.4},
		{"east pier", At(-3738, 1815), -4.4},
		{"creek under the bridge", Bridge, 1.0},
	} {
		if got := DepthM(c.at); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: depth %.6f m, want %.1f m", c.name, got, c.want)
		}
	}
}

// Places are what their comments say.
func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		name          string
		at            orb.Point
		leastM, mostM float64
	}{
		{"berth", Berth, 2.6, 3.2},
		{"fairway end", FairwayEnd, 5, 20},
		{"Elbow Bay", ElbowBay, 2.2, 3},
		{"Bar Bay", BarBay, 2.2, 3},
		{"Surf Bay", SurfBay, 4, 15},
		{"gat", Gat, 1.2, 1.8},
		{"bar, west", BarWest, -2, -0.3},
		{"bar, east", BarEast, -2, -0.3},
		{"drying sands", DryingSands, -2.5, -0.3},
		{"hook ledge", HookLedge, 3, 8},
		{"unsurveyed", UnsurveyedSE, 20, 35},
		{"headland", At(-330, 500), -60, -LandHeightM},
	} {
		if got := DepthM(c.at); got < c.leastM || got > c.mostM {
			t.Errorf("%s: depth %.2f m, want %.1f to %.1f m", c.name, got, c.leastM, c.mostM)
		}
	}
}

func TestDepthOfNaN(t *testing.T) {
	if got := DepthM(orb.Point{math.NaN(), 43}); !math.IsNaN(got) {
		t.Errorf("depth at longitude NaN is %v, want NaN", got)
	}
}

func TestLocalAndAtAreInverse(t *testing.T) {
	for _, xy := range [][2]float64{{0, 0}, {-5000, 3000}, {1234.5, -4321}} {
		x, y := Local(At(xy[0], xy[1]))
		if math.Abs(x-xy[0]) > 1e-6 || math.Abs(y-xy[1]) > 1e-6 {
			t.Errorf("Local(At(%v)) = %v, %v", xy, x, y)
		}
	}
}

func TestGreatestDepth(t *testing.T) {
	const steps = 500
	b := Bounds()
	for i := range steps + 1 {
		for j := range steps + 1 {
			p := orb.Point{b.Min[0] + (b.Max[0]-b.Min[0])*float64(i)/steps, b.Min[1] + (b.Max[1]-b.Min[1])*float64(j)/steps}
			if z := DepthM(p); z > GreatestDepthM {
				t.Fatalf("depth at %v is %.2f m, over GreatestDepthM", p, z)
			}
		}
	}
}

// Hazards stand above the bed, or they would be none.
func TestHazardsStandAboveTheBed(t *testing.T) {
	for _, h := range Hazards() {
		if bed := DepthM(h.At); h.LeastM >= bed {
			t.Errorf("%s at %v: least depth %.1f m, the bed is at %.2f m", h.Class, h.At, h.LeastM, bed)
		}
		if !Bounds().Contains(h.At) {
			t.Errorf("%s at %v is outside the charted area", h.Class, h.At)
		}
	}
}

// Within holds for what difference quotients find inside the disc.
func TestWithinBoundsTheBed(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	for range 4000 {
		x, y := rng.Float64()*11000-5500, rng.Float64()*8600-4300
		if rng.Intn(2) == 0 { // half of them around the harbour works
			x, y = -4300+rng.Float64()*1500, 1200+rng.Float64()*2800
		}
		r := math.Pow(10, rng.Float64()*2.5)
		s := Within(At(x, y), r)
		for range 20 {
			d, a := r*math.Sqrt(rng.Float64())*0.99, rng.Float64()*2*math.Pi
			checkEnvelope(t, s, x+d*math.Cos(a), y+d*math.Sin(a), rng.Float64()*2*math.Pi)
		}
	}
}

// checkEnvelope compares s with depth, slope and second derivative at x, y in
// one direction, from central differences over 2 * 0.005 m.
func checkEnvelope(t *testing.T, s Envelope, x, y, dir float64) {
	t.Helper()
	const h, noise = 0.005, 1e-7
	dx, dy := h*math.Cos(dir), h*math.Sin(dir)
	z, fore, aft := depthAt(x, y), depthAt(x+dx, y+dy), depthAt(x-dx, y-dy)
	if z < s.LoM-noise || z > s.HiM+noise {
		t.Errorf("depth at %.1f, %.1f is %.6f, bounds %+v", x, y, z, s)
	}
	if slope := math.Abs(fore-aft) / (2 * h); slope > s.Slope+noise {
		t.Errorf("slope at %.1f, %.1f is %.6f, bounds %+v", x, y, slope, s)
	}
	if bend := math.Abs(fore+aft-2*z) / (h * h); bend > s.CurvePerM+1e-5 {
		t.Errorf("second derivative at %.1f, %.1f is %.8f, bounds %+v", x, y, bend, s)
	}
}

func BenchmarkDepthM(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		DepthM(Gat)
	}
}
