package hazards

import (
	"slices"
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
)

// leave_by is, for each stay, the latest time such that she may leave at any time
// looked at until then: the same plan laid anew for that hour, with its warm-up,
// streams, light and sea, finds nothing not clear and nothing unknown about the
// stay and the way on to the next, and nothing worse than as planned elsewhere in
// the day (plan-file contract, section 4). What was about to end as planned, and
// every half hour of a day, is looked at; then the time is narrowed to a minute.
// Rules of tide hold for 15 minutes either side of a time, so that nothing of
// theirs lies between two looks.

const (
	leaveStep    = 30 * time.Minute
	leaveHorizon = 24 * time.Hour
)

// leaver looks for the latest times to leave the stays of a day.
type leaver struct{ *checker }

// leaveBy works it out for every stay.
func (lv leaver) leaveBy() []plan.LeaveBy {
	var out []plan.LeaveBy
	for i := range lv.track.Stops {
		if lv.stopped != nil {
			return nil
		}
		if why := lv.noLeaving(i); why != "" {
			out = append(out, plan.LeaveBy{Reason: facts.Leaving{What: why}})
			continue
		}
		out = append(out, lv.latestLeaving(i))
	}
	return out
}

// noLeaving says why there is no time to leave a stay by, if there is none.
func (lv leaver) noLeaving(stop int) string {
	s := &lv.track.Stops[stop]
	here, _ := lv.worstAbout(stop)
	switch {
	case lv.stayWorst[stop] == plan.NotClear:
		return facts.StayNotClear
	case lv.stayWorst[stop] == plan.NoData:
		return facts.StayNotKnown
	case s.Route+1 >= len(lv.plan.Routes()):
		return facts.DayEnds
	case here == plan.NotClear:
		return facts.WayNotClear
	case here == plan.NoData:
		return facts.WayNotKnown
	}
	return ""
}

// worstAbout is the worst severity of what was found about a stay and the way on
// from it, and of all else.
func (lv leaver) worstAbout(stop int) (here, elsewhere plan.Severity) {
	here, elsewhere = plan.Note, plan.Note
	for i := range lv.report.Findings {
		if f := &lv.report.Findings[i]; lv.isAbout(i, stop) {
			here = here.Worse(f.Severity)
		} else {
			elsewhere = elsewhere.Worse(f.Severity)
		}
	}
	return here, elsewhere
}

// isAbout tells whether a finding is about a stay or the way on from it.
func (lv leaver) isAbout(finding, stop int) bool {
	leg := lv.report.Findings[finding].Leg
	return lv.abouts[finding].lying == stop+1 || leg > 0 && lv.track.Legs[leg-1].Route == lv.track.Stops[stop].Route+1
}

// latestLeaving looks for the time. As planned nothing is wrong.
func (lv leaver) latestLeaving(stop int) plan.LeaveBy {
	leave := lv.track.Stops[stop].Leave
	good, bad := time.Duration(0), time.Duration(-1)
	var why facts.Facts
	for _, d := range lv.leavingTimes(stop) {
		if lv.stopped != nil {
			break
		}
		if f := lv.wrongLeaving(stop, leave.Add(d)); f != nil {
			bad, why = d, lv.whyNoLater(f)
			break
		}
		good = d
	}
	_, elsewhere := lv.worstAbout(stop)
	fails := func(d time.Duration) facts.Facts {
		if f := lv.wrongLeaving(stop, leave.Add(d)); f != nil {
			return lv.whyNoLater(f)
		}
		return nil
	}
	good, why = narrowed(good, bad, why, fails)
	whole := func(d time.Duration) facts.Facts { return lv.wrongDay(stop, leave.Add(d), elsewhere) }
	if other := whole(good); other != nil {
		good, why = narrowed(0, good, other, whole)
	}
	switch {
	case lv.stopped != nil:
		return plan.LeaveBy{}
	case why == nil:
		return plan.LeaveBy{Reason: facts.Leaving{What: facts.NothingSets}}
	}
	return plan.LeaveBy{Time: ptr(leave.Add(good)), Reason: why}
}

// narrowed is the last whole minute from good on before something is wrong, which
// it is at bad; bad before good is never.
func narrowed(good, bad time.Duration, why facts.Facts, wrong func(time.Duration) facts.Facts) (time.Duration, facts.Facts) {
	for bad-good > time.Minute {
		mid := good + (bad-good)/2
		if mid = mid.Truncate(time.Minute); mid <= good {
			mid = good + time.Minute
		}
		if other := wrong(mid); other != nil {
			bad, why = mid, other
		} else {
			good = mid
		}
	}
	return good, why
}

// leavingTimes are how much later than planned she is tried to leave, in order.
func (lv leaver) leavingTimes(stop int) []time.Duration {
	var out []time.Duration
	for d := leaveStep; d <= leaveHorizon; d += leaveStep {
		out = append(out, d)
	}
	for _, k := range lv.slack {
		if d := k.left.Truncate(time.Minute) + time.Minute; k.route == lv.track.Stops[stop].Route+1 && d > 0 && d < leaveHorizon {
			out = append(out, d)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// wrongLeaving gives what is wrong about a stay and the way on from it if she
// leaves at another time; nil for nothing.
func (lv leaver) wrongLeaving(stop int, leave time.Time) *plan.Finding {
	way := lv.wayOn(stop, leave)
	if way.atOnce {
		return way.wrong
	}
	if f := lv.wrongStay(stop, leave); f != nil {
		return f
	}
	return way.wrong
}

// wrongStay gives what is wrong about a stay if she leaves it at another time.
func (lv leaver) wrongStay(stop int, leave time.Time) *plan.Finding {
	t := lv.leaving(stop, leave)
	track := *lv.track
	track.Stops = slices.Clone(lv.track.Stops)
	track.Stops[stop].Leave = leave
	t.track = &track
	t.checkStay(stop)
	lv.stopped = t.stopped
	return t.wrong()
}

// lightAndSchedule looks at what is known once the legs from one on are laid, with
// the stops from one on.
func (h hours) lightAndSchedule(stop, first int) {
	for i := first; i < len(h.track.Legs); i++ {
		h.legLight(i)
	}
	roughness{h.checker}.checkStemmingFrom(first)
	h.checkScheduleFrom(stop)
}

// wrong is a finding that stops her; nil for none.
func (c *checker) wrong() *plan.Finding {
	for i := range c.report.Findings {
		if f := &c.report.Findings[i]; stops(f.Severity) {
			return f
		}
	}
	return nil
}

// leavingAt is a check of the day with another time of leaving a stay, laid out as
// far as the next stay; nothing is checked yet.
func (lv leaver) leavingAt(stop int, leave time.Time) *checker {
	t := lv.leaving(stop, leave)
	t.track = lv.track.LeavingAt(t.plan, preparing{t}.waters(), stop, leave, true)
	if t.stopped != nil {
		t.routes.Forget()
	}
	preparing{t}.findHarbours(t.lastLegOf(t.track.Stops[stop].Route) + 1)
	return t
}

// leaving is a check of the day with another time of leaving a stay, not laid out.
func (c *checker) leaving(stop int, leave time.Time) *checker {
	t := newChecker(c.ground, c.memory, leavingPlan(c.plan, stop, leave))
	t.between, t.stopped, t.brief, t.onlyStops = c.between, c.stopped, true, true
	t.tide, t.wind, t.stream, t.turns = c.tide, c.wind, c.stream, c.turns
	t.heights = heights{tide: preparing{t}.windowed(), marginM: c.heights.marginM}
	t.marginAheadM = t.heights.greatestMargin(preparing{t}.planSpan())
	t.sea = &sea.Model{Wind: c.wind, Swell: c.sea.Swell, Cast: preparing{t}.shore(), OpenFetchM: c.sea.OpenFetchM}
	return t
}

// leavingPlan is the plan with another end of a stay.
func leavingPlan(p *plan.Plan, stop int, leave time.Time) *plan.Plan {
	out := *p
	out.Parts = slices.Clone(p.Parts)
	for i, part := range out.Parts {
		if part.Stay == nil {
			continue
		}
		if stop == 0 {
			s := *part.Stay
			s.Until = leave
			out.Parts[i].Stay = &s
		}
		stop--
	}
	return &out
}

// wrongDay says what is wrong where the whole day is checked with another time of
// leaving a stay: about the stay and the way on, or elsewhere where it is worse
// than as planned.
func (lv leaver) wrongDay(stop int, leave time.Time, planned plan.Severity) facts.Facts {
	t := newChecker(lv.ground, lv.memory, leavingPlan(lv.plan, stop, leave))
	t.between, t.stopped, t.brief = lv.between, lv.stopped, true
	if err := (preparing{t}).prepare(); err != nil {
		lv.stopped = t.stopped
		return nil
	}
	for _, part := range []func(){t.checkLegs, roughness{t}.checkStemming, t.checkStays, hours{t}.checkDaylight, burning{t}.checkFuel, hours{t}.checkSchedule} {
		if part(); t.pause() != nil {
			lv.stopped = t.stopped
			return nil
		}
	}
	here, elsewhere := leaver{t}.worstAbout(stop)
	if !stops(here) && (!stops(elsewhere) || planned.Worse(elsewhere) == planned) {
		return nil
	}
	for i := range t.report.Findings {
		if f := &t.report.Findings[i]; stops(f.Severity) && (leaver{t}).isAbout(i, stop) == stops(here) {
			return lv.whyNoLater(f)
		}
	}
	return nil
}

// stops tells whether a severity keeps her from going.
func stops(s plan.Severity) bool { return s == plan.NotClear || s == plan.NoData }

// whyNoLater is what would be wrong if she left later.
func (lv leaver) whyNoLater(f *plan.Finding) facts.Facts {
	out := facts.NoLater{Of: f.Facts, Leg: f.Leg, Unknown: f.Severity == plan.NoData}
	if f.Time != nil {
		out.Timed, out.When = true, facts.At(*f.Time)
	}
	return out
}
