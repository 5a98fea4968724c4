package layer

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/geojson"
)

var primOf = map[string]chart.Prim{
	"": chart.None, geojson.Point: chart.Point, geojson.MultiPoint: chart.Point,
	geojson.LineString: chart.Line, geojson.MultiLineString: chart.Line,
	geojson.Polygon: chart.Area, geojson.MultiPolygon: chart.Area,
}

// geometry reads the geometry of the feature in hand. What is no geometry is a
// feature error; positions that are no longitude and latitude refuse the file.
func (d *decoder) geometry() error {
	d.polygons = d.polygons[:0]
	err := d.in.Geometry(&d.shape)
	var value *geojson.ValueError
	switch {
	case errors.As(err, &value):
		found, wanted := splitText(value.Msg)
		d.feature.fail("E-GEOM", d.from.join(value.Path), found, wanted)
		return nil
	case err != nil:
		return err
	case d.shape.Type == geojson.GeometryCollection:
		d.feature.fail("E-GEOM", d.feature.where(""), "a GeometryCollection", "one geometry; Multi types are fine")
		return nil
	}
	d.coords, d.ends = d.coords[:0], d.ends[:0]
	for i, p := range d.shape.Positions {
		if !(math.Abs(p[0]) <= 180 && math.Abs(p[1]) <= 90) {
			return d.outside(i, p)
		}
		d.coords = append(d.coords, chart.CoordOf(p))
	}
	for _, end := range d.shape.Ends {
		d.ends = append(d.ends, int32(end))
	}
	for _, end := range d.shape.Polygons {
		d.polygons = append(d.polygons, int32(end))
	}
	d.feature.geometry = chart.Geometry{
		Prim: primOf[d.shape.Type], Coords: d.coords, Ends: d.ends, DepthsM: d.shape.Z,
	}
	return nil
}

// outside is the error of a position that is not on the globe.
func (d *decoder) outside(i int, p orb.Point) error {
	found := fmt.Sprintf("%g, %g", p[0], p[1])
	if math.Abs(p[0]) > 360 || math.Abs(p[1]) > 360 {
		found += ", which looks like metres of a map projection"
	}
	path := strings.TrimPrefix(d.feature.where(""), d.from.root+".") + ".coordinates" + positionPath(&d.shape, i)
	return d.from.refuse("E-COORD", path, found, "longitude within 180 and latitude within 90 degrees")
}

// positionPath is the indices of position i in the coordinates of the geometry.
func positionPath(g *geojson.Geometry, i int) string {
	part, start := 0, 0
	for part < len(g.Ends) && i >= g.Ends[part] {
		start = g.Ends[part]
		part++
	}
	switch g.Type {
	case geojson.Point:
		return ""
	case geojson.MultiPoint, geojson.LineString:
		return fmt.Sprintf("[%d]", i)
	case geojson.MultiPolygon:
		polygon, first := 0, 0
		for polygon < len(g.Polygons) && part >= g.Polygons[polygon] {
			first = g.Polygons[polygon]
			polygon++
		}
		return fmt.Sprintf("[%d][%d][%d]", polygon, part-first, i-start)
	}
	return fmt.Sprintf("[%d][%d]", part, i-start)
}
