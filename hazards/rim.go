package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// rim is the edges of an area or line on a plane about a place, which is its origin.
type rim struct {
	plane  geo.Plane
	parts  [][]geo.XY
	closed bool
}

// rimSide is one side of a rim: where it is nearest to the origin, which way it runs,
// and how far.
type rimSide struct {
	foot, dir geo.XY
	lengthM   float64
	part, at  int // its edge
}

func rimAbout(f *chart.Feature, at orb.Point) *rim {
	r := &rim{plane: geo.NewPlane(at), closed: f.Prim == chart.Area}
	f.Parts(func(part []chart.Coord) {
		line := make([]geo.XY, len(part))
		for i, c := range part {
			line[i] = r.plane.XY(c.Position())
		}
		r.parts = append(r.parts, line)
	})
	return r
}

// place is the position of a point of the rim's plane.
func (r *rim) place(q geo.XY) orb.Point { return r.plane.Position(q) }

// edges calls fn with every edge.
func (r *rim) edges(fn func(part, at int, a, b geo.XY)) {
	for k, line := range r.parts {
		for i := 1; i < len(line); i++ {
			if line[i] != line[i-1] {
				fn(k, i, line[i-1], line[i])
			}
		}
	}
}

// nearestEdge is the edge nearest to the origin.
func (r *rim) nearestEdge() (side rimSide, ok bool) {
	r.edges(func(part, at int, a, b geo.XY) {
		if foot := footOn(a, b); !ok || foot.Len() < side.foot.Len() {
			v := b.Sub(a)
			side, ok = rimSide{foot: foot, dir: v.Scale(1 / v.Len()), part: part, at: at}, true
		}
	})
	return side, ok
}

// footOn is the point of the segment a-b nearest to the origin.
func footOn(a, b geo.XY) geo.XY {
	v := b.Sub(a)
	return a.Add(v.Scale(math.Max(0, math.Min(1, -a.Dot(v)/v.Dot(v)))))
}

// cornerM is how much farther than the nearest edge another may be and still make a
// corner of the two.
const cornerM = 20

// nearestSide is the nearest side of an area: the edge nearest to the origin and
// those that run on from it. ok is false at a corner.
func (r *rim) nearestSide() (side rimSide, ok bool) {
	side, ok = r.nearestEdge()
	r.edges(func(part, at int, a, b geo.XY) {
		if footOn(a, b).Len() < side.foot.Len()+cornerM && !parallel(side.dir, b.Sub(a)) {
			ok = false
		}
	})
	if ok {
		side.lengthM = r.runM(side)
	}
	return side, ok
}

func parallel(a, b geo.XY) bool {
	return math.Abs(a.Cross(b)) <= math.Sin(parallelDeg*math.Pi/180)*a.Len()*b.Len()
}

// runM is the length of the edges that run on from a side's, both ways.
func (r *rim) runM(side rimSide) float64 {
	line := r.parts[side.part]
	n := len(line) - 1 // edges; a ring's last point is its first
	length := line[side.at].Sub(line[side.at-1]).Len()
	for _, step := range []int{1, -1} {
		for k := 1; k < n; k++ {
			i := side.at - 1 + step*k
			if !r.closed && (i < 0 || i >= n) {
				break
			}
			i = (i%n + n) % n
			v := line[i+1].Sub(line[i])
			if !parallel(side.dir, v) {
				break
			}
			length += v.Len()
		}
	}
	return length
}

// widthM is how far the rim lies across from a point of it, in a direction.
func (r *rim) widthM(from, dir geo.XY) float64 {
	width := math.Inf(1)
	r.edges(func(_, _ int, a, b geo.XY) {
		v, w := b.Sub(a), a.Sub(from)
		d := dir.Cross(v)
		if d == 0 {
			return
		}
		t, s := w.Cross(v)/d, w.Cross(dir)/d
		if t > 1 && s >= 0 && s <= 1 {
			width = math.Min(width, t)
		}
	})
	return width
}
