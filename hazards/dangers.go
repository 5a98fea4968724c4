package hazards

import (
	"fmt"
	"math"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// passability of an underwater danger (layer-profile contract, section 4.5).
type passability int

const (
	hasDepth passability = iota // VALSOU is its least depth: the clearance check has it
	impassable
	anchorNot // said to be no danger to surface craft: passing is care
	asAround  // taken as no shoaler than the water around it, as the skipper chose
)

// passable judges a danger by what the chart says of it. Codes: IHO S-57
// App. A (CATOBS 7 foul ground, 9 ground tackle; CATWRK 1 non-dangerous, 3
// distributed remains; WATLEV 3 always under water; EXPSOU 1 within the range
// of the surrounding depth).
func passable(f *chart.Feature, acceptExpSou1 bool) passability {
	d := f.Danger
	switch {
	case chart.Known(f.DepthMinM):
		return hasDepth
	case d == nil, d.WatLev == 1, d.WatLev == 2, d.WatLev == 4, d.WatLev == 5, d.WatLev == 6, d.WatLev == 7:
		return impassable // it dries, is awash or floats
	case d.CatObs == 7 || d.CatObs == 9 || d.CatWrk == 1 || d.CatWrk == 3:
		return anchorNot
	case d.WatLev == 3 && d.ExpSou == 1 && acceptExpSou1:
		return asAround
	}
	return impassable
}

// danger: rocks, wrecks and obstructions. Those with a depth are judged by the
// clearance check.
func (o *obstacles) danger(st *stretch, h *chart.Hit, zones []zocSpan) {
	what := named(h.Feature, solidName(h.Class))
	reach := st.halfM + o.plan.Margins.HazardM
	switch passable(h.Feature, o.plan.Choices.AcceptExpsou1) {
	case impassable:
		o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckHazard, Severity: plan.NotClear, Title: "A danger without a depth",
			Detail: what + " lies within the corridor and the chart does not say how deep: it counts as impassable.", Measured: ptr(h.LeastDistanceM()), Required: ptr(reach), Unit: "m"})
		o.addSpans(st, h, wideDanger(h, reach, zones), plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Title: "A danger within the survey's position accuracy",
			Detail: what + " without a depth lies outside the corridor, but may not be quite where it is drawn."})
	case anchorNot:
		o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Title: "Foul ground",
			Detail: what + " is said to be no danger to surface craft, but the chart gives no depth."})
	case hasDepth:
		if h.Doubtful {
			o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Title: "A doubtful depth",
				Detail: fmt.Sprintf("%s: %.1f m is charted, but marked as doubtful.", what, h.DepthMinM)})
		}
	}
}

func wideDanger(h *chart.Hit, reach float64, zones []zocSpan) []chart.Span {
	var out []chart.Span
	for _, sp := range h.Beyond() {
		if sp.DistM <= reach+positionReach(zones, sp, 0) {
			out = append(out, sp)
		}
	}
	return out
}

// rules: areas not to enter, in their season. Codes: IHO S-57 App. A, RESTRN
// and CATREA; 42 is S-101's.
func (o *obstacles) rules(st *stretch, h *chart.Hit) {
	r := h.Rules
	for _, sp := range h.Near {
		from, to, ok := st.clip(sp)
		if !ok || !o.inForce(r.Season, from, to) {
			continue
		}
		what := named(h.Feature, "An area")
		switch {
		case r.Restrn.Has(7, 14, 42), r.CatRea.Has(18):
			o.add(h, from, to, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.NotClear, Title: "No entry", Detail: what + ": " + entryRule(r) + "." + told(h.Info)})
		case r.Restrn.Has(8):
			o.add(h, from, to, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Care, Title: "Entry restricted", Detail: what + ": entry is restricted; find out on what terms." + told(h.Info)})
		case h.Class == chart.RESARE && r.Restrn == 0 && r.CatRea == 0 && !r.SpeedZone:
			o.add(h, from, to, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Care, Title: "A rule that is not stated", Detail: what + ": a restricted area, but the layer does not say what is restricted." + told(h.Info)})
		case h.Class == chart.RESARE && !r.SpeedZone && h.Info != "" && o.firstOnRoute(h.Feature):
			o.add(h, from, to, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Note, Title: "A restricted area", Detail: what + "." + told(h.Info)})
		}
	}
}

func entryRule(r *chart.Rules) string {
	switch {
	case r.Restrn.Has(7):
		return "entry is prohibited"
	case r.Restrn.Has(42):
		return "power-driven vessels are prohibited"
	case r.CatRea.Has(18):
		return "a bathing area"
	}
	return "an area to be avoided"
}

// told gives a feature's own words.
func told(info string) string {
	if info == "" {
		return ""
	}
	return " The chart says: " + info
}

// passing: gates and traffic separation.
func (o *obstacles) passing(st *stretch, h *chart.Hit) {
	title := "Traffic separation"
	detail := "A traffic lane or separation zone: cross it at right angles and keep clear of its traffic (COLREGs rule 10)."
	if h.Class == chart.GATCON {
		title, detail = "A gate", "Find out whether and when it is open."
	}
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Care, Title: named(h.Feature, title), Detail: detail + told(h.Info)})
}

// notice: caution and precautionary areas are shown with their words.
func (o *obstacles) notice(st *stretch, h *chart.Hit) {
	if len(h.Near) == 0 || !o.firstOnRoute(h.Feature) {
		return
	}
	o.addSpans(st, h, h.Near, plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Note, Title: named(h.Feature, "A caution area"), Detail: "The chart asks for caution here." + told(h.Info)})
}

// firstOnRoute tells whether a route has not met the feature on a leg before
// this one: what is only to be known is told once.
func (o *obstacles) firstOnRoute(f *chart.Feature) bool {
	key := onRoute{o.leg.Route, f}
	leg, seen := o.told[key]
	if !seen {
		o.told[key] = o.index
	}
	return !seen || leg == o.index
}

// onRoute is a feature met by a route.
type onRoute struct {
	route int
	f     *chart.Feature
}

// quality warns once for each route and survey area whose position accuracy
// is no help (C) or not known: there no corridor is wide enough to be sure.
func (o *obstacles) quality(st *stretch, h *chart.Hit) {
	if h.Meta == nil {
		return
	}
	if _, ok := PositionAccuracyM(h.Meta.CatZoc, 0); ok {
		return
	}
	for _, sp := range h.Near {
		if from, to, ok := st.clip(sp); ok {
			o.poorSurvey(st.leg.Route, h.Feature, o.index, from, to)
		}
	}
}

// poor is a survey area of low quality met by a route.
type poor struct {
	route    int
	area     *chart.Feature
	leg      int
	from, to float64
}

func (c *checker) poorSurvey(route int, area *chart.Feature, leg int, from, to float64) {
	for i := range c.poors {
		if p := &c.poors[i]; p.route == route && p.area == area {
			if p.leg == leg {
				p.to = math.Max(p.to, to)
			}
			return
		}
	}
	c.poors = append(c.poors, poor{route, area, leg, from, to})
}

// reportQuality writes the warnings that poorSurvey gathered.
func (c *checker) reportQuality() {
	for _, p := range c.poors {
		leg, quality, source := &c.track.Legs[p.leg], "not stated", (*plan.Source)(nil)
		if p.area != nil {
			quality, source = zocName(p.area.Meta.CatZoc), sourceOf(p.area)
		}
		c.find(plan.Finding{Check: plan.CheckHazard, Severity: plan.Care, Leg: leg.Number, Title: "Poorly surveyed water",
			Detail: fmt.Sprintf("Survey quality %s: charted things may lie hundreds of metres from where they are drawn, and others may not be charted.", quality),
			Time:   ptr(c.track.TimeAt(leg, p.from)), Until: ptr(c.track.TimeAt(leg, p.to)), Geometry: line(leg, p.from, p.to), Source: source})
	}
}
