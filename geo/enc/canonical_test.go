package enc

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// A feature written so that two readers of a cell must write the same: the
// identity, every attribute that has a value, sorted, and the vertices in 1e-7
// degrees. Rings begin at their least vertex and turn the way that comes first
// in the order of vertices, since converters turn rings as they like; equal
// neighbours are dropped.

// canonicalGeometry writes a geometry. depths, in tenths of a metre, are for
// soundings.
func canonicalGeometry(prim chart.Prim, parts [][]chart.Coord, depths []float64) string {
	var out []string
	for _, p := range parts {
		p = withoutTwins(p)
		if prim == chart.Area {
			p = canonicalRing(p)
		}
		var s strings.Builder
		for _, c := range p {
			fmt.Fprintf(&s, "%d,%d ", c.Lon, c.Lat)
		}
		out = append(out, s.String())
	}
	if prim == chart.Area {
		slices.Sort(out)
	}
	for _, d := range depths {
		out = append(out, fmt.Sprintf("%.3f", d))
	}
	return prim.String() + " " + strings.Join(out, "/ ")
}

func withoutTwins(p []chart.Coord) (out []chart.Coord) {
	for i, c := range p {
		if i == 0 || c != p[i-1] {
			out = append(out, c)
		}
	}
	return out
}

// canonicalRing turns a closed ring and leaves its last vertex out.
func canonicalRing(ring []chart.Coord) []chart.Coord {
	open := ring[:len(ring)-1]
	best := turned(open)
	back := slices.Clone(open)
	slices.Reverse(back)
	if other := turned(back); slices.CompareFunc(other, best, compareCoords) < 0 {
		best = other
	}
	return best
}

// turned begins a ring at its least vertex; of several at one place, at the one
// that makes the ring come first.
func turned(open []chart.Coord) (best []chart.Coord) {
	least := slices.MinFunc(open, compareCoords)
	for i, c := range open {
		if c != least {
			continue
		}
		r := append(slices.Clone(open[i:]), open[:i]...)
		if best == nil || slices.CompareFunc(r, best, compareCoords) < 0 {
			best = r
		}
	}
	return best
}

func compareCoords(a, b chart.Coord) int {
	if a.Lon != b.Lon {
		return int(math.Copysign(1, float64(a.Lon)-float64(b.Lon)))
	}
	return int(a.Lat) - int(b.Lat)
}

// canonicalRecords writes the features of a model, a sounding record once for
// each sounding, as converters give them.
func canonicalRecords(t testing.TB, m *model) (lines []string) {
	t.Helper()
	s := newShaper(m, 1<<30)
	m.features.each(func(r *featureRecord) uint32 { return r.id }, func(r *featureRecord) {
		if err := s.shape(r); err != nil {
			t.Fatalf("feature %d: %v", r.id, err)
		}
		head := fmt.Sprintf("%s %d %d %d %d %d", r.key(), r.id, r.prim, r.group, r.class, r.version) +
			relations(r.related) + " " + strings.Join(valuesOf(r), "|") + " "
		g := &s.geometry
		if r.class == uint16(chart.SOUNDG) {
			for i := range g.Coords {
				lines = append(lines, head+canonicalGeometry(g.Prim, [][]chart.Coord{g.Coords[i : i+1]}, g.DepthsM[i:i+1]))
			}
			return
		}
		lines = append(lines, head+canonicalGeometry(g.Prim, partsOf(g), nil))
	})
	slices.Sort(lines)
	return lines
}

func partsOf(g *chart.Geometry) (parts [][]chart.Coord) {
	if g.Prim == chart.Point {
		return [][]chart.Coord{g.Coords}
	}
	g.Parts(func(p []chart.Coord) { parts = append(parts, p) })
	return parts
}

// relations writes LNAM_REFS and FFPT_RIND.
func relations(b []byte) (out string) {
	for len(b) > 0 {
		out += fmt.Sprintf(" %04X%08X%04X:%d", binary.LittleEndian.Uint16(b), binary.LittleEndian.Uint32(b[2:]), binary.LittleEndian.Uint16(b[6:]), b[8])
		b = b[relationSize(b):]
	}
	return out
}

// valuesOf writes the attributes that have a value.
func valuesOf(r *featureRecord) (out []string) {
	add := func(code uint16, value []byte) {
		a, ok := knownAttributes[code]
		if text := canonicalValue(a.kind, latin(string(value))); ok && text != "" {
			out = append(out, a.name+"="+text)
		}
	}
	eachText(r.attributes, 1, add)
	eachText(r.national, 1, add)
	slices.Sort(out)
	return out
}

// canonicalValue writes a value by the type of its attribute. Empty items of a
// list say nothing and are dropped.
func canonicalValue(kind, text string) string {
	switch kind {
	case "E", "I", "F":
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil {
			return ""
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	case "L":
		return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ',' }), ",")
	}
	return text
}

// canonicalFeatures writes chart features, all that checks and the chart view
// go by. Left out are Index and File, which name the place in a file, and
// Border, which GeoJSON cannot say.
func canonicalFeatures(features []chart.Feature) (lines []string) {
	for i := range features {
		f := &features[i]
		lines = append(lines, fmt.Sprintf("%s %s %q %q %v %v %d %v %d %s %v %v %s",
			f.Class, f.Key, f.Name, f.Info, f.DepthMinM, f.DepthMaxM, f.Datum, f.Doubtful, f.ScaMin,
			canonicalGroups(f), f.NatSur.List(), f.Polygons, canonicalGeometry(f.Prim, partsOf(&f.Geometry), f.DepthsM)))
	}
	slices.Sort(lines)
	return lines
}

func canonicalGroups(f *chart.Feature) string {
	var out []string
	if f.Danger != nil {
		out = append(out, fmt.Sprintf("danger %+v", *f.Danger))
	}
	if f.Rules != nil {
		out = append(out, fmt.Sprintf("rules %+v", *f.Rules))
	}
	if f.Overhead != nil {
		out = append(out, fmt.Sprintf("overhead %+v", *f.Overhead))
	}
	if f.Mark != nil {
		out = append(out, fmt.Sprintf("mark %+v", *f.Mark))
	}
	if f.Meta != nil {
		out = append(out, fmt.Sprintf("meta %+v", *f.Meta))
	}
	return strings.Join(out, " ")
}

// digest is a hash of lines, with their number.
func digest(lines []string) string {
	sum := sha256.Sum256([]byte(strings.Join(lines, "\n")))
	return fmt.Sprintf("%d %s", len(lines), hex.EncodeToString(sum[:]))
}

// sameLines compares two lists of lines and shows the first that differ.
func sameLines(t testing.TB, what string, got, want []string) {
	t.Helper()
	if slices.Equal(got, want) {
		return
	}
	t.Errorf("%s: %d lines, want %d", what, len(got), len(want))
	onlyIn(t, "ours alone", got, want)
	onlyIn(t, "wanted", want, got)
}

func onlyIn(t testing.TB, name string, a, b []string) {
	t.Helper()
	seen := map[string]int{}
	for _, l := range b {
		seen[l]++
	}
	shown := 0
	for _, l := range a {
		if seen[l]--; seen[l] < 0 && shown < 3 {
			t.Logf("%s: %.600s", name, l)
			shown++
		}
	}
}
