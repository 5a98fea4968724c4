package sun

import (
	"time"

	"github.com/paulmach/orb"
)

// Light is how light it is.
type Light int

const (
	Night    Light = iota // the sun below −6°: after civil dusk, before civil dawn
	Twilight              // the sun down, but not below −6°
	Daylight              // the sun up
)

// LightAt is the light at p (lon, lat) and t, from the sun's altitude itself: it
// needs no calendar day and no zone, so clock changes, the date line and the polar
// day and night are nothing special. On a limit the lighter side counts; a position
// that is none gives Night.
func LightAt(t time.Time, p orb.Point) Light {
	switch altitude := AltitudeDeg(t, p); {
	case altitude >= horizonDeg:
		return Daylight
	case altitude >= CivilDeg:
		return Twilight
	}
	return Night
}

// String names the light for messages.
func (l Light) String() string {
	switch l {
	case Daylight:
		return "daylight"
	case Twilight:
		return "civil twilight"
	}
	return "night"
}
