package sea

import "math"

const (
	gravity   = 9.81          // m/s²
	knotInMps = 1852.0 / 3600 // exact, by the definition of the knot
)

// GrowthUncertainty is how far a sea worked out from wind and fetch may stand
// above the figure, as a share of it: the growth formulas in use (SPM 1984; CEM,
// EM 1110-2-1100 part II ch 2, 2003; Young and Verhagen, Coastal Engineering 29,
// 1996; JONSWAP, Hasselmann et al. 1973) differ from each other by 20 to 30 %.
const GrowthUncertainty = 0.25

// AdjustedWind is the wind-stress factor UA = 0.71 U^1.23 in m/s for a mean wind
// at 10 m in m/s (SPM 1984, eq 3-28a). 0 for a calm or a negative speed.
func AdjustedWind(uMps float64) float64 {
	if uMps <= 0 {
		return 0
	}
	return 0.71 * math.Pow(uMps, 1.23)
}

// Grow is the significant height in metres and the peak period in seconds of the
// sea that an adjusted wind (AdjustedWind, m/s) raises over a fetch in metres of
// water of constant depth in metres, given time enough (SPM 1984, eqs 3-39 and
// 3-40). A depth of +Inf, or one that is not a number, is deep water: the
// equations' limit, whose height is below the deep-water eq 3-33 by 1 % where
// gF/UA² is 900 (15 kn over 7 km), 3 % at 2 800 (15 kn over 22 km), and by up to
// 20 % in a fully grown sea. Without wind, fetch or water both results are 0; a wind or
// fetch that is not a number gives +Inf, so that no limit can pass it.
func Grow(uaMps, fetchM, depthM float64) (hsM, periodS float64) {
	return growHeight(uaMps, fetchM, depthM), growPeriod(uaMps, fetchM, depthM)
}

// growHeight is SPM 1984 eq 3-39.
func growHeight(uaMps, fetchM, depthM float64) float64 {
	if h, settled := growLimit(uaMps, fetchM, depthM); settled {
		return h
	}
	scale := uaMps * uaMps / gravity
	most := depthTerm(0.530, depthM/scale, 0.75)
	return scale * 0.283 * most * math.Tanh(0.00565*math.Sqrt(fetchM/scale)/most)
}

// growPeriod is SPM 1984 eq 3-40.
func growPeriod(uaMps, fetchM, depthM float64) float64 {
	if t, settled := growLimit(uaMps, fetchM, depthM); settled {
		return t
	}
	scale := uaMps * uaMps / gravity
	most := depthTerm(0.833, depthM/scale, 0.375)
	return uaMps / gravity * 7.54 * most * math.Tanh(0.0379*math.Cbrt(fetchM/scale)/most)
}

// growLimit settles what the equations cannot be asked.
func growLimit(uaMps, fetchM, depthM float64) (value float64, settled bool) {
	switch {
	case math.IsNaN(uaMps) || math.IsNaN(fetchM):
		return math.Inf(1), true
	case uaMps <= 0 || fetchM <= 0 || depthM <= 0:
		return 0, true
	}
	return 0, false
}

// depthTerm is tanh(k·x^power) of the equations, 1 in deep or unknown depth.
func depthTerm(k, x, power float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 1) {
		return 1
	}
	return math.Tanh(k * math.Pow(x, power))
}

// MinDuration is the time in seconds that an adjusted wind in m/s must blow until
// the fetch in metres and not the time limits the sea (SPM 1984, eq 3-35, deep
// water: gt/UA = 68.8 (gF/UA²)^⅔). +Inf without wind.
func MinDuration(uaMps, fetchM float64) float64 {
	if uaMps <= 0 {
		return math.Inf(1)
	}
	x := gravity * math.Max(fetchM, 0) / (uaMps * uaMps)
	return 68.8 * uaMps / gravity * math.Cbrt(x*x)
}

// DurationFetch is the fetch in metres whose sea an adjusted wind in m/s raises
// in a time in seconds: the inverse of MinDuration.
func DurationFetch(uaMps, durationS float64) float64 {
	if uaMps <= 0 || durationS <= 0 {
		return 0
	}
	x := gravity * durationS / (68.8 * uaMps)
	return uaMps * uaMps / gravity * x * math.Sqrt(x)
}

// AddHeights joins wave systems by energy: the root of the sum of the squares of
// their significant heights.
func AddHeights(hsM ...float64) float64 {
	total := 0.0
	for _, h := range hsM {
		total = math.Hypot(total, h)
	}
	return total
}

// BreakingRatio is the significant height over the depth, both in metres, to be
// held against the shares at which waves break. No sea gives 0; a sea over a
// depth that is not positive or not known gives +Inf.
func BreakingRatio(hsM, depthM float64) float64 {
	switch {
	case hsM <= 0:
		return 0
	case depthM > 0 && !math.IsNaN(hsM):
		return hsM / depthM
	}
	return math.Inf(1)
}
