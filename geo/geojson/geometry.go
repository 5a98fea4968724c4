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
	if r.Kind() == Null {
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
			err = r.coordinates(g)
		}
		return err
	})
	if err != nil {
		g.Reset()
		return err
	}
	if err := r.finishGeometry(g, found, early); err != nil {
		g.Reset()
		r.again()
		return err
	}
	return nil
}

// finishGeometry decodes coordinates that came before the type, and refuses a
// geometry that lacks either.
func (r *Reader) finishGeometry(g *Geometry, found bool, early Mark) error {
	switch {
	case g.Type == "":
		return r.Err("a geometry without type; Point, LineString, Polygon or the like is wanted")
	case g.Type == GeometryCollection:
		return nil
	case !found:
		return r.Err("a %s without coordinates; they are wanted", g.Type)
	case early.path != nil:
		return r.Revisit(early, func() error { return r.coordinates(g) })
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
	r.again()
	return "", r.Err("%s; a geometry type such as Point, LineString or Polygon is wanted", r.found(r.at))
}

// coordinates decodes the coordinates of a geometry of type g.Type.
func (r *Reader) coordinates(g *Geometry) (err error) {
	switch g.Type {
	case Point:
		err = r.position(g)
	case MultiPoint:
		err = r.positionList(g)
	case LineString:
		err = r.line(g)
	case MultiLineString:
		err = r.Array(func(int) error { return r.line(g) })
	case Polygon:
		err = r.polygon(g)
	case MultiPolygon:
		err = r.Array(func(int) error { return r.polygon(g) })
	}
	if len(g.Z) > 0 {
		g.padZ(len(g.Positions))
	}
	return err
}

func (r *Reader) polygon(g *Geometry) error {
	err := r.Array(func(int) error { return r.line(g) })
	g.Polygons = append(g.Polygons, len(g.Ends))
	return err
}

func (r *Reader) line(g *Geometry) error {
	err := r.positionList(g)
	g.Ends = append(g.Ends, len(g.Positions))
	return err
}

// positionList decodes an array of positions. It does what Array would do with
// position, without a call through a function value for each.
func (r *Reader) positionList(g *Geometry) error {
	start, err := r.open(Array)
	if err != nil {
		return err
	}
	steps := len(r.path)
	if !r.ends(']') {
		r.push(step{"", 0})
		err = r.positionItems(g, &r.path[steps].index)
	}
	r.path = r.path[:steps]
	return r.leave(start, err)
}

func (r *Reader) positionItems(g *Geometry, index *int) error {
	for {
		if err := r.position(g); err != nil {
			return err
		}
		if r.pos < len(r.src) && r.src[r.pos] == ',' {
			if next := skipSpace(r.src, r.pos+1); next < len(r.src) && r.src[next] == '[' {
				r.pos = next
				*index++
				continue
			}
		}
		if more, err := r.more(']'); !more {
			return err
		}
		*index++
	}
}

// position decodes one position.
func (r *Reader) position(g *Geometry) error {
	if r.maxPositions > 0 && r.positions >= r.maxPositions {
		return r.limit("more than %d positions; fewer are wanted", r.maxPositions)
	}
	p, z, count, end := scanPosition(r.src, r.pos)
	if count == 0 || r.depth >= MaxDepth {
		return r.slowPosition(g)
	}
	r.pos = end
	r.addPosition(g, p, z, count)
	return nil
}

func (r *Reader) addPosition(g *Geometry, p orb.Point, z float64, count int) {
	if count > 2 {
		g.padZ(len(g.Positions))
		g.Z = append(g.Z, z)
	}
	g.Positions = append(g.Positions, p)
	r.positions++
}

// padZ fills up Z for positions that have no third number.
func (g *Geometry) padZ(n int) {
	for len(g.Z) < n {
		g.Z = append(g.Z, math.NaN())
	}
}

// scanPosition reads a position of two or three numbers at i and returns how
// many it has and where it ends; count is 0 where anything else stands there,
// right or wrong.
func scanPosition(b []byte, i int) (p orb.Point, z float64, count, end int) {
	var n [3]float64
	if i >= len(b) || b[i] != '[' {
		return p, 0, 0, i
	}
	for count < 3 {
		v, next, ok := scanFloat(b, skipSpace(b, i+1))
		if !ok {
			return p, 0, 0, i
		}
		n[count] = v
		count++
		i = skipSpace(b, next)
		switch {
		case i >= len(b):
			return p, 0, 0, i
		case b[i] == ']' && count > 1:
			return orb.Point{n[0], n[1]}, n[2], count, i + 1
		case b[i] != ',':
			return p, 0, 0, i
		}
	}
	return p, 0, 0, i
}

// slowPosition decodes a position of more than three numbers, or says what is
// wrong with it.
func (r *Reader) slowPosition(g *Geometry) error {
	var n [3]float64
	count := 0
	if k := r.Kind(); k != Array && k != Invalid {
		r.stand()
		return r.Err("%s in a %s; a position [longitude, latitude] is wanted", r.found(r.pos), g.Type)
	}
	err := r.Array(func(i int) error {
		v, err := r.Number()
		if i < 3 {
			n[i] = v
		}
		count++
		return err
	})
	if err != nil {
		return err
	}
	if count < 2 {
		r.again()
		return r.Err("a position of %d numbers; [longitude, latitude] is wanted", count)
	}
	r.addPosition(g, orb.Point{n[0], n[1]}, n[2], count)
	return nil
}
