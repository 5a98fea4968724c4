package layer

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

func ringOf(coords []chart.Coord) chart.Geometry {
	return chart.Geometry{Prim: chart.Area, Coords: coords, Ends: []int32{int32(len(coords))}}
}

// wavy is a closed ring of n vertices that winds like a coast and crosses
// itself nowhere: its radius is a function of the bearing.
func wavy(n int) []chart.Coord {
	random := rand.New(rand.NewPCG(1, 2))
	out := make([]chart.Coord, n)
	for i := range out[:n-1] {
		a := 2 * math.Pi * float64(i) / float64(n-1)
		r := 5e6 * (1 + 0.3*math.Sin(7*a) + 0.01*random.Float64())
		out[i] = chart.Coord{Lon: int32(r * math.Cos(a)), Lat: int32(r * math.Sin(a))}
	}
	out[n-1] = out[0]
	return out
}

func ring(points ...[2]int32) chart.Geometry {
	var coords []chart.Coord
	for _, p := range points {
		coords = append(coords, chart.Coord{Lon: p[0], Lat: p[1]})
	}
	return ringOf(append(coords, coords[0]))
}

func TestCrossing(t *testing.T) {
	bow := ring([2]int32{0, 0}, [2]int32{10, 10}, [2]int32{10, 0}, [2]int32{0, 10})
	square := ring([2]int32{0, 0}, [2]int32{10, 0}, [2]int32{10, 10}, [2]int32{0, 10})
	touching := ring([2]int32{0, 0}, [2]int32{5, 5}, [2]int32{10, 0}, [2]int32{10, 10}, [2]int32{5, 5}, [2]int32{0, 10})
	two := chart.Geometry{Prim: chart.Area, Coords: append(append([]chart.Coord{}, square.Coords...), square.Coords...), Ends: []int32{5, 10}}
	shifted := two
	shifted.Coords = append([]chart.Coord{}, two.Coords...)
	for i := 5; i < 10; i++ {
		shifted.Coords[i].Lon += 3
		shifted.Coords[i].Lat += 3
	}
	wide := ring([2]int32{-900000000, -900000000}, [2]int32{900000000, 900000000}, [2]int32{900000000, -900000000}, [2]int32{-900000000, 900000000})
	tests := []struct {
		name string
		g    chart.Geometry
		want bool
	}{
		{"bow tie", bow, true},
		{"square", square, false},
		{"touching at a vertex", touching, false},
		{"the same ring twice", two, false},
		{"two rings that overlap", shifted, true},
		{"bow tie of half the globe", wide, true},
		{"coast", ringOf(wavy(5000)), false},
	}
	for _, test := range tests {
		if got := new(crossing).found(&test.g); got != test.want {
			t.Errorf("%s: crossing %v, want %v", test.name, got, test.want)
		}
	}
}

// The tree must agree with comparing every pair of segments.
func TestCrossingAgreesWithBruteForce(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	var x crossing
	met := map[bool]int{}
	for range 3000 {
		n := 4 + random.IntN(60)
		coords := wavy(n)
		for range random.IntN(3) { // fold the coast over itself, sometimes
			i := random.IntN(n - 1)
			coords[i].Lon += int32(random.IntN(4_000_000)) - 2_000_000
		}
		coords[n-1] = coords[0]
		g := ringOf(coords)
		want := bruteCrossing(coords)
		met[want]++
		if got := x.found(&g); got != want {
			t.Fatalf("%d vertices: crossing %v, want %v: %v", n, got, want, coords)
		}
	}
	if met[true] < 100 || met[false] < 100 {
		t.Errorf("one answer is too rare for a test: %v", met)
	}
}

func bruteCrossing(ring []chart.Coord) bool {
	for i := 1; i < len(ring); i++ {
		for j := i + 1; j < len(ring); j++ {
			if (segment{ring[i-1], ring[i]}).crosses(segment{ring[j-1], ring[j]}) {
				return true
			}
		}
	}
	return false
}

// A boundary that meets itself everywhere must not take for ever: 5000 spikes
// all across one another end by the count of steps.
func TestCrossingGivesUp(t *testing.T) {
	var coords []chart.Coord
	for i := range int32(100_000) {
		coords = append(coords, chart.Coord{Lon: i % 2 * 1_000_000, Lat: i})
	}
	coords = append(coords, coords[0])
	g := ringOf(coords)
	var x crossing
	x.found(&g)
	if limit := stepsAnyway + stepsPerSegment*len(x.segs); x.steps > limit || x.steps < -2*run {
		t.Errorf("%d steps left of %d", x.steps, limit)
	}
}

// An area may cross itself now and then; a tangle is refused in words, and its box is
// unknown water.
func TestTangleIsRefused(t *testing.T) {
	// A zigzag of n corners over a line back through all of it crosses it n times less
	// a few: each of its n-1 legs but those at the ends of the line.
	zigzag := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "[%.7f,%d],", 10+float64(i)*1e-4, 50+i%2)
		}
		return fmt.Sprintf(`{"type":"Polygon","coordinates":[[[9.9,50.5],%s[%.7f,50.5],[9.9,50.5]]]}`, b.String(), 10+float64(n)*1e-4)
	}
	set := func(n int) *chart.Set {
		t.Helper()
		s, messages := Decode([]File{{Name: "x.geojson", Data: []byte(doc(zigzag(n), `"OBJL":42,"DRVAL1":5,"DRVAL2":9`))}})
		if s == nil {
			t.Fatal(messages)
		}
		return s
	}
	if s := set(900); len(s.Refused) != 0 || len(s.Features) != 1 || !told(s, "W-SELFX", "crosses itself") {
		t.Errorf("900 crossings: %d features, %d refused: %v", len(s.Features), len(s.Refused), s.Messages)
	}
	if s := set(1100); len(s.Refused) != 1 || s.Refused[0].Boxless || !told(s, "E-GEOM", "crosses itself over 1000 times") {
		t.Errorf("1 100 crossings: %d features, %d refused: %v", len(s.Features), len(s.Refused), s.Messages)
	}
}

func told(s *chart.Set, code, words string) bool {
	return slices.ContainsFunc(s.Messages, func(m chart.Message) bool { return m.Code == code && strings.Contains(m.Found, words) })
}

// found reports whether a boundary crosses itself.
func (x *crossing) found(g *chart.Geometry) bool { return x.count(g, 0) > 0 }
