package plan

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
)

// origin is what a feature was when it was read.
type origin struct {
	unplaced   bool // its geometry could not be read
	rank       int  // its place among the features, from 1; 0: it was not read
	feature    kept
	geometry   kept
	properties kept
}

func (o *origin) members() *kept  { return &o.properties }
func (o *origin) source() *origin { return o }

// located is a feature of the plan that is not private.
type located interface {
	record
	source() *origin
	role() string
	geometryType() string
	positions() []orb.Point
	place(points []orb.Point)
}

func (r *Route) role() string             { return RoleRoute }
func (r *Route) geometryType() string     { return geojson.LineString }
func (r *Route) positions() []orb.Point   { return r.Points }
func (r *Route) place(points []orb.Point) { r.Points = points }

func (r *Route) fields() []field {
	return []field{
		constant("role", RoleRoute),
		text("name", &r.Name),
		maybe("depart", &r.Depart),
		numbers("speeds_kn", &r.SpeedsKn, numberRange{0.5, 100, "knots"}),
	}
}

func (s *Stay) role() string             { return RoleStay }
func (s *Stay) geometryType() string     { return geojson.Point }
func (s *Stay) positions() []orb.Point   { return []orb.Point{s.At} }
func (s *Stay) place(points []orb.Point) { s.At = points[0] }

func (s *Stay) fields() []field {
	return []field{
		constant("role", RoleStay),
		text("name", &s.Name),
		moment("until", &s.Until),
		choice("kind", &s.Kind, AtAnchor, AtAnchor, AtMooring, AtBerth),
		optional("rode_m", &s.RodeM, numberRange{1, 1000, "metres"}),
		inMetres(checked(optional("sounded_m", &s.SoundedM, numberRange{0, 200, "metres"}), func() string {
			if s.SoundedM != nil && s.SoundedAt == nil {
				return "a sounding without sounded_at; its time is wanted, for the height of tide then"
			}
			return ""
		}), &s.SoundedM),
		notInMetres("sounded_ft", "feet", 0.3048), notInMetres("sounded_fm", "fathoms", 1.8288),
		checked(maybe("sounded_at", &s.SoundedAt), func() string {
			if s.SoundedAt != nil && s.SoundedM == nil {
				return "the time of a sounding without sounded_m; the depth is wanted"
			}
			return ""
		}),
		nested("anchor_dropped", &s.Dropped, func() Dropped { return Dropped{} }),
	}
}

func (d *Dropped) fields() []field {
	return []field{required(moment("time", &d.Time)), spot("position", &d.At)}
}

func (b *Berth) role() string             { return RoleBerth }
func (b *Berth) geometryType() string     { return geojson.Point }
func (b *Berth) positions() []orb.Point   { return []orb.Point{b.At} }
func (b *Berth) place(points []orb.Point) { b.At = points[0] }

func (b *Berth) fields() []field {
	return []field{
		constant("role", RoleBerth),
		text("name", &b.Name),
		optional("heading_deg", &b.HeadingDeg, circle),
		choice("side", &b.Side, "", PortSide, StarboardSide),
	}
}

func (r *Refuge) role() string             { return RoleRefuge }
func (r *Refuge) geometryType() string     { return geojson.Point }
func (r *Refuge) positions() []orb.Point   { return []orb.Point{r.At} }
func (r *Refuge) place(points []orb.Point) { r.At = points[0] }

func (r *Refuge) fields() []field {
	return []field{constant("role", RoleRefuge), text("name", &r.Name)}
}

// positionDecimals is how many decimals of a degree a position has: 1e-7 degrees
// of latitude are 11 mm.
const positionDecimals = 7

// rounded rounds a position to what is written.
func rounded(p orb.Point) orb.Point {
	const scale = 1e7
	return orb.Point{math.Round(p[0]*scale) / scale, math.Round(p[1]*scale) / scale}
}

// positionWrong says what is wrong with a position, or "".
func positionWrong(p orb.Point) string {
	lon, lat := p.Lon(), p.Lat()
	if math.Abs(lon) <= 180 && math.Abs(lat) <= 90 {
		return ""
	}
	const wanted = "; longitude within 180 and latitude within 90 degrees are wanted, in that order"
	at := "[" + said(lon) + ", " + said(lat) + "]"
	switch {
	case math.Abs(lon) > 360 || math.Abs(lat) > 360:
		return at + " looks like metres of a map projection" + wanted
	case math.Abs(lat) > 90 && math.Abs(lat) <= 180 && math.Abs(lon) <= 90:
		return at + " has a latitude beyond 90: longitude and latitude may be swapped" + wanted
	case math.Abs(lat) > 90:
		return at + " has a latitude beyond 90" + wanted
	}
	return at + " has a longitude beyond 180" + wanted
}
