package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// XY is a point of a Plane: metres east and north of its origin.
type XY struct{ X, Y float64 }

// Sub is the vector from b to a.
func (a XY) Sub(b XY) XY { return XY{a.X - b.X, a.Y - b.Y} }

// Add is the sum of two vectors.
func (a XY) Add(b XY) XY { return XY{a.X + b.X, a.Y + b.Y} }

// Scale is the vector times a number.
func (a XY) Scale(f float64) XY { return XY{a.X * f, a.Y * f} }

// Dot is the scalar product.
func (a XY) Dot(b XY) float64 { return a.X*b.X + a.Y*b.Y }

// Cross is the third component of the vector product: positive when b lies to
// the left of a.
func (a XY) Cross(b XY) float64 { return a.X*b.Y - a.Y*b.X }

// Len is the length of the vector in metres.
func (a XY) Len() float64 { return math.Hypot(a.X, a.Y) }

// Plane is a Mercator projection of the WGS 84 ellipsoid with true scale at
// the latitude of its origin. Rhumb lines are straight, angles are true, and
// lengths are metres at the origin's latitude; d metres north of it they are
// out by the factor d·tan(latitude)/6 371 000: 0.03 % one nautical mile away
// at 45° (ScaleError gives the bound).
//
// Northings are a polynomial of the fourth degree in the difference of
// latitude, fitted through the exact projection at ±0.002 and ±0.004 radians:
// within 0.1 mm over ±15 nautical miles below 70°, so it needs no
// transcendental function for a vertex.
type Plane struct {
	Origin orb.Point
	kx     float64    // metres a degree of longitude
	c      [4]float64 // northing = c0·d + c1·d² + c2·d³ + c3·d⁴, d in degrees
	tan    float64    // of the origin's latitude
}

// NewPlane is the plane about an origin. The latitude is taken within ±89.9°.
func NewPlane(origin orb.Point) Plane {
	phi := latRad(origin)
	k := parallelRadius(phi)
	p := Plane{Origin: origin, kx: k * math.Pi / 180, tan: math.Abs(math.Tan(phi))}
	const h = 0.002
	psi := isometric(phi)
	f := func(d float64) float64 { return k * (isometric(phi+d) - psi) }
	odd1, even1 := (f(h)-f(-h))/2, (f(h)+f(-h))/2
	odd2, even2 := (f(2*h)-f(-2*h))/2, (f(2*h)+f(-2*h))/2
	// Solve c0·h + c2·h³ = odd and c1·h² + c3·h⁴ = even at h and 2h.
	c := [4]float64{(8*odd1 - odd2) / (6 * h), (16*even1 - even2) / (12 * h * h),
		(odd2 - 2*odd1) / (6 * h * h * h), (even2 - 4*even1) / (12 * h * h * h * h)}
	for i, r := 0, math.Pi/180; i < 4; i, r = i+1, r*math.Pi/180 {
		p.c[i] = c[i] * r
	}
	return p
}

// XY projects a position.
func (p *Plane) XY(pos orb.Point) XY {
	return p.project(pos[0]-p.Origin[0], pos[1]-p.Origin[1])
}

func (p *Plane) project(dLon, d float64) XY {
	if dLon > 180 {
		dLon -= 360
	} else if dLon < -180 {
		dLon += 360
	}
	return XY{dLon * p.kx, d * (p.c[0] + d*(p.c[1]+d*(p.c[2]+d*p.c[3])))}
}

// Straight gives the metres a degree of longitude and of latitude by which a plane
// that was linear in degrees would place positions, and how far at most their northings
// are out of it within so many degrees of latitude of the origin.
func (p *Plane) Straight(latDeg float64) (perLon, perLat, offM float64) {
	d := latDeg
	return p.kx, p.c[0], d * d * (math.Abs(p.c[1]) + d*(math.Abs(p.c[2])+d*math.Abs(p.c[3])))
}

// Position is the inverse of XY, to 1e-9 degrees within 15 nautical miles.
func (p *Plane) Position(q XY) orb.Point {
	d := q.Y / p.c[0]
	for range 4 {
		y := d * (p.c[0] + d*(p.c[1]+d*(p.c[2]+d*p.c[3])))
		slope := p.c[0] + d*(2*p.c[1]+d*(3*p.c[2]+d*4*p.c[3]))
		d -= (y - q.Y) / slope
	}
	return orb.Point{wrapLon(p.Origin[0] + q.X/p.kx), p.Origin[1] + d}
}

// ScaleError bounds how far a length may be out, as a fraction, within so many
// metres north or south of the origin. The scale is the ratio of two parallels; this
// is its series in the distance up to the square, which alone is left at the equator,
// over the least radius of curvature (6 335 km), with room for the cube.
func (p *Plane) ScaleError(metres float64) float64 {
	d := metres / 6.33e6
	return p.tan*metres/6.35e6*(1+metres/1e6) + d*d*(1+2*p.tan*p.tan)/2
}

// DegreesAround gives how many degrees of longitude and latitude hold a
// distance in metres near the origin, with room for the change of scale.
func (p *Plane) DegreesAround(metres float64) (dLon, dLat float64) {
	return metres / p.kx * 1.01, metres / p.c[0] * 1.01
}
