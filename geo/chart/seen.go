package chart

import (
	"math"

	"keelroom/geo"
)

// Seen is how a thing lies about a place: how near it comes and the bearings that it
// takes up. A thing that must be kept off by a distance is that much larger.
type Seen struct {
	DistM    float64  // to the nearest of it, 0 where it holds the place
	Bearings geo.Arcs // on which a straight line from the place to the edge of the disc meets it

	offM     float64 // by how much it is larger
	holds    bool    // it holds the place
	segments []segment
}

// there reports whether some of the thing is in the disc.
func (s *Seen) there() bool { return s.holds || len(s.segments) > 0 }

// Nearest is the least distance to the thing on some bearings, and on which of them; ok
// is false where it does not come into the disc on any of them.
func (s *Seen) Nearest(of geo.Arcs) (metres, deg float64, ok bool) {
	if s.holds && len(of) > 0 {
		return 0, of[0].FromDeg, true
	}
	metres = math.Inf(1)
	for _, g := range s.segments {
		foot := segmentFoot(geo.XY{}, g.a, g.b)
		if foot.Len()-s.offM >= metres {
			continue
		}
		if m, at := g.nearest(of, foot, s.offM); m < metres {
			metres, deg = m, at
		}
	}
	return metres, deg, !math.IsInf(metres, 1)
}

// reaches brings a segment into what is seen, if some of it, with what it is kept off
// by, lies in a disc of so many metres, and gives its bearings if they are wanted.
func (s *Seen) reaches(g segment, radiusM float64, bearings bool) (arc geo.Arc, ok bool) {
	foot := segmentFoot(geo.XY{}, g.a, g.b)
	d := foot.Len()
	if d > radiusM+s.offM {
		return arc, false
	}
	s.segments = append(s.segments, g)
	s.DistM = math.Min(s.DistM, math.Max(0, d-s.offM))
	switch {
	case !bearings:
		return arc, true
	case d <= s.offM:
		return geo.Arc{FromDeg: 0, ToDeg: 360}, true
	}
	return g.bearings(foot, s.offM, radiusM), true
}

// bearings are those on which a line of a length meets what lies within a reach of the
// segment, whose point nearest to the place, the foot, is farther than the reach and
// not out of it. All of that lies within a quarter of a turn of the foot: what is cut
// out of a disc is convex there, so that it is one arc, which ends where its rim does:
// at an end's round, beside the segment, or at the edge of the disc.
func (g segment) bearings(foot geo.XY, reach, length float64) geo.Arc {
	middle := bearingOf(foot)
	before, after := 0.0, 0.0
	take := func(p geo.XY, half float64) {
		off := geo.Turn(middle, bearingOf(p))
		before, after = math.Max(before, half-off), math.Max(after, half+off)
	}
	for _, p := range [3]geo.XY{g.a, g.b, foot} {
		if half, ok := roundWidth(p.Len(), reach, length); ok {
			take(p, half)
		}
	}
	for _, side := range g.sides(reach) {
		if a, b, ok := side.inDisc(length); ok {
			take(a, 0)
			take(b, 0)
		}
	}
	return geo.ArcAbout(middle, before, after)
}

// bearingOf is the bearing of a place from the middle, in degrees.
func bearingOf(p geo.XY) float64 { return geo.Bearing(math.Atan2(p.X, p.Y) * 180 / math.Pi) }

// roundWidth is half the angle, in degrees, that a disc about a place takes up for
// lines of a length; the middle is not in it.
func roundWidth(d, reach, length float64) (deg float64, ok bool) {
	switch tangent := d*d - reach*reach; {
	case d > length+reach || d <= reach:
		return 0, false
	case tangent <= length*length:
		return math.Asin(reach/d) * 180 / math.Pi, true
	}
	return math.Acos(math.Min(1, (d*d+length*length-reach*reach)/(2*d*length))) * 180 / math.Pi, true
}

// sides are the two lines at a distance beside the segment.
func (g segment) sides(off float64) [2]segment {
	v := g.b.Sub(g.a)
	l := v.Len()
	if l == 0 {
		return [2]segment{g, g}
	}
	n := geo.XY{X: -v.Y, Y: v.X}.Scale(off / l)
	return [2]segment{{g.a.Add(n), g.b.Add(n)}, {g.a.Sub(n), g.b.Sub(n)}}
}

// inDisc is the part of the segment in a disc about the middle.
func (g segment) inDisc(radius float64) (a, b geo.XY, ok bool) {
	v := g.b.Sub(g.a)
	vv, av := v.Dot(v), g.a.Dot(v)
	if vv == 0 {
		return g.a, g.b, g.a.Len() <= radius
	}
	root := av*av - vv*(g.a.Dot(g.a)-radius*radius)
	if root < 0 {
		return a, b, false
	}
	root = math.Sqrt(root)
	from, to := math.Max(0, (-av-root)/vv), math.Min(1, (-av+root)/vv)
	return g.a.Add(v.Scale(from)), g.a.Add(v.Scale(to)), from <= to
}

// nearest is the least distance from the middle to what lies within a reach of the
// segment, on some bearings, and on which: that of its nearest point, the foot, if that
// is on one of them, else of where a line on the edge of them comes to it. +Inf where
// none does.
func (g segment) nearest(of geo.Arcs, foot geo.XY, reach float64) (metres, deg float64) {
	d := foot.Len()
	if deg = bearingOf(foot); d <= reach || of.Holds(deg) {
		return math.Max(0, d-reach), deg
	}
	metres = math.Inf(1)
	for _, arc := range of {
		for _, edge := range [2]float64{arc.FromDeg, arc.ToDeg} {
			sin, cos := math.Sincos(edge * math.Pi / 180)
			if m := g.along(geo.XY{X: sin, Y: cos}, reach); m < metres {
				metres, deg = m, geo.Bearing(edge)
			}
		}
	}
	return metres, deg
}

// along is how far a line from the middle in a direction goes until it comes within a
// reach of the segment; +Inf where it does not.
func (g segment) along(dir geo.XY, reach float64) float64 {
	least := math.Inf(1)
	for _, p := range [2]geo.XY{g.a, g.b} {
		across := dir.Cross(p)
		if h := reach*reach - across*across; h >= 0 {
			if s := dir.Dot(p) - math.Sqrt(h); s >= 0 {
				least = math.Min(least, s)
			}
		}
	}
	for _, side := range g.sides(reach) {
		v := side.b.Sub(side.a)
		across := dir.Cross(v)
		if across == 0 {
			continue // along the side: an end's round comes first
		}
		s, t := side.a.Cross(v)/across, side.a.Cross(dir)/across
		if s >= 0 && t >= 0 && t <= 1 {
			least = math.Min(least, s)
		}
	}
	return least
}
