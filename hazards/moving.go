package hazards

import "keelroom/hazards/plan"

// CheckMoving checks a plan while it is being changed by hand: what Check gives, but
// for what takes long and nobody reads meanwhile: when each stay has to be left, tide,
// sun, charts, messages, what became of each check, cautions, and of legs all but
// their times and where the clearance is least, and how much. The report is good until
// the session is used again.
func (s *Session) CheckMoving(p *plan.Plan) (*plan.Report, error) {
	return s.check(p, dayReport.finishMoving)
}

// finishMoving writes what is read while a plan is being changed.
func (dr dayReport) finishMoving() {
	dr.legsMoving()
	dr.figures()
}

// figures writes the figures of the day, and the verdict.
func (dr dayReport) figures() {
	r := dr.report
	r.Depart, r.Back = ptr(dr.track.Depart), ptr(dr.track.Back)
	r.DistanceNm, r.UnderWayMin = ptr(dr.distanceNM()), ptr(dr.underWayMinutes())
	r.LeastClearance = dr.leastOfDay()
	r.Verdict = plan.VerdictOf(r.Findings)
	r.Findings, r.More = bounded(dr.merging().once(r.Findings, dr.abouts))
}

// legsMoving writes when she is on each leg, and the leg's least clearance.
func (dr dayReport) legsMoving() {
	r, n := dr.report, len(dr.outcomes)
	r.Legs, r.Clearances = make([]plan.Leg, 0, n), make([]plan.Clearance, 0, n)
	metres := make([]float64, n)
	for i, o := range dr.outcomes {
		leg := &dr.track.Legs[i]
		r.Legs = append(r.Legs, plan.Leg{Leg: leg.Number, Start: &leg.Start, End: &leg.End})
		if s := o.result.least; s != nil {
			metres[i] = plan.WholeMM(s.clearanceM())
			r.Clearances = append(r.Clearances, plan.Clearance{Leg: leg.Number, ClearanceM: &metres[i], At: leg.Rhumb.At(s.from)})
		}
	}
}
