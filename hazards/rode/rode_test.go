package rode

import (
	"math"
	"math/rand"
	"testing"
)

// The angle at the shank against a sum over many short pieces: a chain of small straight
// links, each as steep as the pull in its middle, and the rope straight on. That is
// statics, without the formula of a catenary.
func TestShankAngleAgainstLinks(t *testing.T) {
	const links = 20_000
	climb := func(l Line, loadN, upN float64) float64 {
		h, piece := 0.0, l.ChainM/links
		for range links {
			v := upN + l.weight()*piece/2
			h += piece * v / math.Hypot(loadN, v)
			upN += l.weight() * piece
		}
		return h + l.RopeM*upN/math.Hypot(loadN, upN)
	}
	rnd := rand.New(rand.NewSource(1))
	for range 200 {
		l := Line{ChainM: 1 + 40*rnd.Float64(), ChainKgPerM: 0.8 + 2*rnd.Float64(), RopeM: 60 * rnd.Float64() * float64(rnd.Intn(2))}
		loadN := 20 + 4000*rnd.Float64()
		height := l.LengthM() * rnd.Float64()
		deg := l.ShankDeg(height, loadN)
		got := climb(l, loadN, loadN*math.Tan(deg*math.Pi/180))
		switch {
		case deg == 0 && got < height*(1-1e-6):
			t.Errorf("%+v, %.1f N, %.2f m: level, but it climbs %.3f m only", l, loadN, height, got)
		case deg > 0 && math.Abs(got-height) > 1e-4*height:
			t.Errorf("%+v, %.1f N: %.3f° climbs %.4f m, want %.4f", l, loadN, deg, got, height)
		}
	}
}

func TestLineAtItsBounds(t *testing.T) {
	chain, rope, both := Line{ChainM: 30, ChainKgPerM: 1.4}, Line{RopeM: 30}, Line{ChainM: 10, ChainKgPerM: 1.4, RopeM: 20}
	inf := math.Inf(1)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"too short to reach", chain.ShankDeg(30, 100), 90},
		{"no load, chain on the ground", chain.ShankDeg(5, 0), 0},
		{"rope alone leads straight", rope.ShankDeg(15, 1000), 30},
		{"no height", both.ShankDeg(0, 1000), 0},
		{"no line", Line{}.ShankDeg(5, 100), 90},
		{"rope alone is never level", rope.LeastM(5, 100, 0), inf},
		{"rope alone at 30 degrees", rope.LeastM(5, 100, 30), 10},
		{"no load hangs down", chain.LeastM(5, 0, 0), 5},
		{"nothing to climb", chain.LeastM(-1, 100, 0), 0},
		{"no load lifts a line of no height", chain.LiftN(0, 0), inf},
		{"any load lifts one that does not reach", chain.LiftN(31, 0), 0},
		{"any load lifts rope alone", rope.LiftN(5, 0), 0},
		{"none lifts it over what it has taut", rope.LiftN(2, 5), inf},
		{"chain 0 and rope 0", Lay(Line{}, Scope{5, 7}, 4, 100).ToLayM, 0},
		{"reach of one that does not", ReachM(5, 6), 0},
		{"radius", RadiusM(13, 5, 8, 10), 30},
		{"rope stretches", both.StretchedM(), 32},
		{"gust for no load", GustForLoadKn(5, 0), 0},
		{"laid: chain first", both.Laid(12).RopeM, 2},
		{"laid: no more than aboard", both.Laid(100).LengthM(), 30},
		{"laid: nothing", both.Laid(-3).LengthM(), 0},
	} {
		if math.Abs(c.got-c.want) > 1e-9 && c.got != c.want {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

// The scope rule takes that of rope as soon as rope is laid, and chain that is enough
// by itself stays enough with rope behind it.
func TestScopeWithRope(t *testing.T) {
	aboard, s := Line{ChainM: 20, ChainKgPerM: 1.4, RopeM: 100}, Scope{Chain: 5, Rope: 7}
	for _, c := range []struct{ height, want float64 }{{3, 15}, {4, 20}, {4.1, 28.7}, {10, 70}} {
		if got := s.LengthM(aboard, c.height); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%.1f m: %.2f, want %.2f", c.height, got, c.want)
		}
	}
	for _, c := range []struct{ laid, want float64 }{{10, 2}, {20, 4}, {25, 4}, {35, 5}} {
		if got := s.HeightM(aboard, c.laid); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%.0f m laid: %.2f, want %.2f", c.laid, got, c.want)
		}
	}
}

func TestWholeMetres(t *testing.T) {
	for m, want := range map[float64]float64{0: 0, 0.0004: 0, 0.001: 1, 29.9996: 30, 30: 30, 30.0004: 30, 30.001: 31} {
		if got := wholeMetres(m); got != want {
			t.Errorf("%v: %v, want %v", m, got, want)
		}
	}
	if got := Lay(Line{ChainM: 22.5, ChainKgPerM: 1.4}, Scope{5, 7}, 4.46, 100).ToLayM; got != 22.5 {
		t.Errorf("%v is laid of 22.5 m aboard", got)
	}
}

// Whatever it is laid in: more wind, water or height never needs less rode nor lifts
// less, more rode never lifts more, needs no more and never swings on less.
func TestMoreNeverNeedsLess(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for range 20_000 {
		aboard := Line{ChainM: float64(rnd.Intn(3)) * 20 * rnd.Float64(), ChainKgPerM: 0.8 + rnd.Float64(), RopeM: float64(rnd.Intn(2)) * 80 * rnd.Float64()}
		height, more := 12*rnd.Float64(), 1+rnd.Float64()
		s, load := Scope{5, 7}, 3000*rnd.Float64()
		a := Lay(aboard, s, height, load)
		for name, b := range map[string]Laying{"wind": Lay(aboard, s, height, load*more), "height": Lay(aboard, s, height*more, load), "scope": Lay(aboard, Scope{5 * more, 7 * more}, height, load)} {
			if b.ToLayM < a.ToLayM || b.AngleM < a.AngleM-1e-9 || b.FlatM < a.FlatM-1e-9 || b.ScopeM < a.ScopeM-1e-9 {
				t.Fatalf("more %s: %+v after %+v (%+v, %.2f m, %.0f N)", name, b, a, aboard, height, load)
			}
		}
		if a.FlatM < a.AngleM-1e-9 || a.ToLayM > aboard.LengthM() {
			t.Fatalf("%+v of %+v", a, aboard)
		}
		laid := aboard.LengthM() * rnd.Float64()
		short, long := aboard.Laid(laid), aboard.Laid(laid*more)
		if long.ShankDeg(height, load) > short.ShankDeg(height, load)+1e-9 {
			t.Fatalf("more rode lifts more: %+v, %+v at %.2f m, %.0f N", short, long, height, load)
		}
		if short.ShankDeg(height, load*more) < short.ShankDeg(height, load)-1e-9 {
			t.Fatalf("more wind lifts less: %+v", short)
		}
		if long.LiftN(height, 5) < short.LiftN(height, 5)*(1-1e-9) {
			t.Fatalf("more rode lifts earlier: %+v, %+v", short, long)
		}
		if span := long.SpanM(height, load); span > ReachM(long.LengthM(), height)+1e-6 {
			t.Fatalf("%+v spans %.3f m, taut %.3f m", long, span, ReachM(long.LengthM(), height))
		}
		if RadiusM(long.StretchedM(), height, 8, 10) < RadiusM(short.StretchedM(), height, 8, 10) {
			t.Fatal("more rode, a smaller circle")
		}
		if s.HeightM(aboard, laid*more) < s.HeightM(aboard, laid)-1e-9 {
			t.Fatal("more rode is enough for less height")
		}
	}
}

// What is just enough by LeastM pulls at just that angle, and the load that lifts a
// line there is that load.
func TestLeastAngleAndLiftAgree(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 5_000 {
		aboard := Line{ChainM: 5 + 40*rnd.Float64(), ChainKgPerM: 0.8 + rnd.Float64(), RopeM: float64(rnd.Intn(2)) * 1000}
		height, load, deg := 1+9*rnd.Float64(), 100+3000*rnd.Float64(), float64(rnd.Intn(2))*MaxShankDeg
		least := aboard.LeastM(height, load, deg)
		line := aboard.Laid(least)
		if aboard.RopeM == 0 {
			line = Line{ChainM: least, ChainKgPerM: aboard.ChainKgPerM}
		}
		if line.LengthM() < least-1e-6 {
			continue // more rope than there is
		}
		if got := line.ShankDeg(height, load*1.0001); deg > 0 && math.Abs(got-deg) > 0.01 || got < deg {
			t.Errorf("%+v at %.2f m, %.0f N: %.4f°, want %v°", line, height, load, got, deg)
		}
		within(t, "load that lifts", line.LiftN(height, deg), load, 1e-4)
	}
}

func TestGrounds(t *testing.T) {
	for _, c := range []struct {
		codes []int
		want  Ground
	}{
		{nil, NoGround}, {[]int{1}, Ground{Good, 1}}, {[]int{2}, Ground{Good, 1}}, {[]int{4}, Ground{Good, 1}},
		{[]int{3}, Ground{Fair, 0.5}}, {[]int{6}, Ground{Fair, 0.5}}, {[]int{17}, Ground{Fair, 0.5}}, {[]int{5}, Ground{Fair, 0.5}}, {[]int{7}, Ground{Fair, 0.5}}, {[]int{8}, Ground{Fair, 0.5}},
		{[]int{9}, Weed}, {[]int{14}, Weed}, {[]int{11}, Weed}, {[]int{18}, Weed},
		{[]int{4, 6}, Ground{Fair, 0.5}}, {[]int{4, 9}, Weed}, {[]int{6, 18, 1}, Weed},
		{[]int{99}, NoGround}, {[]int{4, 99}, NoGround}, {[]int{3, 99}, Ground{NotCharted, 0.5}},
	} {
		if got := GroundOf(c.codes...); got != c.want {
			t.Errorf("%v: %+v, want %+v", c.codes, got, c.want)
		}
	}
	if got := (Ground{Good, 1}).Worse(Weed); got != Weed {
		t.Errorf("weed on sand: %+v", got)
	}
	if KilogramsForce(9.80665) != 1 {
		t.Error("a kilogram weighs 9.80665 N")
	}
}
