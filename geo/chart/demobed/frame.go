package demobed

import "github.com/paulmach/orb"

// The frame: local metres east (x) and north (y) of 43 N 36 W. The scale is
// the ellipsoid's (WGS 84) at 43 N and is kept over the whole area, so that
// the frame is a linear map. Between 42.96 N and 43.04 N the true length of
// a degree of longitude differs from it by less than 0.07 %, that of a
// degree of latitude by less than 0.01 %.
const (
	originLon   = -36.0
	originLat   = 43.0
	mPerDegLon  = 81541.2
	mPerDegLat  = 111092.7
	scaleSlack  = 1.001 // covers the frame's scale error in slopes and radii
	scaleSlack2 = 1.002 // the same for second derivatives
)

// Bounds returns the charted area: longitude and latitude in degrees,
// WGS 84, about 6.2 by 4.8 nautical miles. [DepthM] answers outside it too,
// but the chart does not.
func Bounds() orb.Bound {
	return orb.Bound{Min: orb.Point{-36.07, 42.96}, Max: orb.Point{-35.93, 43.04}}
}

// Local returns the metres east and north of the frame's origin.
func Local(p orb.Point) (xM, yM float64) {
	return (p[0] - originLon) * mPerDegLon, (p[1] - originLat) * mPerDegLat
}

// At returns the position xM metres east and yM metres north of the frame's
// origin, the inverse of [Local] to rounding.
func At(xM, yM float64) orb.Point {
	return orb.Point{xM/mPerDegLon + originLon, yM/mPerDegLat + originLat}
}
