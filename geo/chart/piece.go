package chart

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// MaxPieceM is the greatest length of a piece of track: short enough that a
// Plane about its middle keeps lengths true to 0.1 % below 70° of latitude.
const MaxPieceM = 3704 // two nautical miles

// Piece is a straight piece of track: a rhumb line of at most MaxPieceM, seen
// in its own frame. Along it, s runs from 0 to LengthM; across it, d is
// positive to port.
type Piece struct {
	From, To orb.Point
	LengthM  float64

	plane  geo.Plane
	origin geo.XY // of From
	dir    geo.XY // unit vector
}

// NewPiece is the piece between two positions, which must lie within
// MaxPieceM of each other on one leg. From equal to To is a place: its only s
// is 0.
func NewPiece(from, to orb.Point) Piece {
	mid := orb.Point{from[0] + geo.Turn(from[0], to[0])/2, (from[1] + to[1]) / 2}
	p := Piece{From: from, To: to, plane: geo.NewPlane(mid), dir: geo.XY{X: 1}}
	p.origin = p.plane.XY(from)
	v := p.plane.XY(to).Sub(p.origin)
	p.LengthM = v.Len()
	if p.LengthM > 0 {
		p.dir = v.Scale(1 / p.LengthM)
	}
	return p
}

// Pieces cuts a rhumb line into pieces of equal length.
func Pieces(r geo.Rhumb) []Piece {
	n := int(math.Ceil(r.LengthM / MaxPieceM))
	if n < 1 {
		n = 1
	}
	out := make([]Piece, n)
	from := r.From
	for i := range out {
		to := r.To
		if i < n-1 {
			to = r.At(r.LengthM * float64(i+1) / float64(n))
		}
		out[i] = NewPiece(from, to)
		from = to
	}
	return out
}

// At is the position s metres along the piece.
func (p *Piece) At(s float64) orb.Point {
	return p.plane.Position(p.origin.Add(p.dir.Scale(s)))
}

// scaleWithin is the factor that makes a length of the frame surely no shorter
// than the length it stands for, so far from the piece.
func (p *Piece) scaleWithin(reach float64) float64 {
	return 1 + p.plane.ScaleError(p.LengthM/2+reach)
}

// beside is the position s metres along the piece and d metres to port of it.
func (p *Piece) beside(s, d float64) orb.Point {
	return p.plane.Position(p.origin.Add(p.dir.Scale(s)).Add(geo.XY{X: -p.dir.Y, Y: p.dir.X}.Scale(d)))
}

// frame gives a vertex's place along (X) and across (Y) the piece.
func (p *Piece) frame(c Coord) geo.XY {
	v := p.plane.XY(c.Position()).Sub(p.origin)
	return geo.XY{X: v.Dot(p.dir), Y: p.dir.Cross(v)}
}

// Frame gives a position's distance along the piece and across it, metres,
// port positive.
func (p *Piece) Frame(pos orb.Point) (along, across float64) {
	v := p.plane.XY(pos).Sub(p.origin)
	return v.Dot(p.dir), p.dir.Cross(v)
}

// DistanceM is the distance of a position from the piece, metres.
func (p *Piece) DistanceM(pos orb.Point) float64 {
	return pointDistance(p.place(pos), p.LengthM)
}

func (p *Piece) place(pos orb.Point) geo.XY {
	along, across := p.Frame(pos)
	return geo.XY{X: along, Y: across}
}

// box is the piece's bounding box in degrees, grown by a reach in metres. It
// may run beyond ±180°.
func (p *Piece) box(reach float64) (lo, hi [2]float64) {
	dLon, dLat := p.plane.DegreesAround(reach + resolutionM)
	west, east := p.From[0], p.From[0]+geo.Turn(p.From[0], p.To[0])
	lo = [2]float64{min(west, east) - dLon, min(p.From[1], p.To[1]) - dLat}
	hi = [2]float64{max(west, east) + dLon, max(p.From[1], p.To[1]) + dLat}
	return lo, hi
}

// within gives the s in [0, length] whose distance from the segment a-b (in
// the piece's frame) is at most w. The set is an interval, as a capsule is
// convex. ok is false where it is empty.
func within(a, b geo.XY, w, length float64) (from, to float64, ok bool) {
	if min(a.Y, b.Y) > w || max(a.Y, b.Y) < -w ||
		max(a.X, b.X) < -w || min(a.X, b.X) > length+w {
		return 0, 0, false
	}
	from, to = math.Inf(1), math.Inf(-1)
	for _, q := range [2]geo.XY{a, b} { // the round ends
		if h2 := w*w - q.Y*q.Y; h2 >= 0 {
			h := math.Sqrt(h2)
			from, to = min(from, q.X-h), max(to, q.X+h)
		}
	}
	if lo, hi, side := besideSegment(a, b, w); side {
		from, to = min(from, lo), max(to, hi)
	}
	from, to = max(from, 0), min(to, length)
	return from, to, from <= to
}

// besideSegment gives the s whose foot on a-b lies between its ends and whose
// distance from it is at most w.
func besideSegment(a, b geo.XY, w float64) (lo, hi float64, ok bool) {
	v := b.Sub(a)
	l := v.Len()
	if l == 0 {
		return 0, 0, false
	}
	e := v.Scale(1 / l)
	lo, hi = math.Inf(-1), math.Inf(1)
	// Distance from the line: |(s - a.X)·e.Y + a.Y·e.X| <= w.
	if !clipLinear(e.Y, a.Y*e.X-a.X*e.Y, -w, w, &lo, &hi) {
		return 0, 0, false
	}
	// Foot between the ends: 0 <= (s - a.X)·e.X - a.Y·e.Y <= l.
	if !clipLinear(e.X, -a.Y*e.Y-a.X*e.X, 0, l, &lo, &hi) {
		return 0, 0, false
	}
	return lo, hi, lo <= hi
}

// clipLinear narrows [lo, hi] to where least <= k·s + c <= most.
func clipLinear(k, c, least, most float64, lo, hi *float64) bool {
	if math.Abs(k) < 1e-12 { // the same for all s
		return least <= c && c <= most
	}
	s0, s1 := (least-c)/k, (most-c)/k
	if s0 > s1 {
		s0, s1 = s1, s0
	}
	*lo, *hi = max(*lo, s0), min(*hi, s1)
	return *lo <= *hi
}

// crossing gives where the segment crosses the piece's line. Both directions
// of a segment give the same number, so neighbouring areas meet exactly.
func crossing(a, b geo.XY) (s float64, ok bool) {
	if (a.Y < 0) == (b.Y < 0) {
		return 0, false
	}
	if b.Y < a.Y {
		a, b = b, a
	}
	return a.X + (b.X-a.X)*(-a.Y/(b.Y-a.Y)), true
}

// distance between the segment a-b and the piece, metres.
func distance(a, b geo.XY, length float64) float64 {
	if s, ok := crossing(a, b); ok && s >= 0 && s <= length {
		return 0
	}
	d := min(pointDistance(a, length), pointDistance(b, length))
	start, end := geo.XY{}, geo.XY{X: length}
	return min(d, min(segmentDistance(start, a, b), segmentDistance(end, a, b)))
}

// pointDistance from a point to the piece.
func pointDistance(q geo.XY, length float64) float64 {
	return math.Hypot(q.X-max(0, min(length, q.X)), q.Y)
}

// segmentDistance from a point to the segment a-b.
func segmentDistance(p, a, b geo.XY) float64 {
	v, u := b.Sub(a), p.Sub(a)
	l2 := v.Dot(v)
	if l2 == 0 {
		return u.Len()
	}
	t := max(0, min(1, u.Dot(v)/l2))
	return u.Sub(v.Scale(t)).Len()
}
