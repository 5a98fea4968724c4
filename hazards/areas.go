package hazards

import (
	"math"
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
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
		o.area(st, h, h.Near, plan.Care, facts.EntryRestricted, firstRule(r, careRestrictions, careCategories))
	case h.Class == chart.RESARE && r.Restrn == 0 && r.CatRea == 0 && !r.SpeedZone:
		o.area(st, h, h.Near, plan.Care, facts.RuleNotStated, facts.Rule{})
	case h.Class == chart.RESARE && (r.Restrn&^speedRestrictions != 0 || r.CatRea&^speedCategories != 0):
		o.area(st, h, h.Near, plan.Note, facts.RestrictedArea, facts.Rule{})
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
	rule := firstRule(h.Rules, noEntryRestrictions, noEntryCategories)
	o.area(st, h, o.crossSpans(h), plan.NotClear, facts.EntryProhibited, rule)
	o.area(st, h, h.Near, plan.Care, facts.EntryProhibitedClose, rule) // left out where the other is found
}

// area adds a finding about an area on spans, where its rules are in force.
func (o *obstacles) area(st *stretch, h *chart.Hit, spans []chart.Span, s plan.Severity, what string, rule facts.Rule) {
	f := plan.Finding{Check: plan.CheckNoEntry, Severity: s, Facts: facts.Area{What: what, Rule: rule, Restricted: h.Class == chart.RESARE, Name: h.Name,
		Lies: o.lies(h), Restrn: h.Rules.Restrn &^ speedRestrictions, CatRea: h.Rules.CatRea &^ speedCategories, Info: h.Info}}
	for _, sp := range spans {
		from, to, ok := st.clip(sp)
		if ok && o.inForce(h.Rules.Season, from, to) && (s != plan.Note || o.firstOfDay(h.Feature)) {
			o.add(h, from, to, f)
		}
	}
}

// The codes that a speed zone is told by: they are in its own words.
var (
	speedRestrictions = chart.CodesOf(13, 27)
	speedCategories   = chart.CodesOf(24)
)

// firstRule is the first of an area's rules that is among the codes.
func firstRule(r *chart.Rules, restrn, catrea chart.Codes) facts.Rule {
	for _, code := range (r.Restrn & restrn).List() {
		return facts.Rule{Restrn: code}
	}
	for _, code := range (r.CatRea & catrea).List() {
		return facts.Rule{CatRea: code}
	}
	return facts.Rule{}
}

// lies says whether the track enters an area or passes beside it.
func (o *obstacles) lies(h *chart.Hit) facts.Lies {
	metres := h.LeastDistanceM()
	switch {
	case metres >= 1:
		return facts.Lies{How: facts.Off, Metres: int(math.Floor(metres)), AtStay: o.atStay()}
	case o.atStay():
		return facts.Lies{How: facts.Within}
	case h.Prim != chart.Area:
		return facts.Lies{How: facts.OnTrack}
	case metres > 0:
		return facts.Lies{How: facts.Nearly}
	}
	return facts.Lies{How: facts.Entered}
}

// waterCodes name what waters set aside, and gates, want of her.
var waterCodes = map[chart.Class]string{
	chart.GATCON: facts.Gate, chart.TSSLPT: facts.TrafficLane, chart.TSEZNE: facts.SeparationZone, chart.ISTZNE: facts.InshoreTraffic,
	chart.MIPARE: facts.PracticeArea, chart.SPLARE: facts.SeaplaneArea, chart.SUBTLN: facts.SubmarineLane, chart.OSPARE: facts.OffshoreProduction,
}

// passing: gates, traffic separation and other waters set aside.
func (o *obstacles) passing(st *stretch, h *chart.Hit) {
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Care,
		Facts: facts.Waters{What: waterCodes[h.Class], Name: h.Name, Lies: o.lies(h), Info: h.Info}})
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
	what := facts.CautionArea
	if h.Class == chart.ACHARE {
		what = facts.Anchorage
	}
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Note, Facts: facts.Waters{What: what, Name: h.Name, Info: h.Info}})
}

// firstOfDay tells whether no leg before this one has met the feature: what is only
// to be known is told once a day.
// Where she lies, the leg that ends there has told it.
func (o *obstacles) firstOfDay(f *chart.Feature) bool {
	if o.atStay() {
		return false
	}
	first := o.meetFirst(f, o.index)
	if !slices.ContainsFunc(o.checker.met, func(m metFirst) bool { return m.thing == f }) {
		o.checker.met = append(o.checker.met, metFirst{f, first})
	}
	return first
}
