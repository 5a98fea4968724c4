package engine

import (
	"strconv"

	"keelroom/geo/chart"
	"keelroom/geo/geojson"
)

// Draw writes a layer set for a chart view: RFC 7946 GeoJSON with, in the
// properties of each feature, what decides its look and no more. Members are
// there only where the chart states them.
//
//   - c is the S-57 acronym of the class, "" without one; n the name; i its place
//     in its file; info the INFORM text; own is true in a private set.
//   - A sounding is a Point for each depth, d.
//   - DRVAL1, DRVAL2 of depth areas, VALDCO of contours, VALSOU of dangers;
//     SCAMIN; WATLEV, CATOBS, CATWRK; CATLAM, CATCAM, COLOUR (in order), shape
//     (BOYSHP or BCNSHP); RESTRN, CATREA; speed is true for a speed zone,
//     limit_kn the lowest limit it states; VERCLR, VERCCL, VERCSA, HORCLR;
//     CATCOV, CATZOC, ORIENT. Values as in S-57, metres and degrees.
//   - bed is the nature of the sea bed (NATSUR), light the character of a light,
//     each as abbreviated on international charts.
//   - edge lists the runs of vertices that lie on the limit of the data and are
//     not stroked: pairs of the first and the last of a run, counted through all
//     rings or parts (chart.Geometry.Border).
//   - c REFUSED is the box of a feature that was left out, whose water is
//     unknown: n is the acronym it had, info the code of the message. One
//     without a place has the box of the whole set.
//
// The member set is {id, title, authority, scale, bounds}. Positions are those
// of the file, 7 decimals, as long as the set was in no chart yet (package chart
// cuts long edges). between is called after every feature; it may be nil.
//
// The drawing comes in pieces, to be joined: for all of a large one at once there may be
// no room.
func Draw(id string, s *chart.Set, between func()) []string {
	if between == nil {
		between = func() {}
	}
	p := &pen{set: s}
	p.out = append(p.out, `{"type":"FeatureCollection","set":{"id":`...)
	p.out = geojson.AppendText(p.out, id)
	p.out = append(p.out, `,"title":`...)
	p.out = geojson.AppendText(p.out, s.Title)
	p.out = append(p.out, `,"authority":"`+s.Authority.String()+`","scale":`...)
	p.out = strconv.AppendInt(p.out, int64(s.Scale), 10)
	bounds := boundsOf(s)
	p.out = append(p.out, `,"bounds":`...)
	p.bounds(bounds)
	p.out = append(p.out, `},"features":[`...)
	for i := range s.Features {
		p.feature(&s.Features[i])
		between()
	}
	for i := range s.Refused {
		p.refused(&s.Refused[i], bounds)
		between()
	}
	p.out = append(p.out, "\n]}"...)
	return append(p.pieces, string(p.out))
}

// pen writes a drawing.
type pen struct {
	set    *chart.Set
	pieces []string
	out    []byte // the next piece
	drawn  bool   // a feature was written
}

func (p *pen) bounds(b *[4]float64) {
	if b == nil {
		p.out = append(p.out, "null"...)
		return
	}
	for i, v := range b {
		p.out = append(p.out, "[,,,"[i])
		p.out = appendDegrees(p.out, chart.CoordOf([2]float64{v, v}).Lon)
	}
	p.out = append(p.out, ']')
}

// feature writes a feature of the set, a sounding for each of its depths.
func (p *pen) feature(f *chart.Feature) {
	switch {
	case len(f.Coords) == 0 || f.Prim == chart.None:
	case f.Class == chart.SOUNDG && len(f.DepthsM) == len(f.Coords):
		for i, c := range f.Coords {
			p.begin(f.Class.Acronym())
			p.about(f)
			p.metres("d", f.DepthsM[i])
			p.geometry("Point")
			p.position(c)
			p.end()
		}
	default:
		p.begin(f.Class.Acronym())
		p.about(f)
		p.properties(f)
		p.edge(f.Border)
		p.shape(&f.Geometry)
		p.end()
	}
}

func (p *pen) begin(class string) {
	if p.drawn {
		p.out = append(p.out, ',')
	}
	p.drawn = true
	p.out = append(p.out, "\n"+`{"type":"Feature","properties":{"c":`...)
	p.out = geojson.AppendText(p.out, class)
}

// geometry ends the properties and begins the geometry.
func (p *pen) geometry(kind string) {
	p.out = append(p.out, `},"geometry":{"type":"`...)
	p.out = append(p.out, kind...)
	p.out = append(p.out, `","coordinates":`...)
}

func (p *pen) end() {
	const enough = 1 << 18
	if p.out = append(p.out, "}}"...); len(p.out) >= enough {
		p.pieces = append(p.pieces, string(p.out))
		p.out = p.out[:0]
	}
}

// refused writes a box of unknown water.
func (p *pen) refused(r *chart.Refused, whole *[4]float64) {
	lo, hi := r.Min, r.Max
	if r.Boxless {
		if whole == nil {
			return
		}
		lo, hi = chart.CoordOf([2]float64{whole[0], whole[1]}), chart.CoordOf([2]float64{whole[2], whole[3]})
	}
	p.begin("REFUSED")
	p.text("n", r.Class.Acronym())
	p.number("i", r.Index)
	p.text("info", r.Code)
	p.own()
	p.geometry("Polygon")
	p.out = append(p.out, '[')
	p.line([]chart.Coord{lo, {Lon: hi.Lon, Lat: lo.Lat}, hi, {Lon: lo.Lon, Lat: hi.Lat}, lo})
	p.out = append(p.out, ']')
	p.end()
}
