package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/rode"
)

// The water that she may come to lie in at anchor or on a mooring (at-anchor contract,
// section 3): a disc about the anchor, of which she lies in a sector. Everything in it is
// asked of the chart's own lines and areas, on the bearings that they take up; the
// polygon in the report is only for drawing.

// swingCircle is the circle of a stay being checked.
type swingCircle struct {
	*stayCheck
	lies    liesOn
	radiusM float64 // as far as it is known
	tide    lowWater
	zones   []zocSpan
	passed  passedUnder
	met     []swingMet
	near    map[*chart.Feature]bool // what a rule about the anchor has told
	// shortfall is what a sounding takes off the depths of the whole circle.
	shortfall struct {
		metres float64
		known  bool
	}
}

// lowWater is the least height of tide while she lies there.
type lowWater struct {
	leastM, marginM float64
	known           bool // for some of the stay
}

func (s *stayCheck) newCircle() *swingCircle {
	return &swingCircle{stayCheck: s, zones: s.zocSpans(&s.met), near: map[*chart.Feature]bool{}}
}

// anchoringRules checks only whether one may anchor, or stop, at the place itself.
func (s *stayCheck) anchoringRules() {
	if s.exposed() {
		s.newCircle().rulesNear()
	}
}

// swing checks the circle, and whether one may anchor there.
func (s *stayCheck) swing() {
	if !s.exposed() {
		return
	}
	w := s.newCircle()
	w.lies = s.liesOn()
	w.passed = passedUnder{newObstacles(s.checker, s.index, atPlace{s})}
	w.shortfall.metres, w.shortfall.known = s.shortfallM()
	whole := w.radius()
	from, to, allTide := s.tideSpan()
	if from.Before(to) || allTide {
		w.tide.leastM, w.tide.marginM, w.tide.known = s.heights.least(from, to)
	}
	if !allTide {
		w.add(plan.Finding{Check: plan.CheckSwing, Severity: plan.NoData, Facts: facts.TideNotKnown{Why: s.whyNoTide()}})
	}
	disc := s.disc(s.stop.Stay.At, w.radiusM, s.plan.Margins.HazardM)
	w.rulesNear()
	w.rulesIn(&disc)
	w.look(&disc)
	w.report()
	if whole && allTide {
		w.figures(&disc)
	}
}

// radius works the circle out as far as it is known, and tells what is missing of it.
func (w *swingCircle) radius() (whole bool) {
	r, boatM := w.rodeOf(), 0.0
	whole = true
	if l := w.plan.Boat.LengthM; l != nil {
		boatM = *l
	} else {
		w.circleUnknown(facts.NoBoatLength)
		whole = false
	}
	lengthM := r.lengthM
	if !r.known {
		w.circleUnknown(facts.NoRodeLength)
		whole, lengthM = false, 0
	}
	w.radiusM = rode.RadiusM(lengthM, r.lowM, boatM, w.plan.Margins.PositionM)
	if high := math.Max(r.highM, r.lowM); w.stop.Stay.Kind == plan.AtAnchor && r.known && r.line.LengthM() <= high {
		// A matter of the rode, though of the circle too: with less tide it may reach.
		w.add(plan.Finding{Check: plan.CheckChain, Severity: plan.NotClear, Measured: ptr(r.line.LengthM()), Required: ptr(high), Unit: "m",
			Facts: facts.RodeTooShort{RodeM: plan.FloorHundredths(r.line.LengthM()), HeightM: plan.CeilHundredths(high)}})
	}
	return whole
}

func (w *swingCircle) circleUnknown(why facts.WhyNoCircle) {
	w.add(plan.Finding{Check: plan.CheckSwing, Severity: plan.NoData, Facts: facts.SwingNotKnown{Why: why}})
}

// circlePoints is how many corners the circle of the report has.
var circlePoints = 72

// figures are the circle in the report, and how much room there is about it.
func (w *swingCircle) figures(disc *chart.Disc) {
	at := w.stop.Stay.At
	w.out.RadiusM = ptr(w.radiusM)
	if w.brief {
		return
	}
	ring := make(orb.Ring, 0, circlePoints+1)
	for i := range circlePoints { // against the clock, as RFC 7946 has it
		ring = append(ring, geo.Direct(at, -360*float64(i)/float64(circlePoints), w.radiusM))
	}
	circle := plan.SwingingCircle{Stay: w.stop.Stay.Name, Leg: w.leg, RadiusM: ptr(w.radiusM), Area: orb.Polygon{append(ring, ring[0])}}
	for _, a := range w.lies.sector {
		circle.SectorDeg = append(circle.SectorDeg, [2]float64{a.FromDeg, a.ToDeg})
	}
	w.checker.report.Circles = append(w.checker.report.Circles, circle)
	w.room(disc)
}

// lookM is how large a circle is looked at for room, and how far beyond the circle's edge
// for the first water that is not clear.
const lookM = 500

// room tells how large the circle might be and still be clear, and how far it is from
// its edge, downwind, to the first water that is not.
func (w *swingCircle) room(disc *chart.Disc) {
	far := w.wideDisc(w.stop.Stay.At, w.radiusM+lookM, w.plan.Margins.HazardM)
	room, lee := w.radiusM+lookM, w.radiusM+lookM
	w.stops(far, func(seen *chart.Seen) {
		room, lee = math.Min(room, nearestOn(seen, w.lies.sector)), math.Min(lee, nearestOn(seen, w.lies.downwind))
	})
	stopped := math.Inf(1)
	w.stops(disc, func(seen *chart.Seen) {
		if turn, _, _ := w.lies.sector.TurnTo(seen.Bearings); turn == 0 {
			stopped = math.Min(stopped, nearestOn(seen, w.lies.sector))
		}
	})
	// Of charts of several scales a wider look may count more than the circle itself.
	room = math.Min(math.Max(room, w.radiusM), math.Max(lookM, w.radiusM))
	if !math.IsInf(stopped, 1) {
		room = math.Min(stopped, w.radiusM)
	}
	if w.seaMissing {
		return // what waves take from the water is not known, so neither is the room
	}
	w.out.RoomM, w.out.LeeRoomM = ptr(room), ptr(math.Max(0, lee-w.radiusM))
	w.keepHere(plan.CheckSwing, room, w.radiusM, "m")
}

func nearestOn(seen *chart.Seen, of geo.Arcs) float64 {
	if m, _, ok := seen.Nearest(of); ok {
		return m
	}
	return math.Inf(1)
}
