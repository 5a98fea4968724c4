package sea

import "time"

// Fan is how many rays make a fetch, and FanStepDeg how far apart they are: the mean
// of Fan rays about the direction of the wind.
const (
	Fan        = fanRays
	FanStepDeg = raySpacing
)

// HeightOver is the significant height in metres that the wind up to t raises over a
// mean fetch and a mean depth in metres, without swell. More of either never gives
// less. ok is false where the wind is not known.
func (m *Model) HeightOver(t time.Time, fetchM, depthM float64) (hsM float64, ok bool) {
	if _, ok := m.Wind.At(t); !ok {
		return 0, false
	}
	past := m.Wind.history(t)
	return past.grow(fetch{meanM: fetchM, depthM: depthM}).HsM, true
}
