package hazards

import (
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// checkSchedule: arriving after a stay should have ended, coming home late.
func (h hours) checkSchedule() { h.checkScheduleFrom(0) }

// checkScheduleFrom does so for the stops from one on, and the end of the day.
func (h hours) checkScheduleFrom(stop int) {
	for i := stop; i < len(h.track.Stops); i++ {
		s := &h.track.Stops[i]
		h.keep(plan.InHand{Check: plan.CheckSchedule, Leg: h.track.Legs[h.lastLegOf(s.Route)].Number, Stay: i + 1, Measured: s.Stay.Until.Sub(s.Arrive).Minutes(), Unit: "min"})
		if s.Arrive.After(s.Stay.Until) {
			h.findAbout(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Facts: facts.Late{What: facts.CodeLateAtStay, Comes: facts.At(s.Arrive), Due: facts.At(s.Stay.Until)}, Leg: h.track.Legs[h.lastLegOf(s.Route)].Number, Time: ptr(s.Arrive),
				Measured: ptr(s.Arrive.Sub(s.Stay.Until).Minutes()), Unit: "min", Geometry: s.Stay.At}, about{arriving: i + 1})
			continue
		}
		h.slack = append(h.slack, slack{route: s.Route, left: s.Stay.Until.Sub(s.Arrive)})
	}
	if by := h.plan.BackBy; by != nil {
		h.keep(plan.InHand{Check: plan.CheckSchedule, Measured: by.Sub(h.track.Back).Minutes(), Unit: "min"})
		last := h.track.Legs[len(h.track.Legs)-1]
		if h.track.Back.After(*by) {
			h.dayFinding(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Facts: facts.Late{What: facts.CodeBackTooLate, Comes: facts.At(h.track.Back), Due: facts.At(*by)}, Leg: last.Number,
				Measured: ptr(h.track.Back.Sub(*by).Minutes()), Unit: "min"})
			return
		}
		h.slack = append(h.slack, slack{route: last.Route, left: by.Sub(h.track.Back)})
	}
}
