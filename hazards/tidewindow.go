package hazards

import (
	"fmt"
	"time"

	"keelroom/hazards/plan"
)

// besideLow is how far about the passage the lowest tide is looked for: one
// low water lies in it at least, the tide being semidiurnal or diurnal.
const besideLow = 12 * time.Hour

// reportWindow warns where a leg has water enough now but not at low water,
// and tells when the window closes. A stay may then have to end earlier.
func (c *checker) reportWindow(index int, l *legClearance) {
	s := l.limiting
	if s == nil || c.heights.tide == nil {
		return
	}
	from, to := c.known(s.start.Add(-besideLow), s.end.Add(besideLow))
	lowest, ok := c.heights.tide.Least(from, to)
	if !ok || lowest >= s.levelM() {
		return
	}
	closes, known := c.closes(s)
	f := plan.Finding{Check: plan.CheckTideWindow, Severity: plan.Note, Leg: c.track.Legs[index].Number, Time: ptr(s.start), Until: ptr(s.end),
		Title: "Enough water at this tide only", Geometry: line(&c.track.Legs[index], s.from, s.to), Source: sourceOf(s.f), Made: s.terms(),
		Measured: ptr(s.tideM), Required: ptr(s.levelM()), Unit: "m"}
	f.Detail = fmt.Sprintf("The tide must stand at %.1f m or more here; it falls to %.1f m within 12 hours.", up(s.levelM()), down(lowest))
	if known {
		left := closes.Sub(s.end)
		f.Detail += fmt.Sprintf(" The window closes at %s, %s after passing.", c.clock(closes), minutes(left))
		if left <= time.Duration(c.plan.Margins.WindowMin*float64(time.Minute)) {
			f.Severity = plan.Care
		}
		c.slack = append(c.slack, slack{route: c.track.Legs[index].Route, left: left,
			why: fmt.Sprintf("the water on leg %d goes at %s", c.track.Legs[index].Number, c.clock(closes))})
	}
	dayFrom, dayTo := c.day(s.start)
	f.Windows = c.windowsFor(s, dayFrom, dayTo)
	c.find(f)
}

// closes is when, after passing, the water at a place is no longer enough.
func (c *checker) closes(s *sum) (time.Time, bool) {
	for _, w := range c.heights.windows(s.levelM(), true, s.start.Add(-time.Hour), s.end.Add(2*besideLow)) {
		if !w[0].After(s.start.Add(underWayPad)) && !w[1].Before(s.start) {
			return w[1], w[1].Before(s.end.Add(2 * besideLow))
		}
	}
	// The window is shorter than the 15 minutes kept on either side.
	return s.end, true
}

// known is the part of an interval for which the tide is known.
func (c *checker) known(from, to time.Time) (time.Time, time.Time) {
	begin, end, bounded := c.heights.tide.Covers()
	if !bounded {
		return from, to
	}
	return later(from, begin), earlier(to, end)
}

// up rounds to a tenth, up, for words.
func up(m float64) float64 { return -down(-m) }

func minutes(d time.Duration) string {
	m := int(d.Minutes())
	if m < 120 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}

// slack is how much later a route could leave before something on it fails.
type slack struct {
	route int
	left  time.Duration
	why   string
}
