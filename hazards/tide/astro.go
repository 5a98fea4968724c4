package tide

import (
	"math"
	"time"
)

const deg = math.Pi / 180

// The astronomy below is good to a small fraction of a degree for centuries; harmonic constants
// are not. Nothing is predicted outside these years.
var (
	firstTime = time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC)
	lastTime  = time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC)
)

// epoch1900 is Greenwich mean noon of 1899-12-31, from which Schureman counts Julian centuries.
var epoch1900 = time.Date(1899, 12, 31, 12, 0, 0, 0, time.UTC)

const (
	hoursPerDay     = 24
	hoursPerCentury = 36525 * hoursPerDay
)

// hours since epoch1900. Whole seconds and the rest are taken apart, as a time.Duration ends after
// 292 years.
func hours(t time.Time) float64 {
	return float64(t.Unix()-epoch1900.Unix())/3600 + float64(t.Nanosecond())/3.6e12
}

// atHour is the instant x hours after epoch1900, to the nanosecond or as near as x tells.
func atHour(x float64) time.Time {
	whole := math.Floor(x)
	t := time.Unix(epoch1900.Unix()+int64(whole)*3600, 0).UTC()
	return t.Add(time.Duration(math.Round((x - whole) * 3.6e12)))
}

// longitudes are the mean longitudes that tides depend on, in degrees, not reduced to one turn.
type longitudes struct {
	tau float64 // τ, mean lunar time from lower transit: 15°·(hours of the UTC day) + h − s
	s   float64 // the Moon
	h   float64 // the Sun
	p   float64 // the lunar perigee
	n   float64 // N, the Moon's ascending node
	p1  float64 // the solar perigee
}

// longitudesAt gives the longitudes x hours after epoch1900. The polynomials are those of
// Schureman 1958, page 162 (explanation of Table 1), after Newcomb and Brown.
func longitudesAt(x float64) longitudes {
	c := x / hoursPerCentury
	poly := func(d, m, s, turns, c1, c2, c3 float64) float64 {
		return d + m/60 + s/3600 + c*(turns*360+c1/3600+c*(c2/3600+c*c3/3600))
	}
	l := longitudes{
		s:  poly(270, 26, 14.72, 1336, 1108411.20, 9.09, 0.0068),
		h:  poly(279, 41, 48.04, 0, 129602768.13, 1.089, 0),
		p:  poly(334, 19, 40.87, 11, 392515.94, -37.24, -0.045),
		n:  poly(259, 10, 57.12, -5, -482912.63, 7.58, 0.008),
		p1: poly(281, 13, 15.0, 0, 6189.03, 1.63, 0.012),
	}
	l.tau = 15*(x+12) + l.h - l.s // x counts from noon
	return l
}

// orbit is what the node factors depend on, in radians: Schureman's I, ξ, ν, ν′, 2ν″ and P, and
// the longitudes N, p and p1 themselves for the few terms that the IHO list states in them.
type orbit struct {
	i, xi, nu, nuPrime, twoNuSecond float64
	bigP                            float64 // P = p − ξ
	n, p, p1                        float64
}

// Schureman 1958, page 156: the obliquity of the ecliptic in 1900 and the inclination of the
// Moon's orbit to it.
const (
	obliquity   = 23.452 * deg
	inclination = 5.145 * deg
)

// orbitAt gives the orbit for longitudes l: Schureman 1958, paragraphs 20 to 25 and equations 224
// and 232; spherical triangle of equator, ecliptic and the Moon's orbit (Napier's analogies).
func orbitAt(l longitudes) orbit {
	n := l.n * deg
	o := orbit{n: n, p: l.p * deg, p1: l.p1 * deg}
	o.i = math.Acos(math.Cos(inclination)*math.Cos(obliquity) - math.Sin(inclination)*math.Sin(obliquity)*math.Cos(n))
	sinN, cosN := math.Sincos(math.Remainder(n, 2*math.Pi) / 2)
	half := math.Atan2(math.Cos((obliquity-inclination)/2)*sinN, math.Cos((obliquity+inclination)/2)*cosN)  // ½(N − ξ + ν)
	other := math.Atan2(math.Sin((obliquity-inclination)/2)*sinN, math.Sin((obliquity+inclination)/2)*cosN) // ½(N − ξ − ν)
	o.nu = half - other
	o.xi = math.Remainder(n, 2*math.Pi) - half - other
	sin2I, sinISq := math.Sin(2*o.i), math.Pow(math.Sin(o.i), 2)
	o.nuPrime = math.Atan2(sin2I*math.Sin(o.nu), sin2I*math.Cos(o.nu)+0.3347)
	o.twoNuSecond = math.Atan2(sinISq*math.Sin(2*o.nu), sinISq*math.Cos(2*o.nu)+0.0727)
	o.bigP = o.p - o.xi
	return o
}
