package sea

import (
	"math"
	"time"

	"github.com/paulmach/orb"
)

// GreatestTurned is the greatest significant height in metres at p from one time to
// another, within the data, if every direction of the wind may be wrong by up to
// byDeg either way. Directions are tried at the spacing of the rays. Rays and times
// are those of WindRoom; so is when it is not known.
func (m *Model) GreatestTurned(p orb.Point, from, to, highest time.Time, byDeg float64) (hsM float64, ok bool) {
	if _, ok := m.Wind.MeanKn(from, to); !ok || m.Cast == nil {
		return 0, false
	}
	start, _ := m.Wind.At(from)
	r := m.rose(p, start.FromDeg, highest)
	for _, s := range m.samples(r, from, to, 0) {
		for _, turn := range turns(byDeg) {
			f := r.within.at(s.fromDeg + turn)
			hsM = math.Max(hsM, AddHeights(s.past.grow(f).HsM, s.swellM))
		}
	}
	return hsM, true
}

// turns are the angles tried: every few degrees up to byDeg either way, and byDeg.
func turns(byDeg float64) []float64 {
	byDeg = math.Min(math.Max(byDeg, 0), 180)
	out := []float64{0}
	for d := raySpacing; d < byDeg; d += raySpacing {
		out = append(out, -d, d)
	}
	if byDeg > 0 {
		out = append(out, -byDeg, byDeg)
	}
	return out
}
