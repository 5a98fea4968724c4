package hazards

import (
	"fmt"
	"math"
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// The row no-entry of the contract's table: areas that one must not enter, that ask
// for care, or that one has to know of.

// rules judges what an area says of entering it, in its season.
func (o *obstacles) rules(st *stretch, h *chart.Hit) {
	switch r := h.Rules; {
	case prohibits(r):
		o.prohibited(st, h)
	case warns(r):
		o.area(st, h, h.Near, plan.Finding{Severity: plan.Care, Code: "entry-restricted", Title: capital(firstRule(r, careRestrictions, careCategories))})
	case h.Class == chart.RESARE && r.Restrn == 0 && r.CatRea == 0 && !r.SpeedZone:
		o.area(st, h, h.Near, plan.Finding{Severity: plan.Care, Code: "rule-not-stated", Title: "A rule that is not stated"})
	case h.Class == chart.RESARE && len(ruleWords(r)) > 0:
		o.area(st, h, h.Near, plan.Finding{Severity: plan.Note, Code: "restricted-area", Title: "A restricted area"})
	}
}

// What is not to be entered, and what asks for care. Codes: IHO S-57 App. A, RESTRN
// and CATREA; 42 is S-101's.
var (
	noEntryRestrictions = chart.CodesOf(7, 14, 42)
	noEntryCategories   = chart.CodesOf(14, 18) // minefield, bathing
	careRestrictions    = chart.CodesOf(8)
	careCategories      = chart.CodesOf(1, 9) // offshore safety zone, military
)

func prohibits(r *chart.Rules) bool {
	return r.Restrn&noEntryRestrictions != 0 || r.CatRea&noEntryCategories != 0
}

func warns(r *chart.Rules) bool {
	return r.Restrn&careRestrictions != 0 || r.CatRea&careCategories != 0
}

// prohibited: not clear where the track itself enters, care where only the corridor
// does.
func (o *obstacles) prohibited(st *stretch, h *chart.Hit) {
	rule := capital(firstRule(h.Rules, noEntryRestrictions, noEntryCategories))
	o.area(st, h, o.crossSpans(h), plan.Finding{Severity: plan.NotClear, Code: "entry-prohibited", Title: rule})
	o.area(st, h, h.Near, plan.Finding{Severity: plan.Care, Code: "entry-prohibited-close-by", Title: "Close by: " + rule}) // left out where the other is found
}

// area adds a finding about an area on spans, where its rules are in force.
func (o *obstacles) area(st *stretch, h *chart.Hit, spans []chart.Span, f plan.Finding) {
	f.Check = plan.CheckNoEntry
	f.Detail = o.areaWords(h)
	for _, sp := range spans {
		from, to, ok := st.clip(sp)
		if ok && o.inForce(h.Rules.Season, from, to) && (f.Severity != plan.Note || o.firstOfDay(h.Feature)) {
			o.add(h, from, to, f)
		}
	}
}

// areaWords say what an area is, what it says, and where it lies.
func (o *obstacles) areaWords(h *chart.Hit) string {
	what := "A restricted area"
	if h.Class != chart.RESARE {
		what = "An area"
	}
	rules := "the layer does not say what is restricted"
	if words := ruleWords(h.Rules); len(words) > 0 {
		rules = joinWords(words)
	}
	return fmt.Sprintf("%s%s: %s.%s", named(h.Feature, what), o.lies(h), rules, told(h.Info))
}

// lies says, after the name of an area, whether the track enters it or passes beside
// it.
func (o *obstacles) lies(h *chart.Hit) string {
	metres, there := h.LeastDistanceM(), "the track"
	if o.stay != nil {
		there = "where she lies"
	}
	switch {
	case metres >= 1:
		return fmt.Sprintf(", %.0f m from %s", math.Floor(metres), there)
	case o.stay != nil:
		return ", where she lies"
	case h.Prim != chart.Area:
		return ", on the track"
	case metres > 0:
		return ", less than 1 m from the track"
	}
	return ", which the track enters"
}

// told gives a feature's own words.
func told(info string) string {
	if info == "" {
		return ""
	}
	return " The chart says: " + info
}

// waterWords are what is said of waters set aside, and of gates.
var waterWords = map[chart.Class][2]string{
	chart.GATCON: {"A gate", "Find out whether and when it is open."},
	chart.TSSLPT: {"A traffic lane", "Cross it at right angles and keep clear of its traffic (COLREGs rule 10)."},
	chart.TSEZNE: {"A separation zone", "It is entered only to cross, at right angles, or to fish (COLREGs rule 10)."},
	chart.ISTZNE: {"An inshore traffic zone", "Coastal traffic keeps to it; vessels under 20 m may use it (COLREGs rule 10)."},
	chart.MIPARE: {"A military practice area", "Find out before entering whether firing or exercises are under way."},
	chart.SPLARE: {"A seaplane landing area", "Aircraft land and take off here: keep well clear of them."},
	chart.SUBTLN: {"A submarine transit lane", "Submarines may be under way here, also submerged: keep a good lookout."},
	chart.OSPARE: {"An offshore production area", "Platforms, buoys and lines may lie here, and safety zones about them: find out which."},
}

// waterCodes name what waters set aside, and gates, want of her.
var waterCodes = map[chart.Class]string{
	chart.GATCON: "gate", chart.TSSLPT: "traffic-lane", chart.TSEZNE: "separation-zone", chart.ISTZNE: "inshore-traffic-zone",
	chart.MIPARE: "practice-area", chart.SPLARE: "seaplane-area", chart.SUBTLN: "submarine-lane", chart.OSPARE: "offshore-production-area",
}

// passing: gates, traffic separation and other waters set aside.
func (o *obstacles) passing(st *stretch, h *chart.Hit) {
	words := waterWords[h.Class]
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Care, Code: waterCodes[h.Class], Title: named(h.Feature, words[0]),
		Detail: fmt.Sprintf("%s%s. %s%s", words[0], o.lies(h), words[1], told(h.Info))})
}

// notice: caution areas, precautionary areas and anchorages are shown with their
// words.
func (o *obstacles) notice(st *stretch, h *chart.Hit) {
	if len(h.Near) > 0 && silent(h.Feature) {
		o.passThrough(h.Feature)
		return
	}
	if len(h.Near) == 0 || !o.firstOfDay(h.Feature) {
		return
	}
	code, title, detail := "caution-area", "A caution area", "The chart asks for caution here."
	if h.Class == chart.ACHARE {
		code, title, detail = "anchorage", "An anchorage", "Vessels may lie at anchor here."
	}
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Note, Code: code, Title: named(h.Feature, title), Detail: detail + told(h.Info)})
}

// firstOfDay tells whether no leg before this one has met the feature: what is only
// to be known is told once a day.
// Where she lies, the leg that ends there has told it.
func (o *obstacles) firstOfDay(f *chart.Feature) bool {
	if o.stay != nil {
		return false
	}
	first := o.meetFirst(f, o.index)
	if !slices.ContainsFunc(o.checker.met, func(m metFirst) bool { return m.thing == f }) {
		o.checker.met = append(o.checker.met, metFirst{f, first})
	}
	return first
}
