package sea

import (
	"time"

	"github.com/paulmach/orb"
)

// Model is what the sea is worked out from. It is not changed by its methods;
// several may run at once if the caster allows it.
type Model struct {
	Wind  *WindSeries
	Swell *SwellSeries // nil: no swell is given, none is counted
	Cast  Caster
	// OpenFetchM is the length in metres of a ray that leaves the data without
	// meeting land, where it is not longer already. Anything but a positive
	// number means DefaultOpenFetchM.
	OpenFetchM float64
}

// State is the sea at a place and a time. Heights are significant, in metres.
type State struct {
	WindKn, FromDeg float64 // the mean wind then, and where it comes from

	// The sea to compare with limits: growth and swell added by energy. "Plus"
	// is with the growth raised by GrowthUncertainty; "WithOpen" is with open
	// water beyond the data's edge, the same as without where no ray is open.
	HsM, PlusHsM                 float64
	WithOpenHsM, WithOpenPlusHsM float64

	PeriodS        float64 // of the growth within the data
	FetchM, DepthM float64 // mean fetch and depth within the data; DepthM +Inf is unknown, taken as deep
	OpenRays       int     // of the nine about the wind, those that leave the data without meeting land

	SwellHsM, SwellPeriodS float64 // the swell counted in all four heights
	SwellUnknown           bool    // there is a swell forecast, but not for this time
	SwellCaution           string  // why a swell that was given is not counted, or ""

	Within, WithOpen Growth // how the growth came about
}

// At is the sea at p (lon, lat) and t. ok is false where the wind then is not
// known, or no chart to cast rays over is given: the sea is then unknown, not
// flat.
func (m *Model) At(p orb.Point, t time.Time) (s State, ok bool) {
	wind, ok := m.Wind.At(t)
	if !ok || m.Cast == nil {
		return State{}, false
	}
	f := m.fan(p, wind.FromDeg, t)
	past := m.Wind.history(t)
	within := past.grow(f.within)
	withOpen := within
	if f.openRays > 0 {
		withOpen = past.grow(f.withOpen)
	}
	return newState(wind, f.openRays, within, withOpen, m.swell(p, t)), true
}

func newState(w Wind, openRays int, within, withOpen Growth, sw swellHere) State {
	const plus = 1 + GrowthUncertainty
	return State{
		WindKn: w.Kn, FromDeg: w.FromDeg,
		HsM:             AddHeights(within.HsM, sw.hsM),
		PlusHsM:         AddHeights(plus*within.HsM, sw.hsM),
		WithOpenHsM:     AddHeights(withOpen.HsM, sw.hsM),
		WithOpenPlusHsM: AddHeights(plus*withOpen.HsM, sw.hsM),
		PeriodS:         within.PeriodS,
		FetchM:          within.FetchM, DepthM: within.DepthM, OpenRays: openRays,
		SwellHsM: sw.hsM, SwellPeriodS: sw.periodS,
		SwellUnknown: sw.unknown, SwellCaution: sw.caution,
		Within: within, WithOpen: withOpen,
	}
}
