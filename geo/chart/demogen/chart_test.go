package main

import (
	"bytes"
	"flag"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart/demobed"
)

var update = flag.Bool("update", false, "write the demo files instead of comparing them")

// The committed files are what the generator makes, byte for byte, on every
// machine (this test also runs under js/wasm).
func TestCommittedFilesAreGenerated(t *testing.T) {
	if *update {
		if err := run(webFolder, planFolder); err != nil {
			t.Fatal(err)
		}
	}
	files, err := layerFiles()
	if err != nil {
		t.Fatal(err)
	}
	day, err := demoPlan().bytes()
	if err != nil {
		t.Fatal(err)
	}
	compareFile(t, filepath.Join(webFolder, "plan.geojson"), day)
	for name, want := range files {
		compareFile(t, filepath.Join(layFolder, name), want)
	}
	if len(layerNames(t)) != len(files) {
		t.Errorf("the folder holds %d layers, the generator makes %d", len(layerNames(t)), len(files))
	}
	late, err := latePlan().bytes()
	if err != nil {
		t.Fatal(err)
	}
	compareFile(t, filepath.Join(planFolder, "demo-late.geojson"), late)
}

func compareFile(t *testing.T, path string, want []byte) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil {
		t.Errorf("%v; run make demo", err)
		return
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs from what the generator makes; run make demo", filepath.Base(path))
	}
}

// Size, names and the marks of invention.
func TestFilesAreSmallAndMarked(t *testing.T) {
	total := 0
	loose := regexp.MustCompile(`\[-?\d+\.(\d{1,6}|\d{8,}),|\[-?\d+,`)
	for _, name := range append(layerNames(t), filepath.Join("..", "plan")) {
		b, err := os.ReadFile(filepath.Join(layFolder, name+".geojson"))
		if err != nil {
			t.Fatal(err)
		}
		total += len(b)
		for _, l := range bytes.Split(b, []byte("\n")) {
			_, coordinates, _ := bytes.Cut(l, []byte(`"coordinates":`))
			if at := loose.Find(coordinates); at != nil {
				t.Errorf("%s: %s: positions are written with 7 decimals", name, at)
			}
		}
		f := load(t, layFolder, name+".geojson")
		title, _ := f.Layer["title"].(string)
		if filepath.Base(name) != "plan" && (f.Name != name || !strings.HasPrefix(title, "INVENTED WATERS") || f.Layer["licence"] != "CC0-1.0") {
			t.Errorf("%s: name %q, layer %v", name, f.Name, f.Layer)
		}
		for i, g := range f.Features {
			checkInvented(t, name, i, g.Properties)
		}
	}
	if total >= 1_000_000 {
		t.Errorf("the demo is %d bytes, want less than 1 MB", total)
	}
}

func checkInvented(t *testing.T, file string, i int, props map[string]any) {
	t.Helper()
	for _, key := range []string{"OBJNAM", "INFORM", "name"} {
		if s, ok := props[key].(string); ok && !strings.HasPrefix(s, "INVENTED") {
			t.Errorf("%s features[%d].%s: %q is not marked as invented", file, i, key, s)
		}
	}
}

// A key twice in one object is an error to a strict reader.
func TestPropertiesHaveNoKeyTwice(t *testing.T) {
	features := append(demoPlan().features(), feature{props: demoPlan().member()}, feature{props: layerHead()})
	for _, list := range placedFeatures() {
		features = append(features, list...)
	}
	for _, f := range features {
		seen := map[string]bool{}
		for _, kv := range f.props {
			if seen[kv.key] {
				t.Errorf("%v: %s twice", f.props[0], kv.key)
			}
			seen[kv.key] = true
		}
	}
}

// Group 1 tiles the coverage (IHO S-57 ENC Product Specification: the skin
// of the earth): areas add up, and each edge is shared by exactly two
// areas, run in opposite directions, or lies on the edge of the coverage.
func TestAreasTileTheCoverage(t *testing.T) {
	cover := shapes(t, "M_COVR")[0]
	sum := 0.0
	type edge struct{ a, b orb.Point }
	edges := map[edge]int{}
	for _, s := range skin(t) {
		sum += s.squareDegrees()
		for _, r := range s.rings {
			for i := 1; i < len(r); i++ {
				edges[edge{r[i-1], r[i]}]++
			}
		}
	}
	if rel := math.Abs(sum/cover.squareDegrees() - 1); rel > 1e-9 {
		t.Errorf("areas add up to the coverage within %.2g, want 1e-9", rel)
	}
	b := demobed.Bounds()
	for e, n := range edges {
		onBorder := e.a[0] == e.b[0] && (e.a[0] == b.Min[0] || e.a[0] == b.Max[0]) ||
			e.a[1] == e.b[1] && (e.a[1] == b.Min[1] || e.a[1] == b.Max[1])
		if n != 1 || !onBorder && edges[edge{e.b, e.a}] != 1 {
			t.Errorf("edge %v to %v is used %d times, its reverse %d times", e.a, e.b, n, edges[edge{e.b, e.a}])
		}
	}
}

// Rings are closed, have no equal neighbours, run the way RFC 7946 asks
// (outer counter-clockwise), and no two edges of all areas cross.
func TestRingsAreValid(t *testing.T) {
	var all []orb.LineString
	seen := map[[2]orb.Point]bool{}
	for _, s := range skin(t) {
		for i, r := range s.rings {
			checkRing(t, s, i, r)
			for k := 1; k < len(r); k++ {
				if !seen[[2]orb.Point{r[k], r[k-1]}] {
					all = append(all, orb.LineString{r[k-1], r[k]})
					seen[[2]orb.Point{r[k-1], r[k]}] = true
				}
			}
		}
	}
	west := func(l orb.LineString) float64 { return math.Min(l[0][0], l[1][0]) }
	sort.Slice(all, func(i, j int) bool { return west(all[i]) < west(all[j]) })
	for i, l := range all {
		for _, m := range all[i+1:] {
			if west(m) > math.Max(l[0][0], l[1][0]) {
				break
			}
			if crosses(l, m) {
				t.Errorf("edges %v and %v cross", l, m)
			}
		}
	}
}

func checkRing(t *testing.T, s shape, i int, r orb.Ring) {
	t.Helper()
	if len(r) < 4 || r[0] != r[len(r)-1] {
		t.Errorf("%s: a ring of %d positions, closed: %v", s.class, len(r), r[0] == r[len(r)-1])
	}
	if outer := r.Orientation() == orb.CCW; outer != (i == 0) {
		t.Errorf("%s: ring %d at %v runs the wrong way", s.class, i, r[0])
	}
	if i > 0 && !(shape{rings: s.rings[:1], box: s.box}).holds(r[0]) {
		t.Errorf("%s: a hole at %v is outside its area", s.class, r[0])
	}
	for k := 1; k < len(r); k++ {
		if r[k] == r[k-1] {
			t.Errorf("%s: equal neighbours at %v", s.class, r[k])
		}
	}
}

// crosses reports whether two edges have a point in common that is not an end
// of both. Exact: positions are whole multiples of 10^-7 degrees.
func crosses(l, m orb.LineString) bool {
	a, b, c, d := spotOf(l[0]), spotOf(l[1]), spotOf(m[0]), spotOf(m[1])
	if a == c || a == d || b == c || b == d {
		return false
	}
	sign := func(v int64) int { return int(min(1, max(-1, v))) }
	return sign(turn(a, b, c))*sign(turn(a, b, d)) <= 0 && sign(turn(c, d, a))*sign(turn(c, d, b)) <= 0 &&
		l.Bound().Intersects(m.Bound())
}

// The promise of the chart: at 10 000 random positions, half of them within
// 5 m of the edge of an area, the stated least depth is never deeper than
// the bed, and the bed is within the stated band.
func TestChartIsNeverDeeperThanTheBed(t *testing.T) {
	areas := skin(t)
	rng := rand.New(rand.NewSource(20260718))
	b := demobed.Bounds()
	for i := range 10_000 {
		p := orb.Point{b.Min[0] + rng.Float64()*(b.Max[0]-b.Min[0]), b.Min[1] + rng.Float64()*(b.Max[1]-b.Min[1])}
		if i%2 == 0 {
			p = nearEdge(rng, areas)
		}
		if b.Contains(p) {
			checkPosition(t, areas, p)
		}
	}
}

// nearEdge picks a position within 5 m of a random edge, along its chord.
func nearEdge(rng *rand.Rand, areas []shape) orb.Point {
	s := areas[rng.Intn(len(areas))]
	r := s.rings[rng.Intn(len(s.rings))]
	k, f := 1+rng.Intn(len(r)-1), rng.Float64()
	x, y := demobed.Local(orb.Point{r[k-1][0] + f*(r[k][0]-r[k-1][0]), r[k-1][1] + f*(r[k][1]-r[k-1][1])})
	d, a := 5*rng.Float64()*rng.Float64(), 2*math.Pi*rng.Float64()
	return demobed.At(x+d*math.Cos(a), y+d*math.Sin(a))
}

func checkPosition(t *testing.T, areas []shape, p orb.Point) {
	t.Helper()
	z, found := demobed.DepthM(p), 0
	for _, s := range areas {
		if !s.holds(p) {
			continue
		}
		found++
		least, hasLeast := number(s.props, "DRVAL1")
		most, hasMost := number(s.props, "DRVAL2")
		switch {
		case s.class == "LNDARE" && z > -demobed.LandHeightM+2*marginM:
			t.Errorf("%v is charted as land, the bed is at %.3f m", p, z)
		case hasLeast && z < least:
			t.Errorf("%v is charted %.1f m, the bed is at %.3f m", p, least, z)
		case hasMost && z > most:
			t.Errorf("%v is charted up to %.1f m, the bed is at %.3f m", p, most, z)
		}
	}
	if found != 1 {
		t.Errorf("%v is in %d areas, want 1", p, found)
	}
}

// All along every contour and coastline, chords included, the bed is at the
// stated depth or up to twice the margin deeper.
func TestContoursAreOnTheSafeSide(t *testing.T) {
	check := func(l orb.LineString, stated float64) {
		for i := 1; i < len(l); i++ {
			for k := range 12 {
				f := float64(k) / 12
				p := orb.Point{l[i-1][0] + f*(l[i][0]-l[i-1][0]), l[i-1][1] + f*(l[i][1]-l[i-1][1])}
				if z := demobed.DepthM(p); z < stated || z > stated+2*marginM {
					t.Fatalf("the bed at %v on the %.0f m contour is at %.3f m", p, stated, z)
				}
			}
		}
	}
	ls, props := lines(t, layFolder, "DEPCNT.geojson")
	for i, l := range ls {
		value, ok := number(props[i], "VALDCO")
		if !ok {
			t.Fatalf("contour %d has no VALDCO", i)
		}
		check(l, value)
	}
	coast, _ := lines(t, layFolder, "COALNE.geojson")
	for _, l := range coast {
		check(l, -demobed.LandHeightM)
	}
}

// Soundings are rounded to decimetres towards shoaler.
func TestSoundingsAreRoundedTowardsShoaler(t *testing.T) {
	count := 0
	for _, f := range load(t, layFolder, "SOUNDG.geojson").Features {
		if f.Geometry.Type != "MultiPoint" {
			continue
		}
		var all [][3]float64
		unmarshal(t, f.Geometry.Coordinates, &all)
		count += len(all)
		for _, s := range all {
			z := demobed.DepthM(orb.Point{s[0], s[1]})
			if s[2] > z || s[2] < z-0.1-1e-9 {
				t.Errorf("sounding %.1f at %v, the bed is at %.3f m", s[2], s[:2], z)
			}
		}
	}
	if count < 150 {
		t.Errorf("%d soundings, want a chart full of them", count)
	}
}

// Each danger is charted where it is, no deeper than it is.
func TestDangersAreCharted(t *testing.T) {
	for _, h := range demobed.Hazards() {
		at, props := points(t, layFolder, h.Class+".geojson")
		found := false
		for i, p := range at {
			if spotOf(p) != spotOf(h.At) {
				continue
			}
			found = true
			value, stated := number(props[i], "VALSOU")
			if stated != h.Charted || stated && value > h.LeastM {
				t.Errorf("%s at %v: VALSOU %v (%v), least depth is %v", h.Class, p, value, stated, h.LeastM)
			}
		}
		if !found {
			t.Errorf("%s at %v is not charted", h.Class, h.At)
		}
	}
}

// IALA R1001, region A: port hand red can, starboard hand green cone; south
// cardinal yellow above black, west cardinal yellow with a black band;
// isolated danger black with a red band. S-57 codes: COLOUR 2 black, 3 red,
// 4 green, 6 yellow; BOYSHP 1 conical, 2 can; CATLAM 1 port, 2 starboard;
// CATCAM 3 south, 4 west.
func TestMarksFollowRegionA(t *testing.T) {
	colour := func(p map[string]any) string {
		var s []string
		for _, c := range p["COLOUR"].([]any) {
			s = append(s, c.(string))
		}
		return strings.Join(s, ",")
	}
	for _, class := range []string{"BOYLAT", "BCNLAT"} {
		_, props := points(t, layFolder, class+".geojson")
		for _, p := range props {
			side, _ := number(p, "CATLAM")
			shape, isBuoy := number(p, "BOYSHP")
			want := map[float64]string{1: "3", 2: "4"}[side]
			if colour(p) != want || isBuoy && shape != map[float64]float64{1: 2, 2: 1}[side] {
				t.Errorf("%s %v", class, p)
			}
		}
	}
	_, props := points(t, layFolder, "BOYCAR.geojson")
	for _, p := range props {
		side, _ := number(p, "CATCAM")
		if want := map[float64]string{3: "6,2", 4: "6,2,6"}[side]; colour(p) != want {
			t.Errorf("cardinal %v, want colours %s", p, want)
		}
	}
	if _, props = points(t, layFolder, "BOYISD.geojson"); colour(props[0]) != "2,3,2" {
		t.Errorf("isolated danger %v", props[0])
	}
}
