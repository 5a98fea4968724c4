package geo

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/tidwall/geodesic"
)

// Exact by definition.
const (
	// NauticalMileM is the international nautical mile in metres.
	NauticalMileM = 1852.0
	// KnotMPS is one knot in metres a second.
	KnotMPS = NauticalMileM / 3600
)

// WGS 84 (NGA.STND.0036, 2014): defining semi-major axis and flattening.
const (
	equatorialRadiusM = 6378137.0
	flattening        = 1 / 298.257223563
	eccentricity2     = flattening * (2 - flattening)
)

// Inverse gives the length of the geodesic from a to b in metres and its
// azimuths at both ends, degrees clockwise from true north in [0, 360).
// Method: Karney, C. F. F. (2013), Algorithms for geodesics, J. Geodesy 87,
// 43-55, doi:10.1007/s00190-012-0578-z; error below 15 nm. The azimuths of a
// line of no length mean nothing.
func Inverse(a, b orb.Point) (metres, azimuthA, azimuthB float64) {
	geodesic.WGS84.Inverse(a.Lat(), a.Lon(), b.Lat(), b.Lon(), &metres, &azimuthA, &azimuthB)
	return metres, Bearing(azimuthA), Bearing(azimuthB)
}

// DistanceM is the length of the geodesic from a to b in metres.
func DistanceM(a, b orb.Point) float64 {
	var m float64
	geodesic.WGS84.Inverse(a.Lat(), a.Lon(), b.Lat(), b.Lon(), &m, nil, nil)
	return m
}

// Direct gives the place reached from p along the geodesic that leaves at the
// azimuth (degrees true) after so many metres. Method as Inverse.
func Direct(p orb.Point, azimuth, metres float64) orb.Point {
	var lat, lon float64
	geodesic.WGS84.Direct(p.Lat(), p.Lon(), azimuth, metres, &lat, &lon, nil)
	return orb.Point{wrapLon(lon), lat}
}

// Bearing brings an angle in degrees into [0, 360).
func Bearing(deg float64) float64 {
	d := math.Mod(deg, 360)
	if d < 0 {
		d += 360
	}
	if d >= 360 { // a tiny negative angle rounds up to a full turn
		return 0
	}
	return d
}

// Turn is the signed angle from one bearing to another the short way, in
// (-180, 180] degrees, clockwise positive.
func Turn(from, to float64) float64 {
	d := Bearing(to - from)
	if d > 180 {
		d -= 360
	}
	return d
}

// wrapLon brings a longitude into [-180, 180].
func wrapLon(lon float64) float64 {
	if lon >= -180 && lon <= 180 {
		return lon
	}
	return Turn(0, lon)
}

// ValidPosition reports whether p is a position on the globe: finite, longitude
// within ±180 and latitude within ±90 degrees.
func ValidPosition(p orb.Point) bool {
	return math.Abs(p.Lon()) <= 180 && math.Abs(p.Lat()) <= 90
}
