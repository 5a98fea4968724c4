package hazards

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// gateM is how far a port-hand mark and its starboard-hand mark may lie apart
// to be read as a gate where the direction of buoyage is not known.
const gateM = 500

// athwartDeg is how near to a right angle to the direction of buoyage a track
// crosses a channel rather than following it.
const athwartDeg = 20

// Lateral hands (CATLAM, IHO S-57 App. A).
const (
	portHand      = 1
	starboardHand = 2
)

// checkLegMarks judges the marks passed on a leg. A lateral mark that the route
// only begins or ends beside is not passed; a cardinal marks foul ground, so it
// counts there too.
func (c *checker) checkLegMarks(index int) {
	leg := &c.track.Legs[index]
	for _, a := range c.passes(index) {
		switch {
		case a.mark.UnreadMark():
			c.unreadMark(leg, a)
		case a.mark.Class.Cardinal():
			c.cardinal(leg, a)
		case a.mark.Class.Lateral() && !c.atRouteEnd(index, a):
			c.lateral(leg, a)
		}
	}
}

// cardinalBearing is the side to pass a cardinal mark on, degrees true (CATCAM
// 1 north, 2 east, 3 south, 4 west: IHO S-57 App. A, IALA R1001).
func cardinalBearing(catcam int) (deg float64, name string, ok bool) {
	if catcam < 1 || catcam > 4 {
		return 0, "", false
	}
	return float64(catcam-1) * 90, [...]string{"north", "east", "south", "west"}[catcam-1], true
}

func (c *checker) cardinal(leg *passage.Leg, a abeam) {
	side, name, ok := cardinalBearing(a.mark.Mark.CatCam)
	what := named(a.mark, "cardinal mark")
	if !ok {
		c.markFinding(leg, a, plan.Care, "Side not charted", what+": the chart does not say on which side to pass it.")
		return
	}
	bearing, wrong := c.wrongSide(leg, a, side)
	switch {
	case a.distM <= c.runsOverM():
		c.markFinding(leg, a, plan.NotClear, "Over a cardinal mark",
			fmt.Sprintf("%s: safe water lies to the %s of it; the track runs over it.", what, name))
	case wrong:
		c.markFinding(leg, a, plan.NotClear, "Wrong side of a cardinal mark",
			fmt.Sprintf("%s: safe water lies to the %s of it; the track passes it %.0f m off, bearing %03.0f° from the mark.", what, name, a.distM, geo.Bearing(math.Round(bearing))))
	}
}

// unreadMark tells of a mark that was left out of its layer: it may be one to pass
// on the other side.
func (c *checker) unreadMark(leg *passage.Leg, a abeam) {
	c.markFinding(leg, a, plan.NoData, "A mark that could not be read",
		fmt.Sprintf("A mark (%s, features[%d] of %s) could not be read (%s): it is not known on which side to pass it.", a.mark.Meant(), a.mark.Index, a.mark.File, a.mark.Info))
}

// wrongSide tells whether a leg passes a mark on the other side than the one named,
// degrees true: by the bearing from it to the leg's nearest place. That of a place on
// the mark itself says nothing.
func (c *checker) wrongSide(leg *passage.Leg, a abeam, side float64) (bearing float64, wrong bool) {
	_, bearing, _ = geo.Inverse(a.at, leg.Rhumb.At(a.metres))
	return bearing, a.distM <= c.runsOverM() || math.Abs(geo.Turn(side, bearing)) > 90
}

// wrongCardinal tells whether a leg passes a cardinal mark on the wrong side.
func (c *checker) wrongCardinal(index int, f *chart.Feature) bool {
	side, _, ok := cardinalBearing(f.Mark.CatCam)
	return ok && slices.ContainsFunc(c.passes(index), func(a abeam) bool {
		_, wrong := c.wrongSide(&c.track.Legs[index], a, side)
		return a.mark == f && wrong
	})
}

func (c *checker) markFinding(leg *passage.Leg, a abeam, s plan.Severity, title, detail string) {
	t := c.track.TimeAt(leg, a.metres)
	c.find(plan.Finding{Check: plan.CheckMark, Severity: s, Title: title, Detail: detail, Leg: leg.Number, Time: ptr(t), Until: ptr(t),
		Geometry: a.at, Source: sourceOf(a.mark), Measured: ptr(a.distM), Unit: "m"})
}

// lateral judges a lateral mark against the direction of buoyage.
func (c *checker) lateral(leg *passage.Leg, a abeam) {
	what := named(a.mark, "lateral mark")
	hand, ok := c.hand(a.mark)
	if !ok {
		c.markFinding(leg, a, plan.Care, "Hand not charted", what+": neither its hand nor, for its colour, the region is known.")
		return
	}
	if hand != portHand && hand != starboardHand {
		c.markFinding(leg, a, plan.Note, "Preferred channel mark", what+": channels part here; the main one is marked.")
		return
	}
	direction, ok := c.direction(a.mark)
	if !ok {
		c.gate(leg, a, hand, what)
		return
	}
	off := math.Abs(geo.Turn(direction, leg.Rhumb.CourseDeg))
	if math.Abs(off-90) <= athwartDeg {
		c.markFinding(leg, a, plan.Care, "Crossing a marked channel", what+": the track crosses the channel here, so it is not told on which hand the mark is left; keep out of the way of vessels in it (COLREGs rules 9 and 10).")
		return
	}
	wantPort := (hand == portHand) == (off < 90)
	if a.toPort == wantPort {
		return
	}
	severity, more := plan.Care, "the water is otherwise clear there."
	if c.foulNear(leg, a) {
		severity, more = plan.NotClear, "the water there is foul."
	}
	c.markFinding(leg, a, severity, "Wrong side of a lateral mark",
		fmt.Sprintf("%s should be left to %s on this course; %s", what, handName(wantPort), more))
}

func handName(port bool) string {
	if port {
		return "port"
	}
	return "starboard"
}

// hand is CATLAM, else what the colour means in the region: red to port in
// region A, to starboard in region B (IALA R1001).
func (c *checker) hand(f *chart.Feature) (hand int, ok bool) {
	m := f.Mark
	if m.CatLam != 0 {
		return m.CatLam, true
	}
	region := c.region(f)
	if region == "" || len(m.Colours) != 1 || m.Colours[0] != red && m.Colours[0] != green {
		return 0, false
	}
	if (m.Colours[0] == red) == (region == "A") {
		return portHand, true
	}
	return starboardHand, true
}

// COLOUR codes of IHO S-57 App. A.
const (
	red   = 3
	green = 4
)

// region is the IALA region at a mark: the chart's, else the plan's.
func (c *checker) region(f *chart.Feature) string {
	return cmp.Or(c.ground.buoyage(f).region, c.plan.BuoyageRegion)
}

// direction is the direction of buoyage at a mark, degrees true: the chart's,
// else the plan's.
func (c *checker) direction(f *chart.Feature) (deg float64, ok bool) {
	if b := c.ground.buoyage(f); b.charted {
		return b.deg, true
	}
	if c.plan.BuoyageDeg != nil {
		return *c.plan.BuoyageDeg, true
	}
	return 0, false
}

// gate accepts a track between a port-hand mark and its nearest starboard-hand
// mark; else it warns once a route.
func (c *checker) gate(leg *passage.Leg, a abeam, hand int, what string) {
	if mate, ok := c.mate(a.mark, hand); ok && crossesBetween(leg, a.at, mate) {
		return
	}
	if c.undirected[leg.Route] {
		return
	}
	c.undirected[leg.Route] = true
	c.markFinding(leg, a, plan.Care, "Direction of buoyage not charted",
		what+" and others on this route: the chart does not give the direction of buoyage; say it in the plan, or check each mark's side.")
}

// mate is the nearest lateral mark of the other hand within gateM.
func (c *checker) mate(f *chart.Feature, hand int) (orb.Point, bool) {
	at := f.Coords[0].Position()
	best, found := orb.Point{}, false
	bestM := float64(gateM)
	for _, g := range c.query.MarksNear(chart.NewPiece(at, at), gateM) {
		if !g.Class.Lateral() || c.chart.Overruled(g) {
			continue
		}
		if other, ok := c.hand(g); !ok || other+hand != portHand+starboardHand {
			continue
		}
		if d := geo.DistanceM(at, g.Coords[0].Position()); d <= bestM {
			best, bestM, found = g.Coords[0].Position(), d, true
		}
	}
	return best, found
}

// foulNear tells whether the leg was found not clear of depth, land or dangers
// within mark_m of where it passes a mark.
func (c *checker) foulNear(leg *passage.Leg, a abeam) bool {
	from := c.track.TimeAt(leg, math.Max(0, a.metres-c.plan.Margins.MarkM))
	to := c.track.TimeAt(leg, a.metres+c.plan.Margins.MarkM)
	return slices.ContainsFunc(c.report.Findings, func(f plan.Finding) bool {
		foul := f.Check == plan.CheckClearance || f.Check == plan.CheckLand || f.Check == plan.CheckHazard
		return foul && f.Severity == plan.NotClear && f.Leg == leg.Number && f.Time != nil && f.Until != nil &&
			!f.Until.Before(from) && !f.Time.After(to)
	})
}
