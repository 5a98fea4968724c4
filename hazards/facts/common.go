package facts

import (
	"time"

	"keelroom/geo/chart"
)

// Clock is a time to the minute: minutes since 1970 in UTC.
type Clock int64

// At is the minute of a time.
func At(t time.Time) Clock {
	s := t.Unix()
	if s < 0 {
		s -= 59
	}
	return Clock(s / 60)
}

// Time is the beginning of the minute.
func (c Clock) Time() time.Time { return time.Unix(int64(c)*60, 0) }

// plain is embedded by facts whose title says nothing besides the code.
type plain struct{}

// Subject is what a title speaks of: nothing besides the code.
func (plain) Subject() any { return nil }

// Thing is a feature of the chart as a skipper calls it: by its class, its kind
// (CATMOR of a mooring structure, CATOBS of an obstruction where it counts) and its
// name.
type Thing struct {
	Class chart.Class
	Kind  int
	Name  string
}

// Unknown says why a depth is not known. The zero value is a depth that is known.
type Unknown struct {
	Why   WhyUnknown
	Class chart.Class // of what could not be read
	Info  string      // and why not
}

// WhyUnknown is why a depth is not known.
type WhyUnknown uint8

// Why a depth is not known.
const (
	NotCharted   WhyUnknown = iota + 1 // no depth is charted
	NotHere                            // none is charted on this stretch
	NotSurveyed                        // the area is not surveyed
	NoLeastDepth                       // the area has no least depth
	Unreadable                         // what is there could not be read
	OtherLevel                         // depths and tide are above levels that cannot be compared
)

// Rule is one rule or category of an area: RESTRN or CATREA, the other 0.
type Rule struct{ Restrn, CatRea int }

// Lies says where an area lies.
type Lies struct {
	How    Where
	Metres int  // for Off
	AtStay bool // seen from where she lies, not from the track
}

// Where a thing lies.
type Where uint8

// Where a thing lies, seen from the track or from where she lies.
const (
	Off     Where = iota // some metres off
	Within               // where she lies
	OnTrack              // on the track: what is no area
	Nearly               // less than a metre off
	Entered              // the track enters it
)

// WhyNoTide is why a height of tide is not known.
type WhyNoTide uint8

// Why a height of tide is not known.
const (
	NoTide       WhyNoTide = iota // none is given
	TideEnds                      // the one given does not reach this time
	TideEndsStay                  // nor over the whole stay
)
