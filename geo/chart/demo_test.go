package chart_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/geo/chart/demobed"
)

// The demo chart is drawn from a bed that is known everywhere (demobed), with
// contours at these depths and areas whose DRVAL2 is the next one and 0.2 m
// (demogen, doc.go). Zones (dredged, drying by hand) keep bands of their own.
var bandsM = []float64{-3, 0, 1, 2, 3, 5, 10, 20, 30, 100}

// bound is the least depth that a look-up claims: +Inf for no claim, -Inf for
// unknown water and land.
func bound(m chart.Met) float64 {
	least := math.Inf(1)
	if len(m.Outside)+len(m.Untiled) > 0 {
		return math.Inf(-1)
	}
	for _, h := range m.Hits {
		switch {
		case len(h.Near) == 0:
		case h.UnknownWater(), h.Class == chart.LNDARE:
			return math.Inf(-1)
		case h.Class.WaterArea(), h.Class == chart.DEPCNT && chart.Known(h.DepthMinM):
			least = math.Min(least, h.DepthMinM)
		case h.Class == chart.SOUNDG:
			for _, s := range h.Soundings {
				if s.InCorridor {
					least = math.Min(least, s.DepthM)
				}
			}
		}
	}
	return least
}

// The chart's bound is never deeper than the bed, at random places half of
// which lie within 5 m of an edge, and never more than a band shoaler where it
// is the place's own area that says so.
func TestBoundIsNeverDeeperThanTheBed(t *testing.T) {
	c := chart.New(demo(t))
	q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
	areas := shapes(c, chart.DEPARE, chart.DRGARE)
	own := 0
	for i := range fewer(10_000) {
		p := within(rng, demobed.Bounds())
		if i%2 == 0 {
			r := areas[rng.Intn(len(areas))].parts[0]
			k, f := 1+rng.Intn(len(r)-1), rng.Float64()
			on := orb.Point{r[k-1][0] + f*(r[k][0]-r[k-1][0]), r[k-1][1] + f*(r[k][1]-r[k-1][1])}
			p = geo.Direct(on, 360*rng.Float64(), 5*rng.Float64()*rng.Float64())
		}
		met, bed := q.At(p, chart.Reach{}), demobed.DepthM(p)
		claim := bound(met)
		if claim > bed {
			t.Fatalf("%v: the chart claims %.2f m, the bed is at %.3f m", p, claim, bed)
		}
		if a, ok := onlyArea(met); ok && a.Class == chart.DEPARE && claim == a.DepthMinM {
			own++
			if bed > nextBand(claim)+0.2+1e-6 {
				t.Fatalf("%v: the chart claims %.2f m, the bed is at %.3f m: over a band deeper", p, claim, bed)
			}
		}
	}
	if own < fewer(10_000)/3 {
		t.Errorf("only %d places in one band", own)
	}
}

// onlyArea is the one area of water that a place lies in.
func onlyArea(m chart.Met) (a *chart.Feature, ok bool) {
	n := 0
	for _, h := range m.Hits {
		if h.Class.WaterArea() && len(h.Near) > 0 {
			a, n = h.Feature, n+1
		}
	}
	return a, n == 1
}

func nextBand(depth float64) float64 {
	for _, b := range bandsM {
		if b > depth {
			return b
		}
	}
	return math.Inf(1)
}

// The bound of a corridor is never deeper than the bed anywhere in it.
func TestBoundOfACorridorIsNeverDeeperThanItsBed(t *testing.T) {
	c := chart.New(demo(t))
	q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
	const half = 25
	claims := 0
	for range fewer(400) {
		from := within(rng, demobed.Bounds())
		p := chart.NewPiece(from, geo.Direct(from, 360*rng.Float64(), 600*rng.Float64()))
		claim, least := bound(q.Along(p, chart.Reach{HalfM: half})), math.Inf(1)
		for range 400 {
			at := p.At(p.LengthM * rng.Float64())
			at = geo.Direct(at, 360*rng.Float64(), half*math.Sqrt(rng.Float64()))
			least = math.Min(least, demobed.DepthM(at))
		}
		if !math.IsInf(claim, -1) {
			claims++
		}
		if claim > least {
			t.Errorf("%v-%v: the corridor claims %.2f m, the bed is at %.3f m", p.From, p.To, claim, least)
		}
	}
	if claims == 0 {
		t.Error("no corridor over known water")
	}
}
