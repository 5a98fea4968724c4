package chart

// resolutionM is the finest that positions differ by: they are stored to
// 1e-7 degrees, 1.1 cm, and the corner of two cells may be rounded both ways.
// What lies within it of a place counts as being there.
const resolutionM = 0.02

// reachWidths are the half-widths of corridors in a piece's frame, where no
// length is shorter than the true one.
type reachWidths struct {
	half, hazard, wide, close float64
}

func widths(p *Piece, r Reach) reachWidths {
	half, hazard, wide := positive(r.HalfM)+resolutionM, positive(r.HazardM), positive(r.WideM)
	close := positive(r.CloseM) + resolutionM
	k := p.scaleWithin(max(half+hazard+wide, close))
	return reachWidths{half * k, hazard * k, wide * k, close * k}
}

// positive is the number, 0 for a negative one and what is none.
func positive(m float64) float64 {
	if m > 0 {
		return m
	}
	return 0
}

func (w reachWidths) greatest() float64 { return max(w.danger(), w.close) }

// danger is how far dangers are looked for.
func (w reachWidths) danger() float64 { return w.half + w.hazard + w.wide }

// of gives the half-widths that hold for a feature. Coverage is looked at with
// the widest, as it decides over all that is looked for.
func (w reachWidths) of(f *Feature) (near, wide float64) {
	switch {
	case f.Class.Danger(), f.Class == refusedArea: // what was left out may have been a danger
		return w.half + w.hazard, w.danger()
	case f.Class.IsolatedDanger():
		near = max(w.close, w.half+w.hazard)
		return near, near
	case f.Class == CRANES:
		near = max(w.close, w.half)
		return near, near
	case f.Class.CloseBy():
		return w.close, w.close
	case f.Class == MCOVR:
		return w.half, w.greatest()
	}
	return w.half, w.half + w.wide
}

// collectAlong adds what a tree has within reach of the piece.
func (q *Query) collectAlong(t *tree, p *Piece, r reachWidths, windows []window) {
	for i := range windows {
		w := &windows[i]
		q.near = t.gather(q.near[:0], w)
		for _, c := range q.near {
			q.collect(p, r, c, w)
		}
	}
}

// collect adds what one chunk has within reach of the piece. Where each vertex lies is
// worked out only of segments that the window's straight line does not leave aside.
func (q *Query) collect(p *Piece, r reachWidths, c chunk, w *window) {
	f := q.chart.features[c.feature]
	run := f.Coords[c.first : c.first+c.segments+1]
	before := w.beside(run[0])
	if c.segments == 0 {
		if before == 0 {
			near, wide := r.of(f)
			q.collectPoint(p, f, c, near, wide)
		}
		return
	}
	for i := 1; i < len(run); i++ {
		now := w.beside(run[i])
		if before&now == 0 {
			q.collectPair(p, r, c.feature, run[i-1], run[i])
		}
		before = now
	}
}

// collectPair adds the segment between two vertices, if it is within reach.
func (q *Query) collectPair(p *Piece, r reachWidths, feature int32, from, to Coord) {
	near, wide := r.of(q.chart.features[feature])
	a, b := p.frame(from), p.frame(to)
	if a.Y > wide && b.Y > wide || a.Y < -wide && b.Y < -wide {
		return
	}
	if from, to, ok := within(a, b, wide, p.LengthM); ok {
		q.collectSegment(feature, segment{a, b}, Span{from, to, 0}, near, p.LengthM)
	}
}

// collectSegment adds one segment of a boundary or line that is within the
// widened corridor on the span. Crossings a little beyond the ends are noted
// too: the place that is asked which areas hold it may lie there.
func (q *Query) collectSegment(feature int32, g segment, wide Span, near, length float64) {
	w := q.of(feature)
	wide.DistM = distance(g.a, g.b, length)
	w.wide = append(w.wide, wide)
	if q.disc != nil {
		q.disc.keep(q.chart.features[feature], g)
	}
	if from, to, ok := within(g.a, g.b, near, length); ok {
		w.near = append(w.near, Span{from, to, wide.DistM})
	}
	if s, ok := crossing(g.a, g.b); ok && s >= -resolutionM && s <= length+resolutionM {
		w.cross = append(w.cross, s)
	}
}

func (q *Query) collectPoint(p *Piece, f *Feature, c chunk, near, wide float64) {
	a := p.frame(f.Coords[c.first])
	from, to, ok := within(a, a, wide, p.LengthM)
	if !ok {
		return
	}
	w := q.of(c.feature)
	span := Span{from, to, pointDistance(a, p.LengthM)}
	w.wide = append(w.wide, span)
	if q.disc != nil {
		q.disc.keep(f, segment{a, a})
	}
	s := Sounding{At: f.Coords[c.first], Wide: span, DepthM: Unknown}
	if from, to, ok := within(a, a, near, p.LengthM); ok {
		s.Near, s.InCorridor = Span{from, to, span.DistM}, true
		w.near = append(w.near, s.Near)
	}
	if f.Class == SOUNDG {
		if int(c.first) < len(f.DepthsM) {
			s.DepthM = f.DepthsM[c.first]
		}
		w.soundings = append(w.soundings, s)
	}
}

// crossingsOn are the sorted crossings that lie on the piece, those within a
// millimetre of an end brought to it: of two pieces that meet on a line, both
// cross it. It works in place.
func crossingsOn(all []float64, length float64) []float64 {
	const end = 1e-3
	on := all[:0]
	for _, s := range all {
		if s >= -end && s <= length+end {
			on = append(on, max(0, min(length, s)))
		}
	}
	return on
}
