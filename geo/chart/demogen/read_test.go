package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart/demobed"
)

// The tests read the committed files with a reader of their own, so that
// they judge what a chart reader gets, not what the generator meant.

var (
	webFolder  = filepath.Join("..", "..", "..", "web", "demo")
	layFolder  = filepath.Join(webFolder, "chart")
	planFolder = filepath.Join("..", "..", "..", "testdata", "plans")
)

type readFeature struct {
	Type       string
	Properties map[string]any
	Geometry   *struct {
		Type        string
		Coordinates json.RawMessage
	}
}

type readFile struct {
	Type     string
	Name     string
	Layer    map[string]any
	Plan     json.RawMessage
	Features []readFeature
}

func load(t *testing.T, folder, name string) readFile {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatalf("%v; run make demo", err)
	}
	var f readFile
	if err := json.Unmarshal(b, &f); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return f
}

func layerNames(t *testing.T) []string {
	t.Helper()
	entries, err := os.ReadDir(layFolder)
	if err != nil {
		t.Fatalf("%v; run make demo", err)
	}
	var names []string
	for _, e := range entries {
		if n, ok := strings.CutSuffix(e.Name(), ".geojson"); ok && n != "plan" {
			names = append(names, n)
		}
	}
	return names
}

// shape is a polygon as read: rings of longitude, latitude.
type shape struct {
	class string
	props map[string]any
	rings []orb.Ring
	box   orb.Bound
}

func shapes(t *testing.T, class string) []shape {
	t.Helper()
	var out []shape
	for _, f := range load(t, layFolder, class+".geojson").Features {
		if f.Geometry == nil || f.Geometry.Type != "Polygon" {
			continue
		}
		s := shape{class: class, props: f.Properties}
		unmarshal(t, f.Geometry.Coordinates, &s.rings)
		s.box = s.rings[0].Bound()
		out = append(out, s)
	}
	return out
}

func lines(t *testing.T, folder, file string) (out []orb.LineString, props []map[string]any) {
	t.Helper()
	for _, f := range load(t, folder, file).Features {
		if f.Geometry != nil && f.Geometry.Type == "LineString" {
			var l orb.LineString
			unmarshal(t, f.Geometry.Coordinates, &l)
			out, props = append(out, l), append(props, f.Properties)
		}
	}
	return out, props
}

func points(t *testing.T, folder, file string) (out []orb.Point, props []map[string]any) {
	t.Helper()
	for _, f := range load(t, folder, file).Features {
		if f.Geometry != nil && f.Geometry.Type == "Point" {
			var p orb.Point
			unmarshal(t, f.Geometry.Coordinates, &p)
			out, props = append(out, p), append(props, f.Properties)
		}
	}
	return out, props
}

func unmarshal(t *testing.T, b []byte, into any) {
	t.Helper()
	if err := json.Unmarshal(b, into); err != nil {
		t.Fatal(err)
	}
}

// skin returns all group 1 areas: those that tile the coverage.
func skin(t *testing.T) []shape {
	t.Helper()
	var out []shape
	for _, class := range []string{"LNDARE", "DEPARE", "DRGARE", "UNSARE"} {
		out = append(out, shapes(t, class)...)
	}
	return out
}

// holds tells by ray crossing whether p is inside, even-odd over all rings.
func (s shape) holds(p orb.Point) bool {
	if !s.box.Contains(p) {
		return false
	}
	in := false
	for _, r := range s.rings {
		for i := 1; i < len(r); i++ {
			a, b := r[i-1], r[i]
			if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
				in = !in
			}
		}
	}
	return in
}

// squareDegrees is the area, holes taken off.
func (s shape) squareDegrees() float64 {
	total := 0.0
	for i, r := range s.rings {
		a, o := 0.0, r[0]
		for k := 1; k < len(r); k++ {
			a += (r[k-1][0]-o[0])*(r[k][1]-o[1]) - (r[k][0]-o[0])*(r[k-1][1]-o[1])
		}
		if a = math.Abs(a) / 2; i > 0 {
			a = -a
		}
		total += a
	}
	return total
}

func number(props map[string]any, key string) (float64, bool) {
	v, ok := props[key].(float64)
	return v, ok
}

func metresApart(p, q orb.Point) float64 {
	x0, y0 := demobed.Local(p)
	x1, y1 := demobed.Local(q)
	return math.Hypot(x1-x0, y1-y0)
}

// metresFromLeg is the distance of p from the leg a-b in the local plane.
func metresFromLeg(p, a, b orb.Point) float64 {
	return metresFromLine(spotOf(p), spotOf(a), spotOf(b))
}
