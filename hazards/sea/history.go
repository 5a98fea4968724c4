package sea

import (
	"math"
	"time"
)

// stretches are the lengths of past wind looked at, from 0.5 to 12 h (common
// practice, no source for the limits): 5 minutes apart up to 2 h, where a young sea
// changes fast, then 15 up to 4 h, then 30. Finer steps would add less than 3 %.
var stretches = func() (list [stretchCount]time.Duration) {
	length := 30 * time.Minute
	for i := range list {
		list[i] = length
		switch {
		case length < 2*time.Hour:
			length += 5 * time.Minute
		case length < 4*time.Hour:
			length += 15 * time.Minute
		default:
			length += 30 * time.Minute
		}
	}
	return list
}()

const stretchCount = 18 + 8 + 17

// stretch is wind that has blown for some time at a mean speed, and the fetch
// whose sea it could raise in that time.
type stretch struct {
	lengthS, kn   float64 // seconds, mean knots
	uaMps, fetchM float64
	worked        bool // uaMps and fetchM are worked out
}

// work fills in the powers, which cost more than all else here and are wanted for
// one or two stretches of most histories.
func (s *stretch) work() {
	if !s.worked {
		s.uaMps = AdjustedWind(s.kn * knotInMps)
		s.fetchM = DurationFetch(s.uaMps, s.lengthS)
		s.worked = true
	}
}

// history is the stretches before a time that can decide the sea then, from
// short and strong to long and weaker. A stretch that is neither longer nor
// stronger than another raises no higher sea and is left out, so that in steady
// or falling wind a single one is left.
type history struct {
	stretches [stretchCount]stretch
	n         int
}

// history of the wind up to t, which the series must cover.
func (s *WindSeries) history(t time.Time) history {
	const rounding = 1 + 1e-12 // equal means differ by the rounding of two integrals
	var h history
	first, strongest, now := stretchCount, -1.0, seconds(s.times[0], t)
	end := s.past.upTo(now)
	for k := stretchCount - 1; k >= 0; k-- {
		length := stretches[k].Seconds()
		kn := (end - s.past.upTo(now-length)) / length
		if kn <= strongest*rounding {
			continue
		}
		strongest = kn
		first--
		h.stretches[first] = stretch{lengthS: length, kn: kn}
	}
	h.n = copy(h.stretches[:], h.stretches[first:])
	return h
}

// Growth is the sea that the wind alone raises, and how it came about.
type Growth struct {
	HsM, PeriodS    float64 // significant height, peak period
	FetchM          float64 // mean of the rays
	DepthM          float64 // mean along the rays, +Inf where unknown: deep
	MeanKn, Hours   float64 // the stretch of past wind that decides
	UAMps           float64 // its adjusted speed
	DurationLimited bool    // time, not fetch, limits the height
}

// grow is the highest of the seas that the stretches raise over a fetch.
func (h *history) grow(f fetch) Growth {
	best, at, reach := -1.0, 0, 0.0
	for i := range h.stretches[:h.n] {
		s := &h.stretches[i]
		s.work()
		r := math.Min(f.meanM, s.fetchM)
		if hs := growHeight(s.uaMps, r, f.depthM); hs > best {
			best, at, reach = hs, i, r
		}
		if s.fetchM >= f.meanM {
			break // longer stretches are weaker, over the same fetch
		}
	}
	s := h.stretches[at]
	return Growth{
		HsM: best, PeriodS: growPeriod(s.uaMps, reach, f.depthM),
		FetchM: f.meanM, DepthM: f.depthM,
		MeanKn: s.kn, Hours: s.lengthS / 3600, UAMps: s.uaMps,
		DurationLimited: reach < f.meanM,
	}
}

// calmFetch is a fetch in metres over which the sea stays below a height in any
// depth and whatever the time: eq 3-39 in deep water solved for the fetch, with
// the strongest stretch. Below 0 for no height, +Inf where that wind cannot raise
// such a sea at all.
func (h *history) calmFetch(hsM float64) float64 {
	if !(hsM > 0) {
		return -1
	}
	s := &h.stretches[0]
	s.work()
	scale := s.uaMps * s.uaMps / gravity
	share := hsM / (0.283 * scale)
	if share >= 1 || scale == 0 {
		return math.Inf(1)
	}
	root := math.Atanh(share) / 0.00565
	return scale * root * root
}
