package sea

import (
	"math"
	"time"

	"github.com/paulmach/orb"
)

// basin is a rectangle of water, invented, whose walls are land or the data's
// edge. Its points are metres east and north instead of degrees: the model hands
// them through untouched.
type basin struct {
	min, max  orb.Point
	openNorth bool // the north side is the data's edge
	depthM    float64
}

func (b basin) Cast(from orb.Point, towardDeg, maxM float64, _ time.Time) Ray {
	sin, cos := math.Sincos(towardDeg * math.Pi / 180)
	side := wall(from[0], b.min[0], b.max[0], sin)
	end := wall(from[1], b.min[1], b.max[1], cos)
	length := math.Min(side, end)
	open := b.openNorth && cos > 0 && end < side
	if length > maxM {
		length, open = maxM, true
	}
	return Ray{LengthM: length, Open: open, MeanDepthM: b.depthM}
}

// wall is the distance along a ray to the nearer or farther wall of one axis.
func wall(at, lo, hi, step float64) float64 {
	switch {
	case step > 1e-12:
		return (hi - at) / step
	case step < -1e-12:
		return (lo - at) / step
	}
	return math.Inf(1)
}

// bearings is a caster told what lies on each bearing; it counts its rays.
type bearings struct {
	ray  func(deg float64) Ray
	cast int
}

func (b *bearings) Cast(_ orb.Point, towardDeg, _ float64, _ time.Time) Ray {
	b.cast++
	return b.ray(towardDeg)
}

// within says whether a bearing is at most halfDeg from another.
func within(deg, aboutDeg, halfDeg float64) bool {
	return math.Abs(math.Remainder(deg-aboutDeg, 360)) <= halfDeg+1e-9
}
