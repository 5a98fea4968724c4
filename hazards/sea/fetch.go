package sea

import (
	"math"
	"time"

	"github.com/paulmach/orb"
)

// The fan of rays about the wind: nine at 3°, their arithmetic mean (SPM 1984,
// p 3-39).
const (
	fanRays    = 9
	raySpacing = 3.0 // degrees
)

// MaxRayM is how far rays are cast, in metres: about as far as 12 h of a wind of
// 45 kn can use, by DurationFetch.
const MaxRayM = 300_000

// DefaultOpenFetchM is the open fetch in metres where a Model gives none.
const DefaultOpenFetchM = 20_000

// Ray is what lies from a place toward a bearing.
type Ray struct {
	LengthM float64 // to the land, the data's edge or the greatest length asked for, whichever is first
	Open    bool    // it left the data without meeting land; a ray of the greatest length asked for is taken as open too
	// MeanDepthM is the mean depth along the ray at the time asked, from the
	// deepest the chart allows; +Inf where any or all of it is unknown.
	MeanDepthM float64
}

// Caster casts rays over the chart. A drying area may stop a ray only where all
// of it is surely dry at the time given.
type Caster interface {
	// Cast looks from a place (lon, lat in degrees) toward a bearing in degrees
	// true for at most maxM metres.
	Cast(from orb.Point, towardDeg, maxM float64, at time.Time) Ray
}

// sane reads what a caster must not give as the unsafe thing it may stand for: a
// length that is no length as open water, a depth that is no depth as deep. A ray
// as long as was asked for has met no land and is open.
func (r Ray) sane() Ray {
	if !(r.LengthM >= 0 && r.LengthM < MaxRayM) {
		r.LengthM, r.Open = MaxRayM, true
	}
	if !(r.MeanDepthM > 0) {
		r.MeanDepthM = math.Inf(1)
	}
	return r
}

// extended is the ray with open water beyond the data's edge, of unknown depth.
func (r Ray) extended(openM float64) Ray {
	if r.Open && r.LengthM < openM {
		r.LengthM, r.MeanDepthM = openM, math.Inf(1)
	}
	return r
}

// fetch is the mean length of a fan's rays and the mean depth along them. The
// depth is the arithmetic mean over the length of all rays, which is what "the
// average depth over the fetch" (SPM 1984, 3-VI) means for a fan; a harmonic mean
// would be lower, and the deeper bound is the one that is safe for growth.
type fetch struct{ meanM, depthM float64 }

func meanFetch(rays []Ray) fetch {
	length, section := 0.0, 0.0
	for _, r := range rays {
		length += r.LengthM
		if r.LengthM > 0 { // 0 × Inf is not a number
			section += r.LengthM * r.MeanDepthM
		}
	}
	if length == 0 {
		return fetch{meanM: 0, depthM: math.Inf(1)}
	}
	return fetch{meanM: length / float64(len(rays)), depthM: section / length}
}

// fan is the two fetches of nine rays: within the data, and with open water
// beyond it.
type fan struct {
	within, withOpen fetch
	openRays         int
}

func newFan(rays *[fanRays]Ray, openM float64) fan {
	f := fan{within: meanFetch(rays[:])}
	for i, r := range rays {
		if r.Open {
			f.openRays++
		}
		rays[i] = r.extended(openM)
	}
	f.withOpen = meanFetch(rays[:])
	return f
}

// fan casts the nine rays about the direction the wind comes from.
func (m *Model) fan(p orb.Point, fromDeg float64, t time.Time) fan {
	var rays [fanRays]Ray
	for i := range rays {
		rays[i] = m.cast(p, fromDeg+float64(i-fanRays/2)*raySpacing, t)
	}
	return newFan(&rays, m.openFetchM())
}

func (m *Model) cast(p orb.Point, towardDeg float64, t time.Time) Ray {
	return m.Cast.Cast(p, fullCircle(towardDeg), MaxRayM, t).sane()
}

func (m *Model) openFetchM() float64 {
	if m.OpenFetchM > 0 {
		return m.OpenFetchM
	}
	return DefaultOpenFetchM
}
