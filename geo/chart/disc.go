package chart

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// Disc is all that lies in a disc about a place: the water that a boat at anchor may
// come to lie in. Nothing of it depends on a polygon of the disc.
type Disc struct {
	Things []InDisc
	// Unknown is where no set has data, or a chart that should describe the water
	// does not; nil where all of the disc is known.
	Unknown *Seen

	hazardM float64
	scale   float64 // of its plane
}

// InDisc is a feature that lies in a disc.
type InDisc struct {
	*Feature
	Seen
	// Soundings of a SOUNDG feature, one by one; Seen has them all.
	Soundings []SeenSounding
}

// SeenSounding is one depth of a SOUNDG feature.
type SeenSounding struct {
	DepthM float64
	At     Coord
	Seen
}

// discWork is what a search in a disc has met of each feature.
type discWork struct {
	segments map[*Feature][]segment
}

// Disc gives all that lies within so many metres of a place, dangers, the marks that
// stand or float on one, and what was left out as so much larger as they must be kept off. Charts of smaller scale count where
// the larger ones do not cover the whole disc, as along a track.
func (q *Query) Disc(at orb.Point, radiusM, hazardM float64) Disc {
	return q.discAs(at, radiusM, hazardM, true)
}

// Wide is Disc without the bearings that things take up: it is asked only how far off
// they are.
func (q *Query) Wide(at orb.Point, radiusM, hazardM float64) Disc {
	return q.discAs(at, radiusM, hazardM, false)
}

func (q *Query) discAs(at orb.Point, radiusM, hazardM float64, bearings bool) Disc {
	p := NewPiece(at, at)
	radiusM, hazardM = positive(radiusM), positive(hazardM)
	q.disc = &discWork{map[*Feature][]segment{}}
	met := q.Along(p, Reach{HalfM: radiusM, HazardM: hazardM, CloseM: radiusM})
	work := q.disc
	q.disc = nil
	scale := p.scaleWithin(radiusM)
	view := discView{radiusM * scale, hazardM * scale, bearings}
	d := Disc{Things: make([]InDisc, 0, len(met.Hits)), hazardM: hazardM, scale: scale}
	for i := range met.Hits {
		if h := &met.Hits[i]; len(h.Near) > 0 {
			if t, ok := view.thing(&p, h, work.segments[h.Feature]); ok {
				d.Things = append(d.Things, t)
			}
		}
	}
	d.Things = append(d.Things, q.unreadMarksIn(&p, view)...)
	if len(met.Outside)+len(met.Untiled) > 0 {
		d.Unknown = q.unknownIn(&p, work, view)
	}
	return d
}

// unreadMarksIn are the marks in the disc that were left out. A leg is told of them as
// of marks, so that they are not among what lies along it. One may lie anywhere in its
// box.
func (q *Query) unreadMarksIn(p *Piece, v discView) []InDisc {
	var out []InDisc
	lo, hi := p.box(v.radiusM)
	q.chart.marks.search(lo, hi, func(c chunk) {
		f := q.chart.features[c.feature]
		if f.Class != refusedMark {
			return
		}
		if t := (InDisc{Feature: f, Seen: v.seen(resolutionM, f.contains(CoordOf(p.From)), p.boundary(f))}); t.there() {
			out = append(out, t)
		}
	})
	slices.SortFunc(out, func(a, b InDisc) int { return a.order(b.Feature) })
	return out
}

// boundary are the edges of an area in the piece's frame, long ones cut as everywhere
// else (densify).
func (p *Piece) boundary(f *Feature) []segment {
	var out []segment
	f.edges(func(e edge) {
		from := e.a
		for _, to := range append(appendBetween(nil, e.a, e.b), e.b) {
			out = append(out, segment{p.frame(from), p.frame(to)})
			from = to
		}
	})
	return out
}

// Within is the disc of a smaller radius about the same place. It is what a look of its
// own gives where all charts are of one scale (OneScale).
func (d *Disc) Within(radiusM float64) Disc {
	out := Disc{Things: make([]InDisc, 0, len(d.Things)), hazardM: d.hazardM, scale: d.scale}
	v := discView{positive(radiusM) * d.scale, d.hazardM * d.scale, true}
	for i := range d.Things {
		t := &d.Things[i]
		less := InDisc{Feature: t.Feature, Seen: v.seen(t.offM, t.holds, t.segments)}
		for _, s := range t.Soundings {
			if one := v.seen(s.offM, false, s.segments); len(one.Bearings) > 0 {
				less.Soundings = append(less.Soundings, SeenSounding{DepthM: s.DepthM, At: s.At, Seen: one})
			}
		}
		if len(less.Bearings) > 0 {
			out.Things = append(out.Things, less)
		}
	}
	if u := d.Unknown; u != nil {
		if less := v.seen(u.offM, u.holds, u.segments); len(less.Bearings) > 0 {
			out.Unknown = &less
		}
	}
	return out
}

// OneScale reports whether no chart takes from another what it says, so that what lies
// somewhere does not depend on how far about it is looked.
func (c *Chart) OneScale() bool { return !c.scales && !c.mixed }

// discView is a disc in its piece's frame.
type discView struct {
	radiusM, hazardM float64
	bearings         bool // are wanted
}

// off is by how much a feature counts as larger than it is.
func (v discView) off(f *Feature) float64 {
	if f.Class.Danger() || f.Class.IsolatedDanger() || f.Class == refusedArea {
		return v.hazardM + resolutionM
	}
	return resolutionM
}

// thing is a feature as it lies in the disc, if it does: features that are looked for
// farther off may not.
func (v discView) thing(p *Piece, h *Hit, segments []segment) (InDisc, bool) {
	t := InDisc{Feature: h.Feature, Seen: v.seen(v.off(h.Feature), len(h.Inside) > 0, segments)}
	for _, s := range h.Soundings {
		at := p.frame(s.At)
		if one := v.seen(resolutionM, false, []segment{{at, at}}); one.there() {
			t.Soundings = append(t.Soundings, SeenSounding{DepthM: s.DepthM, At: s.At, Seen: one})
		}
	}
	return t, t.there()
}

// seen is how a thing of some segments lies in the disc.
func (v discView) seen(offM float64, holds bool, segments []segment) Seen {
	s := Seen{DistM: math.Inf(1), offM: offM, holds: holds}
	var arcs []geo.Arc
	for _, g := range segments {
		if arc, ok := s.reaches(g, v.radiusM, v.bearings); ok && v.bearings {
			arcs = append(arcs, arc)
		}
	}
	s.Bearings = geo.MergeArcs(arcs...)
	if holds {
		s.DistM, s.Bearings = 0, geo.WholeCircle()
	}
	return s
}

// unknownIn is where nothing is known in the disc: beyond the edges of what is, and
// all of it where the place itself lies beyond them.
func (q *Query) unknownIn(p *Piece, work *discWork, v discView) *Seen {
	var edges []segment
	for f, list := range work.segments {
		if f.Class == gapCover || f.Class == gapTiles {
			edges = append(edges, list...)
		}
	}
	here := len(q.bare(p, []Span{{}}, q.tiled)) > 0
	s := v.seen(resolutionM, here, edges)
	if !s.there() { // somewhere, but where is not plain
		s = v.seen(resolutionM, true, nil)
	}
	return &s
}

// keep notes a part of a feature.
func (w *discWork) keep(f *Feature, g segment) { w.segments[f] = append(w.segments[f], g) }
