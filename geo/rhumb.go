package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// Rhumb is a line of constant course from one position to another, the short
// way round in longitude.
type Rhumb struct {
	From, To  orb.Point
	LengthM   float64
	CourseDeg float64 // true, in [0, 360); 0 for a line of no length

	east, north float64 // sine and cosine of the course
}

// NewRhumb is the rhumb line between two positions. Lines to a pole have no
// course in longitude and are out of scope: positions are taken within ±89.9°.
// Method: Bennett, G. G. (1996), Practical rhumb line calculations on the
// spheroid, J. Navigation 49, 112-119.
func NewRhumb(from, to orb.Point) Rhumb {
	phi0, phi1 := latRad(from), latRad(to)
	dLon := radians(Turn(from.Lon(), to.Lon()))
	dPsi := isometric(phi1) - isometric(phi0)
	angle := math.Atan2(dLon, dPsi)
	r := Rhumb{From: from, To: to, CourseDeg: Bearing(degrees(angle))}
	r.east, r.north = math.Sincos(angle)
	r.LengthM = math.Hypot(dLon, dPsi) * metresPerIsometric(phi0, phi1)
	return r
}

// At is the position so many metres along the line from its start. Outside
// [0, LengthM] the line is extended; a line of no length stays where it is.
func (r Rhumb) At(metres float64) orb.Point {
	if r.LengthM == 0 {
		return r.From
	}
	return along(r.From, r.east, r.north, metres)
}

// RhumbDirect is the position reached from p on a steady course (degrees true)
// after so many metres.
func RhumbDirect(p orb.Point, courseDeg, metres float64) orb.Point {
	sin, cos := math.Sincos(radians(courseDeg))
	return along(p, sin, cos, metres)
}

func along(p orb.Point, east, north, metres float64) orb.Point {
	phi0 := latRad(p)
	phi := arcToLat(meridianArc(phi0) + metres*north)
	dLon := degrees(metres * east / metresPerIsometric(phi0, phi))
	return orb.Point{wrapLon(p.Lon() + dLon), degrees(phi)}
}

func radians(deg float64) float64 { return deg * (math.Pi / 180) }
func degrees(rad float64) float64 { return rad * (180 / math.Pi) }

// latRad keeps clear of the poles, where isometric latitude is infinite.
func latRad(p orb.Point) float64 { return radians(max(-89.9, min(89.9, p.Lat()))) }

// isometric latitude of a geodetic latitude in radians: the ordinate of the
// Mercator projection on the ellipsoid (Snyder 1987, USGS PP 1395, eq. 7-7).
func isometric(phi float64) float64 {
	e := math.Sqrt(eccentricity2)
	s := math.Sin(phi)
	return math.Asinh(math.Tan(phi)) - e*math.Atanh(e*s)
}

// metresPerIsometric is the mean length in metres of a unit of isometric
// latitude between two latitudes: the radius of the parallel where they meet.
func metresPerIsometric(phi0, phi1 float64) float64 {
	if math.Abs(phi1-phi0) < 1e-5 {
		// The quotient would lose digits; the mid value is right to 1e-11.
		return parallelRadius((phi0 + phi1) / 2)
	}
	return (meridianArc(phi1) - meridianArc(phi0)) / (isometric(phi1) - isometric(phi0))
}

// parallelRadius is the radius of the parallel of latitude, metres.
func parallelRadius(phi float64) float64 {
	s := math.Sin(phi)
	return equatorialRadiusM * math.Cos(phi) / math.Sqrt(1-eccentricity2*s*s)
}

const thirdFlattening = flattening / (2 - flattening)

// meridianArc is the distance along the meridian from the equator in metres.
// Series in the third flattening to its fourth power (Helmert 1880, as in
// Deakin & Hunter 2010); the first term left out is below 1e-6 m.
func meridianArc(phi float64) float64 {
	const n, n2 = thirdFlattening, thirdFlattening * thirdFlattening
	const n3, n4 = n2 * n, n2 * n2
	a := equatorialRadiusM / (1 + n) * (1 + n2/4 + n4/64)
	return a * (phi - (3*n/2-9*n3/16)*math.Sin(2*phi) +
		(15*n2/16-15*n4/32)*math.Sin(4*phi) -
		35*n3/48*math.Sin(6*phi) + 315*n4/512*math.Sin(8*phi))
}

// arcToLat inverts meridianArc by Newton's method; three steps reach rounding.
func arcToLat(m float64) float64 {
	phi := m / (equatorialRadiusM * (1 - flattening/2))
	for range 4 {
		s := math.Sin(phi)
		w := 1 - eccentricity2*s*s
		radius := equatorialRadiusM * (1 - eccentricity2) / (w * math.Sqrt(w))
		phi -= (meridianArc(phi) - m) / radius
	}
	return phi
}
