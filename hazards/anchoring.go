package hazards

import (
	"math"
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// What forbids an anchor (at-anchor contract, section 3): close to the anchor itself it
// is not clear; elsewhere in the circle that she swings in the rode may foul it.

// placeUnstatedM is how far charted things may be from where they are drawn as far as an
// anchor goes, where the survey gives no useful figure.
const placeUnstatedM = 50

// anchorPlaceM is how far from where it is planned the anchor may lie of a charted thing.
func (w *swingCircle) anchorPlaceM() float64 {
	accuracy, ok := PositionAccuracyM(worstZoc(w.zones, 0, 0), reckonedM)
	if !ok {
		accuracy = placeUnstatedM
	}
	return w.plan.Margins.PositionM + accuracy
}

// rulesNear checks what the anchor itself may lie in or on.
func (w *swingCircle) rulesNear() {
	met := w.metAt(w.stop.Stay.At, chart.Reach{HalfM: w.anchorPlaceM()})
	for i := range met.Hits {
		h := &met.Hits[i]
		if len(h.Near) == 0 {
			continue
		}
		if h.RefusedFeature() {
			w.unreadGround(h)
			continue
		}
		if severity, why := w.forbids(h.Feature); why != 0 {
			w.near[h.Feature] = true
			w.add(plan.Finding{Check: plan.CheckAnchoringRule, Severity: severity, Source: sourceOf(h.Feature),
				Facts: facts.Anchoring{Name: h.Name, Why: why, Info: h.Info, Metres: metresAway(h.LeastDistanceM())}})
		}
	}
}

// rulesIn checks the rest of the circle.
func (w *swingCircle) rulesIn(d *chart.Disc) {
	for i := range d.Things {
		t := &d.Things[i]
		if w.near[t.Feature] || t.RefusedFeature() {
			continue
		}
		if _, why := w.forbids(t.Feature); why != 0 {
			w.add(plan.Finding{Check: plan.CheckAnchoringRule, Severity: plan.Care, Source: sourceOf(t.Feature), Measured: ptr(t.DistM), Required: ptr(w.radiusM), Unit: "m",
				Facts: facts.InCircle{Name: t.Name, Why: why, Info: t.Info, Metres: metresAway(t.DistM), RadiusM: math.Ceil(w.radiusM)}})
		}
	}
}

// unreadGround tells of what was left out near the anchor: it may forbid one, as
// cables, rules and foul ground do. What lies about her place itself is told with the
// depth there.
func (w *swingCircle) unreadGround(h *chart.Hit) {
	if w.toldHere(h.Feature) || h.UnreadMark() || w.stop.Stay.Kind != plan.AtAnchor {
		return
	}
	f := unread(h.Feature)
	f.Check, f.Severity = plan.CheckAnchoringRule, plan.NoData
	w.add(f)
}

// forbids tells how a feature forbids an anchor, or stopping, while she lies there; 0:
// it does not. A mooring touches no ground, but stopping may still be prohibited.
// Codes: IHO S-57 App. A.
func (w *swingCircle) forbids(f *chart.Feature) (plan.Severity, facts.WhyNotAnchor) {
	anchored := w.stop.Stay.Kind == plan.AtAnchor
	switch k := f.Class; {
	case anchored && (k == chart.CBLARE || k == chart.CBLSUB):
		return plan.NotClear, facts.Cable
	case anchored && (k == chart.PIPARE || k == chart.PIPSOL):
		return plan.NotClear, facts.Pipeline
	case anchored && foulGround(f):
		return plan.NotClear, facts.FoulGround
	}
	r := f.Rules
	if r == nil || !r.Season.Touches(w.stop.Arrive.In(w.zone()), w.stop.Leave) {
		return plan.Note, 0
	}
	return ruledOut(r, anchored)
}

// ruledOut is forbids for the rules of an area.
func ruledOut(r *chart.Rules, anchored bool) (plan.Severity, facts.WhyNotAnchor) {
	switch {
	case anchored && r.Restrn.Has(1):
		return plan.NotClear, facts.AnchoringProhibited
	case anchored && r.Restrn.Has(24):
		return plan.NotClear, facts.DraggingProhibited
	case r.Restrn.Has(25):
		return plan.NotClear, facts.StoppingProhibited
	case anchored && r.CatRea.Has(18):
		return plan.NotClear, facts.BathingArea
	case anchored && r.CatRea.Has(14):
		return plan.NotClear, facts.Minefield
	case anchored && r.Restrn.Has(2):
		return plan.Care, facts.AnchoringRestricted
	}
	return plan.Note, 0
}

// foulGround tells whether a danger is foul ground, ground tackle, or a wreck said to be no
// danger in passing or scattered remains (CATOBS 7 and 9, CATWRK 1 and 3), whatever
// its depth.
func foulGround(f *chart.Feature) bool {
	d := f.Danger
	return f.Class.Danger() && d != nil && (d.CatObs == 7 || d.CatObs == 9 || d.CatWrk == 1 || d.CatWrk == 3)
}

// toldHere tells whether a feature that was left out lies about her place itself: that is
// told with the depth there.
func (w *swingCircle) toldHere(f *chart.Feature) bool {
	return slices.ContainsFunc(w.stayCheck.met.Hits, func(o chart.Hit) bool { return o.Feature == f && len(o.Near) > 0 })
}
