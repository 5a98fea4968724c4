package sea

import (
	"math"
	"strconv"
	"time"

	"github.com/paulmach/orb"
)

// Exposure is how much of a swell reaches a place.
type Exposure int

const (
	Shut     Exposure = iota // no open ray within 60° of its direction: none counted
	HalfOpen                 // an open ray within 60°, none within 30°: half its height
	WideOpen                 // an open ray within 30°: its full height
)

// Angles either side of the swell's direction, in degrees, both included.
const (
	fullSwellDeg = 30
	halfSwellDeg = 60
)

// share is the part of the swell's height that counts.
func (e Exposure) share() float64 {
	return float64(e) / 2
}

// Exposer is a Caster that knows the exposure of a place to a swell without
// casting the rays again.
type Exposer interface {
	Exposure(p orb.Point, fromDeg float64, t time.Time) Exposure
}

// SwellExposure casts rays from p toward where a swell comes from, 3° apart,
// nearest to its direction first, and stops at the first that is open.
func (m *Model) SwellExposure(p orb.Point, fromDeg float64, t time.Time) Exposure {
	if e, ok := m.Cast.(Exposer); ok {
		return e.Exposure(p, fromDeg, t)
	}
	return exposure(func(offsetDeg float64) bool {
		return m.cast(p, fromDeg+offsetDeg, t).Open
	})
}

// ExposureOf asks for rays at offsets in degrees from the swell's direction.
func ExposureOf(open func(offsetDeg float64) bool) Exposure { return exposure(open) }

// exposure asks for rays at offsets from the swell's direction.
func exposure(open func(offsetDeg float64) bool) Exposure {
	for off := 0.0; off <= halfSwellDeg; off += raySpacing {
		if !open(off) && (off == 0 || !open(-off)) {
			continue
		}
		if off <= fullSwellDeg {
			return WideOpen
		}
		return HalfOpen
	}
	return Shut
}

// swellHere is the part of a swell that reaches a place.
type swellHere struct {
	hsM, periodS float64
	unknown      bool
	caution      string
}

// swell at p and t. Rays are cast only where there is swell to look for.
func (m *Model) swell(p orb.Point, t time.Time) swellHere {
	if m.Swell == nil {
		return swellHere{}
	}
	sw, ok := m.Swell.At(t)
	if !ok {
		return swellHere{unknown: true, caution: "The swell forecast does not reach this time: no swell is counted."}
	}
	if sw.HeightM <= 0 {
		return swellHere{}
	}
	e := m.SwellExposure(p, sw.FromDeg, t)
	if e == Shut {
		return swellHere{caution: shutWords(sw)}
	}
	return swellHere{hsM: sw.HeightM * e.share(), periodS: sw.PeriodS}
}

// shutWords says why a swell is not counted. It is put together by hand: a day's
// check asks for it by the hundred.
func shutWords(sw Swell) string {
	out := strconv.AppendFloat([]byte("Swell of "), sw.HeightM, 'f', 1, 64)
	out = append(out, " m from "...)
	deg := int(math.Mod(math.Round(sw.FromDeg), 360))
	out = append(out, byte('0'+deg/100), byte('0'+deg/10%10), byte('0'+deg%10))
	out = append(out, "°: no open water within "...)
	out = strconv.AppendInt(out, halfSwellDeg, 10)
	return string(append(out, "° of its direction here, so none is counted. How swell bends into bays is not computed."...))
}
