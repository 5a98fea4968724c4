package hazards

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// claim is one statement about the depth on part of a leg: the water there is
// at least so deep.
type claim struct {
	f        *chart.Feature
	sounding orb.Point     // of a record of soundings, which
	depthM   float64       // charted, above the feature's own datum
	from, to float64       // metres along the leg
	wide     bool          // only within the survey's position accuracy of the corridor
	unknown  facts.Unknown // why the depth is not known, if it is not
}

// origin names the feature that makes the claim for the report.
func (c *claim) origin() *plan.Source {
	s := sourceOf(c.f)
	s.At = c.sounding
	return s
}

// claims lists what the chart says about the depth of a stretch: areas by
// DRVAL1, contours, soundings and dangers with a depth.
func (g *ground) claims(s *stretch) []claim {
	var out []claim
	zones := g.zocSpans(s.met)
	for i := range s.met.Hits {
		out = g.addClaims(out, s, &s.met.Hits[i], zones)
	}
	for _, sp := range s.met.Untiled {
		if from, to, ok := s.clip(sp); ok {
			out = append(out, claim{from: from, to: to, unknown: facts.Unknown{Why: facts.NotHere}})
		}
	}
	return out
}

func (g *ground) addClaims(out []claim, s *stretch, h *chart.Hit, zones []zocSpan) []claim {
	switch {
	case h.UnknownWater():
		why, first := whyUnknown(h.Feature), len(out)
		out = s.addSpans(out, h.Feature, chart.Unknown, h.Near, false)
		out = s.addWide(out, h.Feature, reckonedM, h.Beyond(), zones)
		for k := first; k < len(out); k++ {
			out[k].depthM, out[k].unknown = chart.Unknown, why
		}
	case h.Class == chart.SOUNDG:
		for _, sd := range h.Soundings {
			first := len(out)
			if sd.InCorridor {
				out = s.addSpans(out, h.Feature, sd.DepthM, []chart.Span{sd.Near}, false)
			} else {
				out = s.addWide(out, h.Feature, sd.DepthM, []chart.Span{sd.Wide}, zones)
			}
			for k := first; k < len(out); k++ {
				out[k].sounding = sd.At.Position()
			}
		}
	case h.Class.WaterArea(), h.Class == chart.DEPCNT && chart.Known(h.DepthMinM), h.Class.Danger() && chart.Known(h.DepthMinM):
		out = s.addSpans(out, h.Feature, h.DepthMinM, h.Near, false)
		out = s.addWide(out, h.Feature, h.DepthMinM, h.Beyond(), zones)
	}
	return out
}

// reckonedM is the depth by which the position accuracy of unknown water is told
// (it grows with the depth): deeper water is nothing to a small boat.
const reckonedM = 20

// whyUnknown is why water has no depth to go by.
func whyUnknown(f *chart.Feature) facts.Unknown {
	switch {
	case f.RefusedFeature():
		return facts.Unknown{Why: facts.Unreadable, Class: f.Meant(), Info: f.Info}
	case f.Class == chart.UNSARE:
		return facts.Unknown{Why: facts.NotSurveyed}
	}
	return facts.Unknown{Why: facts.NoLeastDepth}
}

// unknownWater is what is found where a claim says that the depth is not known, or
// that of a feature which was left out nothing is.
func unknownWater(cl claim) found {
	f := found{kind: unknownDepth, from: cl.from, to: cl.to, unknown: cl.unknown, source: cl.f}
	switch {
	case cl.wide:
		f.kind = unknownInPlace
	case cl.f != nil && cl.f.RefusedFeature():
		f.kind = leftOut
	}
	return f
}

func (s *stretch) addSpans(out []claim, f *chart.Feature, depthM float64, spans []chart.Span, wide bool) []claim {
	for _, sp := range spans {
		if from, to, ok := s.clip(sp); ok {
			out = append(out, claim{f: f, depthM: depthM, from: from, to: to, wide: wide})
		}
	}
	return out
}

// addWide adds what lies outside the corridor but within the position accuracy
// of the survey there.
func (s *stretch) addWide(out []claim, f *chart.Feature, depthM float64, spans []chart.Span, zones []zocSpan) []claim {
	for _, sp := range spans {
		reach := s.halfM
		if f.Class.Danger() || f.RefusedFeature() {
			reach += s.hazardM
		}
		if sp.DistM <= reach+positionReach(zones, sp, depthM) {
			out = s.addSpans(out, f, depthM, []chart.Span{sp}, true)
		}
	}
	return out
}

// zocSpan is a stretch of a piece whose corridor touches an area of a survey
// quality; inside tells that the track itself is in it.
type zocSpan struct {
	chart.Span
	zoc    int
	inside bool
}

// zocSpans lists the survey qualities that charts give along a piece. A private
// layer's say counts only where no chart is loaded: it must not make water
// better known than it is.
func (g *ground) zocSpans(m *chart.Met) []zocSpan {
	var out []zocSpan
	for i := range m.Hits {
		h := &m.Hits[i]
		if h.Class != chart.MQUAL || h.Meta == nil || g.chart.Overruled(h.Feature) {
			continue
		}
		for _, sp := range h.Near {
			out = append(out, zocSpan{sp, h.Meta.CatZoc, false})
		}
		for _, sp := range h.Inside {
			out = append(out, zocSpan{sp, h.Meta.CatZoc, true})
		}
	}
	slices.SortStableFunc(out, func(a, b zocSpan) int { return cmp.Compare(a.From, b.From) })
	return out
}

// positionReach is the greatest position accuracy of the zones that overlap a
// span, of those that have a useful one.
func positionReach(zones []zocSpan, sp chart.Span, depthM float64) float64 {
	reach := 0.0
	for _, z := range zones {
		if z.From <= sp.To && z.To >= sp.From {
			if m, ok := PositionAccuracyM(z.zoc, depthM); ok {
				reach = math.Max(reach, m)
			}
		}
	}
	return reach
}

// unassessed is a gap between survey zones that is not just the resolution of
// positions, metres.
const unassessed = 0.1

// worstZoc is the worst survey quality on [from, to] metres of a piece; 0 where
// none is stated for any of it.
func worstZoc(zones []zocSpan, from, to float64) int {
	worst := 0
	for _, z := range zones {
		if z.To < from || z.From > to {
			continue
		}
		if z.zoc == 0 {
			return 0
		}
		worst = max(worst, z.zoc)
	}
	if len(zocGaps(zones, from, to)) > 0 {
		return 0
	}
	return worst
}

// zocGaps gives where on [from, to] metres of a piece the track is in no area of
// a stated quality: an area beside it says nothing of the water here.
func zocGaps(zones []zocSpan, from, to float64) []chart.Span {
	var out []chart.Span
	at, touched := from, false
	for _, z := range zones {
		if !z.inside || z.To < from || z.From > to {
			continue
		}
		if z.From > at+unassessed {
			out = append(out, chart.Span{From: at, To: z.From})
		}
		at, touched = math.Max(at, z.To), true
	}
	if at < to-unassessed || !touched {
		out = append(out, chart.Span{From: at, To: to})
	}
	return out
}
