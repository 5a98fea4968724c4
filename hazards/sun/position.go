package sun

import (
	"math"
	"time"

	"github.com/paulmach/orb"
)

const (
	j2000Unix    = 946728000 // 2000-01-01T12:00:00Z
	secondsADay  = 86400
	daysACentury = 36525
	// clockToDynamicalS is dynamical time less universal time: 64 s in 2000, 69 s
	// in 2025 (IERS). A minute of error moves the sun by 2.5″, or 0.2 s of clock.
	clockToDynamicalS = 69.0
	// parallaxDeg is the sun's horizontal parallax at its mean distance, 8.794″
	// (Meeus 1998, ch. 40).
	parallaxDeg = 8.794 / 3600
)

// AltitudeDeg is the altitude in degrees of the sun's centre over the horizontal
// at p (lon, lat) and t, without refraction, within 0.02° from 1950 to 2100. A
// position that is none gives not-a-number.
func AltitudeDeg(t time.Time, p orb.Point) float64 {
	if !valid(p) {
		return math.NaN()
	}
	rightAscension, declination := apparent(t)
	lat, hour := radians(p.Lat()), siderealRad(t)+radians(p.Lon())-rightAscension
	sin := math.Sin(lat)*math.Sin(declination) + math.Cos(lat)*math.Cos(declination)*math.Cos(hour)
	altitude := math.Asin(math.Max(-1, math.Min(1, sin)))
	return degrees(altitude) - parallaxDeg*math.Cos(altitude)
}

// valid says whether p is a place on the Earth.
func valid(p orb.Point) bool {
	return math.Abs(p.Lon()) <= 180 && math.Abs(p.Lat()) <= 90
}

// hourAngleDeg is how far the sun is past the meridian, -180 to 180.
func hourAngleDeg(t time.Time, lonDeg float64) float64 {
	rightAscension, _ := apparent(t)
	return math.Remainder(degrees(siderealRad(t)-rightAscension)+lonDeg, 360)
}

// apparent is the sun's apparent right ascension and declination in radians
// (Meeus 1998, ch. 25, "low accuracy").
func apparent(t time.Time) (rightAscension, declination float64) {
	c := (daysSinceJ2000(t) + clockToDynamicalS/secondsADay) / daysACentury
	node := radians(125.04 - 1934.136*c)
	lon := radians(trueLongitudeDeg(c) - 0.00569 - 0.00478*math.Sin(node))
	tilt := radians(meanTiltDeg(c) + 0.00256*math.Cos(node))
	return math.Atan2(math.Cos(tilt)*math.Sin(lon), math.Cos(lon)), math.Asin(math.Sin(tilt) * math.Sin(lon))
}

// trueLongitudeDeg is the mean longitude and the equation of the centre
// (Meeus 1998, eqs 25.2 to 25.4), c in Julian centuries from J2000.
func trueLongitudeDeg(c float64) float64 {
	mean := 280.46646 + c*(36000.76983+c*0.0003032)
	m := radians(357.52911 + c*(35999.05029-c*0.0001537))
	return mean +
		(1.914602-c*(0.004817+c*0.000014))*math.Sin(m) +
		(0.019993-c*0.000101)*math.Sin(2*m) +
		0.000289*math.Sin(3*m)
}

// meanTiltDeg is the mean obliquity of the ecliptic (Meeus 1998, eq 22.2).
func meanTiltDeg(c float64) float64 {
	return 23 + (26+(21.448-c*(46.8150+c*(0.00059-c*0.001813)))/60)/60
}

// siderealRad is the apparent sidereal time at Greenwich in radians (Meeus 1998,
// eq 12.4, and the largest term of nutation).
func siderealRad(t time.Time) float64 {
	d := daysSinceJ2000(t)
	c := d / daysACentury
	node := radians(125.04 - 1934.136*c)
	mean := 280.46061837 + 360.98564736629*d + c*c*0.000387933
	return radians(math.Mod(mean-0.00478*math.Sin(node)*math.Cos(radians(meanTiltDeg(c))), 360))
}

func daysSinceJ2000(t time.Time) float64 {
	return (float64(t.Unix()-j2000Unix) + float64(t.Nanosecond())/1e9) / secondsADay
}

func radians(deg float64) float64 { return deg * math.Pi / 180 }
func degrees(rad float64) float64 { return rad * 180 / math.Pi }
