package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// closeBy judges what is passed close by as a matter of course, and is not to be
// run into: marks, lights afloat, mooring structures, cranes. What stands on the
// ground is not clear within mark_off_m; what floats lies about where it is drawn
// and gives way, so that it is care (plan-file contract, section 4).
func (o *obstacles) closeBy(st *stretch, h *chart.Hit) {
	switch {
	case h.Class == chart.DAYMAR && carried(st, h), o.mooredTo(h):
		return
	case h.Afloat():
		o.afloat(st, h)
	case h.Class == chart.MORFAC || h.Class == chart.CRANES:
		o.structure(st, h)
	default:
		o.keepOff(st, h, o.tooClose(h, plan.CheckMark, plan.NotClear, facts.FixedMarkClose, facts.Stands))
	}
	if h.Class.IsolatedDanger() {
		o.isolatedDanger(st, h)
	}
	if h.Overhead != nil {
		passedUnder{o}.overhead(st, h)
	}
}

// distanceSlackM is what a distance may be out by: positions are stored to a
// centimetre, and lengths on a piece of track are true to a thousandth.
const distanceSlackM = 0.05

// markOffM is how far off things are kept that are passed close by: never less than
// what runs them over.
func (c *checker) markOffM() float64 { return math.Max(c.plan.Margins.MarkOffM, c.runsOverM()) }

// nearerThan are the stretches on which the feature is so near.
func nearerThan(h *chart.Hit, metres float64) []chart.Span {
	var out []chart.Span
	for _, sp := range h.Near {
		if sp.DistM <= metres+distanceSlackM {
			out = append(out, sp)
		}
	}
	return out
}

// keepOff notes where the feature is within mark_off_m. f says what that is.
func (o *obstacles) keepOff(st *stretch, h *chart.Hit, f plan.Finding) {
	o.keepDistance(st, h, f.Check, o.markOffM())
	o.addSpans(st, h, nearerThan(h, o.markOffM()), f)
}

// tooClose is the finding of a thing that is too close to the track.
func (o *obstacles) tooClose(h *chart.Hit, check string, s plan.Severity, what string, stance facts.Stance) plan.Finding {
	wanted := o.markOffM()
	return plan.Finding{Check: check, Severity: s, Measured: ptr(h.LeastDistanceM()), Required: ptr(wanted), Unit: "m",
		Facts: facts.TooClose{What: what, Thing: thingNamed(h.Feature), Stance: stance, DistanceM: math.Max(0, down(h.LeastDistanceM())), WantedM: wanted, AtStay: o.atStay()}}
}

// afloat: buoys are care; a light float or light vessel is as large as she is or
// larger, and not clear where the track runs over it.
func (o *obstacles) afloat(st *stretch, h *chart.Hit) {
	light := h.Class == chart.LITFLT || h.Class == chart.LITVES
	if over := o.crossSpans(h); light && len(over) > 0 {
		o.keepDistance(st, h, plan.CheckHazard, o.markOffM())
		o.addSpans(st, h, over, o.tooClose(h, plan.CheckHazard, plan.NotClear, facts.InTheWay, facts.Moored))
		return
	}
	what, stance := facts.BuoyClose, facts.Floats
	if light {
		what, stance = facts.LightAfloatClose, facts.Moored
	}
	o.keepOff(st, h, o.tooClose(h, plan.CheckMark, plan.Care, what, stance))
}

// structure: mooring structures and cranes. Bollards, walls and piles near a berth
// are passed by eye like other piles and the shore.
func (o *obstacles) structure(st *stretch, h *chart.Hit) {
	o.keepDistance(st, h, plan.CheckHazard, o.markOffM())
	f := o.tooClose(h, plan.CheckHazard, plan.NotClear, facts.InTheWay, facts.Stands)
	for _, sp := range nearerThan(h, o.markOffM()) {
		if passedByEye(h.Feature) {
			o.solidSpan(st, h, sp, f, facts.InTheWay)
		} else if from, to, ok := st.clip(sp); ok {
			o.add(h, from, to, f)
		}
	}
}

// isolatedDanger: the mark stands or floats on its danger, whose extent it does
// not tell; it counts as far as a danger without a depth does.
func (o *obstacles) isolatedDanger(st *stretch, h *chart.Hit) {
	for _, sp := range h.Near {
		if sp.DistM <= o.markOffM()+distanceSlackM {
			continue // told already: too close to the mark itself
		}
		f := o.tooClose(h, plan.CheckMark, plan.Care, facts.CodeIsolatedDanger, facts.Stands)
		f.Required = ptr(st.halfM + o.plan.Margins.HazardM)
		o.addSpans(st, h, []chart.Span{sp}, f)
	}
}

// carried tells whether a daymark is only what another thing at the same place of the
// same chart carries, which speaks for it: on a buoy it is no fixed mark. A layer of
// the skipper's own takes none away.
func carried(st *stretch, h *chart.Hit) bool {
	for i := range st.met.Hits {
		g := &st.met.Hits[i]
		if carries(g.Feature, h.Feature) {
			return true
		}
	}
	return false
}

// carries tells whether a thing stands where a daymark of the same chart does.
func carries(g, daymark *chart.Feature) bool {
	return g.Set == daymark.Set && g.Class != chart.DAYMAR && (g.Class.CloseBy() || g.Class.NoGo()) && g.Coords[0] == daymark.Coords[0]
}

// mooredTo tells whether the feature is the buoy that a stay of the plan moors to.
func (o *obstacles) mooredTo(h *chart.Hit) bool {
	if h.Class != chart.MORFAC || !h.Afloat() || h.Prim != chart.Point {
		return false
	}
	for _, s := range o.plan.Stays() {
		if s.Kind == plan.AtMooring && nearestM(h.Feature, s.At) <= o.markOffM() {
			return true
		}
	}
	return false
}

// nearestM is how far a place is from the nearest vertex of a feature.
func nearestM(f *chart.Feature, p orb.Point) float64 {
	least := math.Inf(1)
	for _, c := range f.Coords {
		least = math.Min(least, geo.DistanceM(c.Position(), p))
	}
	return least
}

// passedByEye tells whether the thing is one that near a berth is passed by eye:
// land, pontoons, piles and shoreline (plan-file contract, section 3), and of
// mooring structures dolphins, bollards, walls and piles (CATMOR 1 to 5: IHO S-57
// App. A), which are those.
func passedByEye(f *chart.Feature) bool {
	if f.Class == chart.MORFAC {
		return f.CatMor >= 1 && f.CatMor <= 5
	}
	return f.Class == chart.LNDARE || f.Class == chart.PONTON || f.Class == chart.PILPNT || f.Class.Shoreline()
}

// thingNamed is what a thing in the way or close by is.
func thingNamed(f *chart.Feature) facts.Thing {
	t := facts.Thing{Class: f.Class, Name: f.Name}
	if f.Class == chart.MORFAC {
		t.Kind = f.CatMor
	}
	return t
}

// troubledCodes name ice, and water broken by streams or shoals.
var troubledCodes = map[chart.Class]string{chart.ICEARE: facts.Ice, chart.WATTUR: facts.BrokenWater}

func troubledWater(k chart.Class) bool { return troubledCodes[k] != "" }

func (o *obstacles) troubled(st *stretch, h *chart.Hit) {
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Facts: facts.Waters{What: troubledCodes[h.Class], Name: h.Name, Info: h.Info}})
}
