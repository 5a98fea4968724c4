package sea

import (
	"math"
	"time"

	"github.com/paulmach/orb"
)

const roseRays = 360 / int(raySpacing)

// rose is rays all round a place, the first at startDeg, and the fetches for a
// wind from each of them.
type rose struct {
	startDeg         float64
	rays             [roseRays]Ray
	openM            float64
	within, withOpen ring
	worked           [roseRays]bool // which fetches are worked out
}

// ring is a fetch for each bearing of a rose.
type ring struct {
	rose    *rose
	fetches [roseRays]fetch
}

func (m *Model) rose(p orb.Point, startDeg float64, t time.Time) *rose {
	r := &rose{startDeg: startDeg, openM: m.openFetchM()}
	r.within.rose, r.withOpen.rose = r, r
	for i := range r.rays {
		r.rays[i] = m.cast(p, startDeg+float64(i)*raySpacing, t)
	}
	return r
}

// fetch is the one for a wind from ray i.
func (g *ring) fetch(i int) fetch {
	if r := g.rose; !r.worked[i] {
		f := newFan(r.about(i), r.openM)
		r.within.fetches[i], r.withOpen.fetches[i] = f.within, f.withOpen
		r.worked[i] = true
	}
	return g.fetches[i]
}

// about is the fan of rays about ray i.
func (r *rose) about(i int) *[fanRays]Ray {
	var rays [fanRays]Ray
	for k := range rays {
		rays[k] = r.rays[(i+k-fanRays/2+roseRays)%roseRays]
	}
	return &rays
}

// open says whether the ray nearest to a bearing is open.
func (r *rose) open(deg float64) bool {
	i, j, share := bearingPlace(deg - r.startDeg)
	if share > 0.5 {
		i = j
	}
	return r.rays[i].Open
}

// at is the fetch for a wind from a bearing: between two rays the length is
// linear and the deeper depth counts.
func (g *ring) at(deg float64) fetch {
	i, j, share := bearingPlace(deg - g.rose.startDeg)
	a := g.fetch(i)
	if share == 0 {
		return a
	}
	b := g.fetch(j)
	return fetch{meanM: between(a.meanM, b.meanM, share), depthM: math.Max(a.depthM, b.depthM)}
}

// bearingPlace finds the rays i and j about a bearing counted from the first ray,
// and its share of the way from i to j. A bearing that is a ray's but for rounding
// is the ray's.
func bearingPlace(deg float64) (i, j int, share float64) {
	const rounding = 1e-9
	x := fullCircle(deg) / raySpacing
	if near := math.Round(x); math.Abs(x-near) < rounding {
		x = near
	}
	whole, share := math.Modf(x)
	i = int(whole) % roseRays
	return i, (i + 1) % roseRays, share
}
