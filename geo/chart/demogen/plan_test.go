package main

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart/demobed"
)

// leg is one leg of a demo route with the speed planned for it, if any.
type leg struct {
	a, b orb.Point
}

func legs(t *testing.T, folder, file string) (out []leg) {
	t.Helper()
	ls, props := lines(t, folder, file)
	for i, l := range ls {
		if s, ok := props[i]["speeds_kn"].([]any); ok && len(s) != len(l)-1 {
			t.Errorf("%s: %d speeds for %d legs", props[i]["name"], len(s), len(l)-1)
		}
		for k := 1; k < len(l); k++ {
			out = append(out, leg{l[k-1], l[k]})
		}
	}
	return out
}

// leastWanted is the true depth the demo routes keep: 3 m at sea, less by
// intent in the basin, at the anchorages and over the bar.
func leastWanted(p orb.Point) float64 {
	for _, c := range []struct {
		at     orb.Point
		radius float64
		least  float64
	}{
		{demobed.Gat, 140, 1.3},
		{demobed.Berth, 150, 2.5},
		{demobed.ElbowBay, 150, 2.2},
		{demobed.BarBay, 200, 2.2},
	} {
		if metresApart(p, c.at) < c.radius {
			return c.least
		}
	}
	return 3
}

func TestPlanLegsHaveWater(t *testing.T) {
	for _, l := range legs(t, webFolder, "plan.geojson") {
		steps := int(metresApart(l.a, l.b)/2) + 1
		for i := range steps + 1 {
			f := float64(i) / float64(steps)
			p := orb.Point{l.a[0] + f*(l.b[0]-l.a[0]), l.a[1] + f*(l.b[1]-l.a[1])}
			if z := demobed.DepthM(p); z < leastWanted(p) {
				t.Fatalf("the leg from %v to %v has %.2f m at %v, want %.1f m", l.a, l.b, z, p, leastWanted(p))
			}
		}
	}
}

// Routes keep 100 m from every danger, 35 m (corridor and hazard_m) would do.
func TestPlanKeepsClearOfDangers(t *testing.T) {
	for _, l := range legs(t, webFolder, "plan.geojson") {
		for _, h := range demobed.Hazards() {
			if d := metresFromLeg(h.At, l.a, l.b); d < 100 {
				t.Errorf("the leg from %v to %v passes %s at %.0f m", l.a, l.b, h.Class, d)
			}
		}
	}
}

// Lateral marks: going with the direction of buoyage (358 degrees, M_NSYS
// ORIENT) port hand marks (CATLAM 1) are left to port; going against it to
// starboard (IALA R1001). South cardinals are passed to the south.
func TestPlanLeavesMarksOnTheRightSide(t *testing.T) {
	for _, l := range legs(t, webFolder, "plan.geojson") {
		for _, class := range []string{"BOYLAT", "BCNLAT"} {
			at, props := points(t, layFolder, class+".geojson")
			for i, m := range at {
				checkLateral(t, l, m, props[i])
			}
		}
		at, props := points(t, layFolder, "BOYCAR.geojson")
		for i, m := range at {
			if metresFromLeg(m, l.a, l.b) < 200 && props[i]["CATCAM"] == 3.0 {
				if math.Max(l.a[1], l.b[1]) > m[1] {
					t.Errorf("a south cardinal at %v is passed on another side by %v to %v", m, l.a, l.b)
				}
			}
		}
	}
}

func checkLateral(t *testing.T, l leg, m orb.Point, props map[string]any) {
	t.Helper()
	ax, ay := demobed.Local(l.a)
	bx, by := demobed.Local(l.b)
	mx, my := demobed.Local(m)
	along := ((mx-ax)*(bx-ax) + (my-ay)*(by-ay)) / ((bx-ax)*(bx-ax) + (by-ay)*(by-ay))
	if along < 0 || along > 1 || metresFromLeg(m, l.a, l.b) > 200 || math.Abs(by-ay) < math.Abs(bx-ax) {
		return
	}
	markToPort := (bx-ax)*(my-ay)-(by-ay)*(mx-ax) > 0
	wantPort := (by > ay) == (props["CATLAM"] == 1.0)
	if markToPort != wantPort {
		t.Errorf("%v is left on the wrong side by the leg %v to %v", props["OBJNAM"], l.a, l.b)
	}
}

// Routes and stays follow each other without a gap (shared/plan-file.md).
func TestPlanIsOneDay(t *testing.T) {
	for _, c := range [][2]string{{webFolder, "plan.geojson"}, {planFolder, "demo-late.geojson"}} {
		ls, _ := lines(t, c[0], c[1])
		at, props := points(t, c[0], c[1])
		if len(ls) != 3 || ls[0][0] != ls[2][len(ls[2])-1] {
			t.Fatalf("%s: %d routes, want 3 that end where they began", c[1], len(ls))
		}
		n := 0
		for i, p := range at {
			if props[i]["role"] == "stay" {
				if ls[n][len(ls[n])-1] != p || ls[n+1][0] != p {
					t.Errorf("%s: a route does not reach %v", c[1], props[i]["name"])
				}
				n++
			}
		}
		if n != 2 {
			t.Errorf("%s: %d stays, want 2", c[1], n)
		}
	}
}

// The swinging circles (36 m of rode, the boat, the position error: 50 m)
// lie in water of 2 to 3.2 m, so that the rode aboard is enough.
func TestAnchoragesAreEven(t *testing.T) {
	for _, c := range []orb.Point{demobed.ElbowBay, demobed.BarBay} {
		x, y := demobed.Local(c)
		for i := range 360 {
			for _, r := range []float64{0, 15, 30, 50} {
				a := float64(i) * math.Pi / 180
				if z := demobed.DepthM(demobed.At(x+r*math.Cos(a), y+r*math.Sin(a))); z < 2 || z > 3.2 {
					t.Fatalf("%.0f m from %v the bed is at %.2f m", r, c, z)
				}
			}
		}
	}
}
