package hazards

import (
	"math"
	"sort"

	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// stretch is a part of a piece of a leg over which the corridor has one width.
type stretch struct {
	leg     *passage.Leg
	index   int // of the leg in the track
	piece   *chart.Piece
	base    float64 // the piece's start, metres along the leg
	from    float64 // metres along the piece
	to      float64
	fast    bool
	halfM   float64
	hazardM float64 // added for underwater dangers
	met     *chart.Met
}

// stretches walks along a leg.
func (c *checker) stretches(index int) []stretch {
	leg := &c.track.Legs[index]
	g := c.leg(leg.Rhumb)
	var out []stretch
	for k := range g.pieces {
		base := g.base(k)
		if c.pause() != nil {
			return nil
		}
		steps := c.stepsOn(leg, base, base+g.pieces[k].LengthM)
		for _, w := range widths(steps, base, base+g.pieces[k].LengthM) {
			s := stretch{leg: leg, index: index, piece: &g.pieces[k], base: base,
				from: math.Max(0, w.from-base), to: math.Min(g.pieces[k].LengthM, w.to-base), fast: w.fast, hazardM: c.plan.Margins.HazardM}
			s.halfM = c.plan.Margins.CorridorSlowM
			if w.fast {
				s.halfM = c.plan.Margins.CorridorM
			}
			s.met = c.along(g, k, c.reach(s.halfM))
			out = append(out, s)
		}
	}
	return out
}

// stepsOn are the steps of a leg that touch [from, to] metres of it.
func (c *checker) stepsOn(leg *passage.Leg, from, to float64) []passage.Step {
	steps := touching(c.track.StepsOf(leg), from, to, func(s *passage.Step) (float64, float64) { return s.FromM, s.ToM })
	c.did(len(steps))
	return steps
}

// touching picks, from stretches that follow each other, those that touch [from,
// to]: legs are long, and what is asked about is short.
func touching[T any](list []T, from, to float64, ends func(*T) (from, to float64)) []T {
	first := sort.Search(len(list), func(i int) bool { _, end := ends(&list[i]); return end >= from })
	last := first + sort.Search(len(list)-first, func(i int) bool { begin, _ := ends(&list[first+i]); return begin > to })
	return list[first:last]
}

// reach is how far about the track things count with a corridor of a half-width.
func (c *checker) reach(halfM float64) chart.Reach {
	return chart.Reach{HalfM: halfM, HazardM: c.plan.Margins.HazardM, WideM: wideM, CloseM: c.markOffM()}
}

// wideM is the widest position accuracy that widens a corridor (CATZOC B).
const wideM = 50

// width is a stretch of a leg on which she is all the time fast, or slow.
type width struct {
	from, to float64 // metres along the leg
	fast     bool
}

// widths cuts [from, to] of a leg where she passes 8 kn.
func widths(steps []passage.Step, from, to float64) []width {
	var out []width
	add := func(a, b float64, fast bool) {
		a, b = math.Max(a, from), math.Min(b, to)
		if b < a || b == a && from < to {
			return
		}
		if n := len(out); n > 0 && out[n-1].fast == fast {
			out[n-1].to = b
			return
		}
		out = append(out, width{a, b, fast})
	}
	for i := range steps {
		s := &steps[i]
		if x, ok := passesSlow(s); ok {
			add(s.FromM, x, s.FromKn > plan.SlowKn)
			add(x, s.ToM, s.FromKn <= plan.SlowKn)
			continue
		}
		add(s.FromM, s.ToM, s.FastestKn() > plan.SlowKn)
	}
	return out
}

// passesSlow gives where within a step the speed passes 8 kn.
func passesSlow(s *passage.Step) (metres float64, ok bool) {
	const v2 = plan.SlowKn * plan.SlowKn
	a, b := s.FromKn*s.FromKn, s.ToKn*s.ToKn
	if (a > v2) == (b > v2) || s.WaterKn > math.Max(s.FromKn, s.ToKn) {
		return 0, false // with a foul stream the whole step counts as fast
	}
	return s.FromM + (s.ToM-s.FromM)*(v2-a)/(b-a), true
}

// clip gives the part of a span that lies on the stretch, in metres along the
// leg; ok is false for none. Stretches meet at their ends, which belong to
// both.
func (s *stretch) clip(sp chart.Span) (from, to float64, ok bool) {
	from, to = math.Max(s.from, sp.From), math.Min(s.to, sp.To)
	return s.base + from, s.base + to, from <= to
}

// fastest is her greatest speed on [from, to] metres of a leg, within the
// class of speed of the stretch.
func (l *legClearance) fastest(s *stretch, from, to float64) float64 {
	kn := 0.0
	for _, step := range l.stepsOn(s.leg, from, to) {
		v := math.Max(step.KnAt(math.Max(from, step.FromM)), step.KnAt(math.Min(to, step.ToM)))
		if ground := math.Max(step.FromKn, step.ToKn); step.WaterKn > ground {
			v = math.Max(v, step.WaterKn)
		}
		kn = math.Max(kn, v)
	}
	if !s.fast {
		kn = math.Min(kn, plan.SlowKn)
	}
	return kn
}
