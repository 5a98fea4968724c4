// Package waters invents charts of any size for benchmarks: a surface tiled by depth
// areas that share their winding edges vertex for vertex, with a contour and soundings
// in each. Whatever the size, a mile of it is as dense as any other, some three hundred
// positions a square mile, so that a leg meets as much on a large chart as on a small
// one. All of it follows from the seed.
package waters

import (
	"math"
	"math/rand/v2"
	"strconv"

	"github.com/paulmach/orb"

	"keelroom/geo/layer"
)

// What a tile, a square of about a mile, has.
const (
	tileDeg    = 1.0 / 60
	edgeParts  = 60
	ringParts  = 60
	spots      = 20
	perTile    = 4*edgeParts + 1 + ringParts + 1 + spots
	south      = 41.0
	west       = -30.0
	seed       = 0x5eab
	units      = 1e7
	windingDeg = tileDeg / 20
)

// Side is how many tiles wide and high a chart of about so many positions is.
func Side(positions int) int { return max(2, int(math.Round(math.Sqrt(float64(positions)/perTile)))) }

// At is the place so many tiles east and north of a chart's south-west corner.
func At(east, north float64) orb.Point {
	return orb.Point{west + east*tileDeg, south + north*tileDeg}
}

// Files are the layers of the tiles from one column and row on, so many each way.
func Files(column, row, columns, rows int) []layer.File {
	w := &writer{column: column, row: row, columns: columns, rows: rows}
	return []layer.File{
		{Name: "M_COVR.geojson", Data: w.file(w.cover)},
		{Name: "DEPARE.geojson", Data: w.file(w.areas)},
		{Name: "DEPCNT.geojson", Data: w.file(w.contours)},
		{Name: "SOUNDG.geojson", Data: w.file(w.soundings)},
	}
}

type writer struct {
	column, row, columns, rows int
	out                        []byte
	features                   int
}

func (w *writer) file(fill func()) []byte {
	w.out, w.features = append([]byte(nil), `{"type":"FeatureCollection","features":[`...), 0
	fill()
	return append(w.out, "\n]}\n"...)
}

// feature writes one, up to where its positions begin; the caller writes those.
func (w *writer) feature(properties, kind string) {
	if w.features++; w.features > 1 {
		w.out = append(w.out, ',')
	}
	w.out = append(append(append(append(append(w.out, "\n{\"type\":\"Feature\",\"properties\":{"...), properties...),
		`},"geometry":{"type":"`...), kind...), `","coordinates":`...)
}

func (w *writer) end() { w.out = append(w.out, "}}"...) }

// vertex is a position in units of 1e-7 degrees: shared edges share it exactly.
type vertex [2]int64

func (w *writer) position(v vertex, more ...float64) {
	w.out = append(w.out, '[')
	w.out = strconv.AppendFloat(w.out, float64(v[0])/units, 'f', 7, 64)
	w.out = append(w.out, ',')
	w.out = strconv.AppendFloat(w.out, float64(v[1])/units, 'f', 7, 64)
	for _, m := range more {
		w.out = append(w.out, ',')
		w.out = strconv.AppendFloat(w.out, m, 'f', 1, 64)
	}
	w.out = append(w.out, ']')
}

func (w *writer) line(vs []vertex) {
	w.out = append(w.out, '[')
	for i, v := range vs {
		if i > 0 {
			w.out = append(w.out, ',')
		}
		w.position(v)
	}
	w.out = append(w.out, ']')
}

func (w *writer) eachTile(fn func(i, j int)) {
	for j := w.row; j < w.row+w.rows; j++ {
		for i := w.column; i < w.column+w.columns; i++ {
			fn(i, j)
		}
	}
}

func (w *writer) cover() {
	w.feature(`"CATCOV":1`, "Polygon")
	a, b := corner(w.column, w.row), corner(w.column+w.columns, w.row+w.rows)
	w.out = append(w.out, '[')
	w.line([]vertex{a, {b[0], a[1]}, b, {a[0], b[1]}, a})
	w.out = append(w.out, ']')
	w.end()
}

func (w *writer) areas() {
	w.eachTile(func(i, j int) {
		depth := depthOf(i, j)
		w.feature(`"DRVAL1":`+number(depth)+`,"DRVAL2":`+number(2*depth), "Polygon")
		w.out = append(w.out, '[')
		w.line(w.ring(i, j))
		w.out = append(w.out, ']')
		w.end()
	})
}

func (w *writer) contours() {
	w.eachTile(func(i, j int) {
		r := random(i, j, 3)
		w.feature(`"VALDCO":`+number(depthOf(i, j)), "LineString")
		ring := make([]vertex, 0, ringParts+1)
		for k := range ringParts {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / ringParts)
			far := tileDeg * (0.2 + 0.05*r.Float64())
			ring = append(ring, vertexAt(float64(i)+0.5+far*cos/tileDeg, float64(j)+0.5+far*sin/tileDeg))
		}
		w.line(append(ring, ring[0]))
		w.end()
	})
}

func (w *writer) soundings() {
	w.eachTile(func(i, j int) {
		r := random(i, j, 4)
		for range spots {
			depth := depthOf(i, j) * (1 + r.Float64())
			w.feature(`"DEPTH":`+number(depth), "Point")
			w.position(vertexAt(float64(i)+0.1+0.8*r.Float64(), float64(j)+0.1+0.8*r.Float64()), depth)
			w.end()
		}
	})
}

// ring is the boundary of a tile, anticlockwise.
func (w *writer) ring(i, j int) []vertex {
	var out []vertex
	forth := func(e []vertex) { out = append(out, e[:len(e)-1]...) }
	back := func(e []vertex) {
		for k := len(e) - 1; k > 0; k-- {
			out = append(out, e[k])
		}
	}
	forth(w.edge(i, j, 1, 0))
	forth(w.edge(i+1, j, 0, 1))
	back(w.edge(i, j+1, 1, 0))
	back(w.edge(i, j, 0, 1))
	return append(out, out[0])
}

// edge winds from a corner to the next one east or north. The border is straight, as
// the coverage is.
func (w *writer) edge(i, j, east, north int) []vertex {
	r := random(i, j, uint64(east))
	border := east == 1 && (j == w.row || j == w.row+w.rows) || north == 1 && (i == w.column || i == w.column+w.columns)
	out := []vertex{corner(i, j)}
	for k := 1; k < edgeParts; k++ {
		f, off := float64(k)/edgeParts, windingDeg/tileDeg*(r.Float64()-0.5)
		if border {
			off = 0
		}
		out = append(out, vertexAt(float64(i)+f*float64(east)+off*float64(north), float64(j)+f*float64(north)+off*float64(east)))
	}
	return append(out, corner(i+east, j+north))
}

func corner(i, j int) vertex { return vertexAt(float64(i), float64(j)) }

func vertexAt(east, north float64) vertex {
	p := At(east, north)
	return vertex{int64(math.Round(p[0] * units)), int64(math.Round(p[1] * units))}
}

// depthOf is the least depth of a tile, metres: deep enough for a small boat, and here
// and there only just.
func depthOf(i, j int) float64 { return [...]float64{3.6, 5.4, 9.1, 18.2}[random(i, j, 5).IntN(4)] }

func random(i, j int, what uint64) *rand.Rand {
	return rand.New(rand.NewPCG(seed+what, uint64(i)<<32|uint64(j)))
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
