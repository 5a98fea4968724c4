package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// legResult is what a leg's figures in the report come from: nil where some of
// its clearance is not known.
type legResult struct{ least *sum }

// leastAt is the least clearance of a part of the day, with the number of its leg
// and its place. Where all of it is known there is none only over land.
type leastAt struct {
	*sum
	known bool
	leg   int
	at    orb.Point
}

// checkLegs walks along every leg and runs the checks of what lies there.
func (c *checker) checkLegs() {
	for i := range c.track.Legs {
		if c.pause() != nil {
			return
		}
		reusing{c}.checkLeg(i)
		ways{c}.checkGapsAt(i)
	}
	gathered{c}.reportQuality()
	gathered{c}.reportUndirected()
}

// checkWay runs the checks of a leg but for the marks that it passes.
func (c *checker) checkWay(i int) *legClearance {
	l := &legClearance{checker: c, index: i, firstFinding: len(c.report.Findings), needLevelM: math.Inf(-1)}
	l.bounds = l.boundsHere()
	lay := newObstacles(c, i, onLeg{c, i, &c.track.Legs[i]})
	for _, st := range c.stretches(i) {
		l.clearance(&st)
		lay.along(&st)
	}
	l.reportClearance()
	lay.report()
	roughness{c}.checkLegSea(i, l)
	within, _, known := c.waves(i, 0, c.track.Legs[i].Rhumb.LengthM)
	c.meets(within, known)
	if l.partial = l.partial || !known || lay.unseen(); l.partial {
		l.least = nil
	}
	l.legInHand(within, known)
	c.results = append(c.results, legResult{least: l.least})
	c.leasts = append(c.leasts, l.leastOfLeg())
	return l
}

// meets notes a significant height that is taken off depths. Where the sea is not
// known the chart's picture of the water keeps room for the most that she goes out
// in: above it a check says not clear, whatever the depth.
func (c *checker) meets(hsM float64, known bool) {
	if !known {
		hsM = math.Max(hsM, c.plan.Boat.SeaStopM)
	}
	c.report.WaveAllowanceM = math.Max(c.report.WaveAllowanceM, c.plan.Margins.WaveFraction*hsM)
}

// legFeatures writes the legs and their clearances.
func (dr dayReport) legFeatures() {
	for i, o := range dr.outcomes {
		if o.figures == nil {
			o.figures = dr.legFigures(i, o.result.least)
		}
		dr.report.Legs = append(dr.report.Legs, o.figures.leg)
		if o.figures.clearance != nil {
			dr.report.Clearances = append(dr.report.Clearances, *o.figures.clearance)
		}
	}
}

// legFigures are a leg in the report, and its clearance where it is known.
type legFigures struct {
	leg       plan.Leg
	clearance *plan.Clearance
}

func (dr dayReport) legFigures(i int, least *sum) *legFigures {
	leg := &dr.track.Legs[i]
	out := &legFigures{leg: plan.Leg{Route: leg.RouteName, Leg: leg.Number, CourseDeg: ptr(leg.Rhumb.CourseDeg), DistanceNm: ptr(nm(leg.Rhumb.LengthM)),
		Start: ptr(leg.Start), End: ptr(leg.End), Line: orb.LineString{leg.Rhumb.From, leg.Rhumb.To}}}
	out.leg.Passes, out.leg.MorePasses = dr.passesOf(i)
	if leg.Rhumb.LengthM == 0 {
		out.leg.CourseDeg = nil // a leg of no length has no course
	}
	if h := leg.End.Sub(leg.Start).Hours(); h > 0 {
		out.leg.Kn = ptr(nm(leg.Rhumb.LengthM) / h)
	}
	if least != nil {
		out.leg.LeastClearanceM = ptr(plan.WholeMM(least.clearanceM()))
		out.clearance = ptr(dr.clearanceFeature(i, least))
	}
	return out
}

func (l *legClearance) leastOfLeg() leastAt {
	leg := &l.track.Legs[l.index]
	out := leastAt{sum: l.least, known: !l.partial, leg: leg.Number}
	if l.least != nil {
		out.at = leg.Rhumb.At(l.least.from)
	}
	return out
}

// leastOfDay is the least clearance of all legs and stays; nil where it is not
// known of one of them.
func (dr dayReport) leastOfDay() *plan.LeastClearance {
	var least leastAt
	for _, l := range dr.leasts {
		if !l.known {
			return nil
		}
		if l.sum != nil && (least.sum == nil || l.clearanceM() < least.clearanceM()) {
			least = l
		}
	}
	if least.sum == nil {
		return nil
	}
	return &plan.LeastClearance{ClearanceM: ptr(plan.WholeMM(least.clearanceM())), Time: ptr(least.start), Leg: least.leg, Position: least.at}
}

// distanceNM is the way of the whole day.
func (dr dayReport) distanceNM() float64 { return dr.track.DistanceM() / geo.NauticalMileM }
