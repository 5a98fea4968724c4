package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Where no direction of buoyage is charted, the channel that a lateral mark marks
// shows it: a port-hand mark has its channel to the right of it, going with the
// buoyage, a starboard-hand mark to the left (IALA R1001). Where the channel lies is
// told by the fairway at whose edge the mark stands, else by its mate across the
// channel, else by a recommended track or leading line beside it. What is not plain
// is not used.

// How far from a mark its channel is looked for, metres (judgement).
const (
	fairwayM     = 100       // from the edge of its fairway
	insideEdgeM  = 30        // the same, from inside
	lineM        = 300       // from a recommended track or leading line
	onLineM      = 15        // nearer than that, the mark is on the line
	neighbourM   = 4 * gateM // to the next mark of its hand
	notAbreast   = 0.26      // sine of 15°: mates that are nearly in line with the channel tell nothing
	parallelDeg  = 30        // edges that run as one side of a channel
	disagreesDeg = 60        // between two things that tell where the channel lies
)

// buoys reads lateral marks: which hand each marks, and which way the buoyage runs
// there. It depends on the charts and on what the plan says of the buoyage.
type buoys struct {
	*ground
	plan *plan.Plan
}

func (c *checker) buoys() buoys { return buoys{c.ground, c.plan} }

// channelKey is a mark read in a region, which may decide on its hand.
type channelKey struct {
	f      *chart.Feature
	region string
}

// channelAt is the direction of buoyage that a mark's channel shows.
type channelAt struct {
	deg float64
	ok  bool
}

// shownDirection is the direction of buoyage at a lateral mark of a hand as its
// channel shows it.
func (b buoys) shownDirection(f *chart.Feature, hand int) (deg float64, ok bool) {
	key := channelKey{f, b.region(f)}
	d, seen := b.channels[key]
	if !seen {
		if toward, ok := b.channelSide(f, hand); ok {
			turn := -90.0
			if hand == starboardHand {
				turn = 90
			}
			d = channelAt{geo.Bearing(toward + turn), true}
		}
		b.channels[key] = d
	}
	return d.deg, d.ok
}

// channelSide is the bearing from a mark straight across its channel. Where two
// things put the channel on different sides, it is not known.
func (b buoys) channelSide(f *chart.Feature, hand int) (toward float64, ok bool) {
	for _, look := range []func() (float64, bool){
		func() (float64, bool) { return b.fairwaySide(f) },
		func() (float64, bool) { return b.mateSide(f, hand) },
		func() (float64, bool) { return b.lineSide(f) },
	} {
		deg, found := look()
		if !found {
			continue
		}
		if ok && math.Abs(geo.Turn(toward, deg)) > 90 {
			return 0, false
		}
		if !ok {
			toward, ok = deg, true
		}
	}
	return toward, ok
}

// mateSide goes by a mark's mate: the nearest mark of the other hand, of which it is
// the nearest in turn. Mates need not be abreast of each other: what of the way to
// the mate runs along the channel, as the next mark of the same hand shows it, is
// taken off.
func (b buoys) mateSide(f *chart.Feature, hand int) (toward float64, ok bool) {
	mate, ok := b.mate(f, hand)
	if !ok {
		return 0, false
	}
	if back, ok := b.mate(mate, portHand+starboardHand-hand); !ok || back != f {
		return 0, false
	}
	here := f.Coords[0].Position()
	plane := geo.NewPlane(here)
	across := plane.XY(mate.Coords[0].Position()).Sub(plane.XY(here))
	if next, ok := b.nearestOfHand(f, hand, neighbourM); ok {
		along := plane.XY(next.Coords[0].Position()).Sub(plane.XY(here))
		square := across.Sub(along.Scale(across.Dot(along) / along.Dot(along)))
		if square.Len() < notAbreast*across.Len() {
			return 0, false
		}
		across = square
	}
	return bearingOf(across), true
}

func bearingOf(v geo.XY) float64 { return geo.Bearing(math.Atan2(v.X, v.Y) * 180 / math.Pi) }

// nearestOfHand is the nearest other lateral mark of a hand within some metres.
func (b buoys) nearestOfHand(f *chart.Feature, hand int, reachM float64) (best *chart.Feature, ok bool) {
	at := f.Coords[0].Position()
	for _, g := range b.query.MarksNear(chart.NewPiece(at, at), reachM) {
		if g == f || g.UnreadMark() || !g.Class.Lateral() || b.chart.Overruled(g) {
			continue
		}
		d := geo.DistanceM(at, g.Coords[0].Position())
		if other, known := b.hand(g); !known || other != hand || d > reachM || d < twinM {
			continue // so near it is the same mark on another chart
		}
		if best == nil || d < geo.DistanceM(at, best.Coords[0].Position()) {
			best = g
		}
	}
	return best, best != nil
}

// fairwaySide goes by the edge of the fairway at which a mark stands: across its
// ORIENT where that is charted, else across the edge. A corner, and the end of a
// fairway, which is shorter than the fairway is long, tell nothing.
func (b buoys) fairwaySide(f *chart.Feature) (toward float64, ok bool) {
	at := f.Coords[0].Position()
	met := b.query.At(at, chart.Reach{HalfM: fairwayM})
	nearestM := math.Inf(1)
	for i := range met.Hits {
		h := &met.Hits[i]
		if h.Class != chart.FAIRWY || h.Prim != chart.Area || len(h.Near) == 0 || b.chart.Overruled(h.Feature) {
			continue
		}
		side, metres, found := b.edgeSide(h.Feature, at)
		switch {
		case metres > nearestM+cornerM:
			continue
		case metres >= nearestM-cornerM && (!found || !ok || math.Abs(geo.Turn(toward, side)) > disagreesDeg):
			toward, ok = 0, false // at the edges of two fairways that tell differently
		default:
			toward, ok = side, found
		}
		nearestM = math.Min(nearestM, metres)
	}
	return toward, ok
}

// edgeSide is the bearing into an area across the side of it that is nearest to a
// place, and how far off that is.
func (b buoys) edgeSide(area *chart.Feature, at orb.Point) (inward, metres float64, ok bool) {
	rim := rimAbout(area, at)
	side, ok := rim.nearestSide()
	metres = side.foot.Len()
	if !ok {
		return 0, metres, false
	}
	normal := geo.XY{X: -side.dir.Y, Y: side.dir.X}
	left, right := b.within(area, rim.place(side.foot.Add(normal.Scale(5)))), b.within(area, rim.place(side.foot.Sub(normal.Scale(5))))
	if left == right {
		return 0, metres, false // a tip of the area
	}
	if right {
		normal = normal.Scale(-1)
	}
	if metres > insideEdgeM && b.within(area, at) || side.lengthM < rim.widthM(side.foot, normal) {
		return 0, metres, false
	}
	inward, ok = acrossAxis(area, bearingOf(normal))
	return inward, metres, ok
}

// acrossAxis is the bearing across an area's ORIENT that is nearest to the one given,
// which it is where none is charted. Where the two are far from each other, the area
// bends here.
func acrossAxis(area *chart.Feature, inward float64) (deg float64, ok bool) {
	if area.Meta == nil || !chart.Known(area.Meta.OrientDeg) {
		return inward, true
	}
	for _, turn := range []float64{90, -90} {
		if d := geo.Bearing(area.Meta.OrientDeg + turn); math.Abs(geo.Turn(inward, d)) <= disagreesDeg {
			return d, true
		}
	}
	return 0, false
}

func (b buoys) within(area *chart.Feature, p orb.Point) bool {
	for _, f := range b.query.AreasAt(p) {
		if f == area {
			return true
		}
	}
	return false
}

// lineSide goes by a recommended track or leading line that a mark stands beside.
func (b buoys) lineSide(f *chart.Feature) (toward float64, ok bool) {
	at := f.Coords[0].Position()
	met := b.query.At(at, chart.Reach{HalfM: lineM})
	for i := range met.Hits {
		h := &met.Hits[i]
		if h.Class != chart.RECTRC && h.Class != chart.NAVLNE || h.Prim != chart.Line || len(h.Near) == 0 || b.chart.Overruled(h.Feature) {
			continue
		}
		side, found := rimAbout(h.Feature, at).nearestEdge()
		across := math.Abs(side.dir.Cross(side.foot))
		switch {
		case !found, across < onLineM, across < side.foot.Len()*math.Sqrt2/2: // on it, or beyond its end
			continue
		case ok && math.Abs(geo.Turn(toward, bearingOf(side.foot))) > disagreesDeg:
			return 0, false
		}
		toward, ok = bearingOf(side.foot), true
	}
	return toward, ok
}
