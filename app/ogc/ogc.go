package ogc

import (
	"encoding/json"
	"fmt"
	"math"
	"path"
	"strings"
	"time"

	"github.com/twpayne/go-geom"
	"github.com/twpayne/go-geom/encoding/geojson"
	"github.com/twpayne/go-geom/encoding/wkt"

	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// Format is a form in which geometries are written.
type Format uint8

// The formats.
const (
	WKT Format = iota
	GeoJSON
)

// FormatOf is the format that a file's name asks for.
func FormatOf(name string) (Format, error) {
	switch strings.ToLower(path.Ext(name)) {
	case ".wkt":
		return WKT, nil
	case ".geojson", ".json":
		return GeoJSON, nil
	}
	return 0, fmt.Errorf("%s: the format is not known; a name that ends in .wkt or .geojson is wanted", name)
}

// item is a geometry with what is known of it.
type item struct {
	geometry   geom.T
	properties map[string]any
}

// Track writes the timed track of a plan, its times in the zone.
func Track(t *passage.Track, title string, zone *time.Location, f Format) ([]byte, error) {
	line := t.Timed()
	round(line)
	times := make([]string, line.NumCoords())
	for i := range times {
		times[i] = time.UnixMilli(int64(math.Round(line.Coord(i)[2] * 1000))).In(zone).Format("2006-01-02T15:04:05.000Z07:00")
	}
	return encode(f, item{line, map[string]any{"title": title, "times": times}})
}

// Soundings writes the soundings of charts, a chart without any left out. unknown is how
// many are of unknown depth, which are left out too.
func Soundings(sets []*chart.Set, f Format) (b []byte, unknown int, err error) {
	var items []item
	for _, s := range sets {
		var flat []float64
		for i := range s.Features {
			more, without := depthsOf(&s.Features[i])
			flat, unknown = append(flat, more...), unknown+without
		}
		if len(flat) > 0 {
			points := geom.NewMultiPointFlat(geom.XYZ, flat)
			round(points)
			items = append(items, item{points, map[string]any{"chart": s.Title, "sounding_datum": words.English.Datum(s.SoundingDatum)}})
		}
	}
	b, err = encode(f, items...)
	return b, unknown, err
}

// depthsOf are the positions and depths of a feature that is soundings, and how many of
// them are of unknown depth.
func depthsOf(f *chart.Feature) (flat []float64, unknown int) {
	if f.Class != chart.SOUNDG {
		return nil, 0
	}
	for i, c := range f.Coords {
		if i >= len(f.DepthsM) || !chart.Known(f.DepthsM[i]) {
			unknown++
			continue
		}
		p := c.Position()
		flat = append(flat, p.Lon(), p.Lat(), f.DepthsM[i])
	}
	return flat, unknown
}

func encode(f Format, items ...item) ([]byte, error) {
	if f == WKT {
		return encodeText(items)
	}
	return encodeGeoJSON(items)
}

func encodeText(items []item) (b []byte, err error) {
	for _, i := range items {
		text, err := wkt.Marshal(i.geometry)
		if err != nil {
			return nil, err
		}
		b = append(append(b, text...), '\n')
	}
	return b, nil
}

func encodeGeoJSON(items []item) ([]byte, error) {
	c := geojson.FeatureCollection{Features: []*geojson.Feature{}}
	for _, i := range items {
		i.properties["cautions"] = plan.StandingCautions()
		c.Features = append(c.Features, &geojson.Feature{Geometry: withoutMeasure(i.geometry), Properties: i.properties})
	}
	b, err := json.Marshal(&c)
	if err != nil {
		return nil, err
	}
	return append(b, '\n'), nil
}

// withoutMeasure is a line without its measures, which GeoJSON would take for heights.
func withoutMeasure(g geom.T) geom.T {
	line, ok := g.(*geom.LineString)
	if !ok {
		return g
	}
	flat := make([]float64, 0, 2*line.NumCoords())
	for i := range line.NumCoords() {
		flat = append(flat, line.Coord(i)[:2]...)
	}
	return geom.NewLineStringFlat(geom.XY, flat)
}

// round brings the positions of a geometry to 7 decimals, a centimetre: more would say
// that the track is known better.
func round(g geom.T) {
	const e7 = 1e7
	flat, stride := g.FlatCoords(), g.Stride()
	for i := 0; i < len(flat); i += stride {
		flat[i], flat[i+1] = math.Round(flat[i]*e7)/e7, math.Round(flat[i+1]*e7)/e7
	}
}
