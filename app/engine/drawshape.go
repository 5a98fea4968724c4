package engine

import (
	"strconv"

	"keelroom/geo/chart"
)

// shape writes a geometry.
func (p *pen) shape(g *chart.Geometry) {
	switch {
	case g.Prim == chart.Point && len(g.Coords) == 1:
		p.geometry("Point")
		p.position(g.Coords[0])
	case g.Prim == chart.Point:
		p.geometry("MultiPoint")
		p.line(g.Coords)
	case g.Prim == chart.Line && len(g.Ends) == 1:
		p.geometry("LineString")
		p.line(g.Coords)
	case g.Prim == chart.Line:
		p.geometry("MultiLineString")
		p.parts(g, 0, len(g.Ends))
	case len(g.Polygons) < 2:
		p.geometry("Polygon")
		p.parts(g, 0, len(g.Ends))
	default:
		p.geometry("MultiPolygon")
		p.polygons(g)
	}
}

// polygons writes an area of several polygons.
func (p *pen) polygons(g *chart.Geometry) {
	from := int32(0)
	for i, to := range g.Polygons {
		p.separate('[', i)
		p.parts(g, int(from), int(to))
		from = to
	}
	p.out = append(p.out, ']')
}

// parts writes lines or rings from one to before another.
func (p *pen) parts(g *chart.Geometry, from, to int) {
	start := int32(0)
	if from > 0 {
		start = g.Ends[from-1]
	}
	for i, end := range g.Ends[from:to] {
		p.separate('[', i)
		p.line(g.Coords[start:end])
		start = end
	}
	p.out = append(p.out, ']')
}

func (p *pen) line(coords []chart.Coord) {
	for i, c := range coords {
		p.separate('[', i)
		p.position(c)
	}
	p.out = append(p.out, ']')
}

// separate writes what comes before item i of a list.
func (p *pen) separate(open byte, i int) {
	if i > 0 {
		open = ','
	}
	p.out = append(p.out, open)
}

func (p *pen) position(c chart.Coord) {
	p.out = append(p.out, '[')
	p.out = append(appendDegrees(p.out, c.Lon), ',')
	p.out = append(appendDegrees(p.out, c.Lat), ']')
}

// appendDegrees writes ten-millionths of a degree as degrees, exactly.
func appendDegrees(out []byte, e7 int32) []byte {
	v := int64(e7)
	if v < 0 {
		out = append(out, '-')
		v = -v
	}
	out = strconv.AppendInt(out, v/10_000_000, 10)
	rest := v % 10_000_000
	if rest == 0 {
		return out
	}
	var digits [8]byte
	digits[0] = '.'
	for i := 7; i > 0; i-- {
		digits[i] = byte('0' + rest%10)
		rest /= 10
	}
	n := len(digits)
	for digits[n-1] == '0' {
		n--
	}
	return append(out, digits[:n]...)
}
