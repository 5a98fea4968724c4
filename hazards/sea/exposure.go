package sea

import (
	"fmt"
	"math"
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

// SwellExposure casts rays from p toward where a swell comes from, 3° apart,
// nearest to its direction first, and stops at the first that is open.
func (m *Model) SwellExposure(p orb.Point, fromDeg float64, t time.Time) Exposure {
	return exposure(func(offsetDeg float64) bool {
		return m.cast(p, fromDeg+offsetDeg, t).Open
	})
}

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
		return swellHere{caution: fmt.Sprintf("Swell of %.1f m from %03.0f°: no open water within %d° of its direction here, so none is counted. How swell bends into bays is not computed.",
			sw.HeightM, math.Mod(math.Round(sw.FromDeg), 360), halfSwellDeg)}
	}
	return swellHere{hsM: sw.HeightM * e.share(), periodS: sw.PeriodS}
}
