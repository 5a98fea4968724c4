package hazards

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
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
		o.keepOff(st, h, plan.Finding{Check: plan.CheckMark, Severity: plan.NotClear, Code: "fixed-mark-too-close", Title: "Too close to a fixed mark"}, "stands")
	}
	if h.Class.IsolatedDanger() {
		o.isolatedDanger(st, h)
	}
	if h.Overhead != nil {
		o.overhead(st, h)
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
func (o *obstacles) keepOff(st *stretch, h *chart.Hit, f plan.Finding, stands string) {
	o.addSpans(st, h, nearerThan(h, o.markOffM()), o.tooClose(h, f, stands))
}

// tooClose words a finding about a thing that is too close to the track.
func (o *obstacles) tooClose(h *chart.Hit, f plan.Finding, stands string) plan.Finding {
	wanted := o.markOffM()
	f.Detail = fmt.Sprintf("%s %s %s; %.1f m off is wanted.", capital(named(h.Feature, closeName(h.Feature))), stands, o.fromHer(h), wanted)
	f.Measured, f.Required, f.Unit = ptr(h.LeastDistanceM()), ptr(wanted), "m"
	return f
}

// fromHer words how far a thing is from the track, or from where she lies.
func (o *obstacles) fromHer(h *chart.Hit) string {
	there := "the track"
	if o.stay != nil {
		there = "where she lies"
	}
	if d := down(h.LeastDistanceM()); d > 0 {
		return fmt.Sprintf("%.1f m from %s", d, there)
	}
	return "on " + there
}

// afloat: buoys are care; a light float or light vessel is as large as she is or
// larger, and not clear where the track runs over it.
func (o *obstacles) afloat(st *stretch, h *chart.Hit) {
	light := h.Class == chart.LITFLT || h.Class == chart.LITVES
	if over := o.crossSpans(h); light && len(over) > 0 {
		o.addSpans(st, h, over, o.tooClose(h, plan.Finding{Check: plan.CheckHazard, Severity: plan.NotClear, Code: "in-the-way", Title: "In the way"}, "is moored"))
		return
	}
	code, title, stands := "buoy-close", "Close to a buoy", "floats"
	if light {
		code, title, stands = "light-afloat-close", "Close to a light afloat", "is moored"
	}
	o.keepOff(st, h, plan.Finding{Check: plan.CheckMark, Severity: plan.Care, Code: code, Title: title}, stands)
}

// structure: mooring structures and cranes. Bollards, walls and piles near a berth
// are passed by eye like other piles and the shore.
func (o *obstacles) structure(st *stretch, h *chart.Hit) {
	f := o.tooClose(h, plan.Finding{Check: plan.CheckHazard, Severity: plan.NotClear, Code: "in-the-way", Title: "In the way"}, "stands")
	for _, sp := range nearerThan(h, o.markOffM()) {
		if passedByEye(h.Feature) {
			o.solidSpan(st, h, sp, f, named(h.Feature, closeName(h.Feature)))
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
		f := plan.Finding{Check: plan.CheckMark, Severity: plan.Care, Code: "isolated-danger", Title: "Within the danger of an isolated danger mark",
			Detail: fmt.Sprintf("%s lies %s: it is set over a danger, and the chart may not show how far that reaches.",
				capital(named(h.Feature, closeName(h.Feature))), o.fromHer(h)),
			Measured: ptr(h.LeastDistanceM()), Required: ptr(st.halfM + o.plan.Margins.HazardM), Unit: "m"}
		o.addSpans(st, h, []chart.Span{sp}, f)
	}
}

// carried tells whether a daymark is only what another thing at the same place of the
// same chart carries, which speaks for it: on a buoy it is no fixed mark. A layer of
// the skipper's own takes none away.
func carried(st *stretch, h *chart.Hit) bool {
	for i := range st.met.Hits {
		g := &st.met.Hits[i]
		if g.Set == h.Set && g.Class != chart.DAYMAR && (g.Class.CloseBy() || g.Class.NoGo()) && g.Coords[0] == h.Coords[0] {
			return true
		}
	}
	return false
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

// closeNames are what things passed close by are called.
var closeNames = map[chart.Class]string{
	chart.BCNCAR: "a cardinal beacon", chart.BCNISD: "an isolated danger beacon", chart.BCNLAT: "a lateral beacon",
	chart.BCNSAW: "a safe water beacon", chart.BCNSPP: "a beacon",
	chart.BOYCAR: "a cardinal buoy", chart.BOYISD: "an isolated danger buoy", chart.BOYLAT: "a lateral buoy",
	chart.BOYSAW: "a safe water buoy", chart.BOYSPP: "a buoy", chart.BOYINB: "a buoy of an installation",
	chart.LITFLT: "a light float", chart.LITVES: "a light vessel", chart.CRANES: "a crane", chart.DAYMAR: "a daymark",
	chart.MORFAC: "a mooring structure",
}

// moorings are the CATMOR codes in words (IHO S-57 App. A, attribute 40).
var moorings = map[int]string{1: "a dolphin", 2: "a deviation dolphin", 3: "a bollard", 4: "a wall to tie up to", 5: "a post or pile",
	6: "a mooring chain or wire", chart.MooringBuoy: "a mooring buoy"}

// closeName is what a thing passed close by is called.
func closeName(f *chart.Feature) string {
	if f.Class == chart.MORFAC && moorings[f.CatMor] != "" {
		return moorings[f.CatMor]
	}
	return closeNames[f.Class]
}

// troubledWords are what is said of ice, and of water broken by streams or shoals:
// no chart can tell the state of either.
var troubledWords = map[chart.Class][2]string{
	chart.ICEARE: {"Ice", "The chart shows ice here."},
	chart.WATTUR: {"Broken water", "Overfalls, eddies or breakers are charted here: worst with wind against stream."},
}

var troubledCodes = map[chart.Class]string{chart.ICEARE: "ice", chart.WATTUR: "broken-water"}

func troubledWater(k chart.Class) bool { return troubledWords[k][0] != "" }

func (o *obstacles) troubled(st *stretch, h *chart.Hit) {
	words := troubledWords[h.Class]
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Code: troubledCodes[h.Class], Title: named(h.Feature, words[0]), Detail: words[1] + told(h.Info)})
}
