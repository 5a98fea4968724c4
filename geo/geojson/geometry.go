package geojson

import (
	"math"

	"github.com/paulmach/orb"
)

// The geometry types of RFC 7946 section 1.4.
const (
	Point              = "Point"
	MultiPoint         = "MultiPoint"
	LineString         = "LineString"
	MultiLineString    = "MultiLineString"
	Polygon            = "Polygon"
	MultiPolygon       = "MultiPolygon"
	GeometryCollection = "GeometryCollection"
)

// Geometry is a geometry decoded into flat slices. The zero value is the null
// geometry. Positions are as the document has them: no range is checked, rings
// are neither closed nor turned, and a LineString may hold none at all.
type Geometry struct {
	Type      string      // "" for null; of a GeometryCollection nothing else is filled
	Positions []orb.Point // longitude, latitude in the unit of the document
	Z         []float64   // third numbers, one a position, NaN where it has none; empty if none has one
	Ends      []int       // of each line or ring, the index in Positions after its last
	Polygons  []int       // of each polygon, the index in Ends after its last ring
}

// Reset makes g the null geometry and keeps its memory for the next one.
func (g *Geometry) Reset() {
	g.Type = ""
	g.Positions, g.Z, g.Ends, g.Polygons = g.Positions[:0], g.Z[:0], g.Ends[:0], g.Polygons[:0]
}

// Line returns the positions of line or ring i of Ends.
func (g *Geometry) Line(i int) []orb.Point {
	start := 0
	if i > 0 {
		start = g.Ends[i-1]
	}
	return g.Positions[start:g.Ends[i]:g.Ends[i]]
}

// LimitPositions sets how many positions the geometries of the document may
// hold in all; one more is a [*LimitError]. 0, the default, is no limit.
func (r *Reader) LimitPositions(n int) { r.maxPositions = n }

// PositionCount returns how many positions were decoded so far.
func (r *Reader) PositionCount() int { return r.positions }

// Geometry consumes a geometry object or null into g, whose memory it uses
// again. Its members may come in any order; those of no meaning are skipped. An
// unknown type, nesting that does not fit the type, a position of fewer than two
// numbers and a number that is not finite are a [*ValueError] whose path ends in
// the index of the position. Of a GeometryCollection only the type is decoded.
func (r *Reader) Geometry(g *Geometry) error {
	g.Reset()
	if r.in.kind() == Null {
		return r.Null()
	}
	var early Mark
	found := false
	err := r.Object(func(key string) (err error) {
		switch {
		case key == "type":
			g.Type, err = r.geometryType()
		case key == "coordinates" && g.Type == "":
			found = true
			early, err = r.Postpone()
		case key == "coordinates":
			found = true
			err = coordinateReader{r, &r.in, g}.coordinates()
		}
		return err
	})
	if err != nil {
		g.Reset()
		return err
	}
	if err := (coordinateReader{r, &r.in, g}).finish(found, early); err != nil {
		g.Reset()
		r.in.again()
		return err
	}
	return nil
}

func (r *Reader) geometryType() (string, error) {
	s, err := r.String()
	if err != nil {
		return "", err
	}
	switch s {
	case Point, MultiPoint, LineString, MultiLineString, Polygon, MultiPolygon, GeometryCollection:
		return s, nil
	}
	r.in.again()
	return "", r.in.wrong("%s; a geometry type such as Point, LineString or Polygon is wanted", r.in.found(r.in.at))
}

// padZ fills up Z for positions that have no third number.
func (g *Geometry) padZ(n int) {
	for len(g.Z) < n {
		g.Z = append(g.Z, math.NaN())
	}
}
