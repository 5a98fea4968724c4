package hazards

import "keelroom/hazards/plan"

// CheckMoving checks a plan while it is being changed by hand: what Check gives, but
// for what takes long and nobody reads meanwhile: when each stay has to be left, tide,
// sun, charts, messages, what became of each check, and cautions.
func (s *Session) CheckMoving(p *plan.Plan) (*plan.Report, error) {
	return s.check(p, dayReport.finishMoving)
}

// finishMoving writes what is read while a plan is being changed.
func (dr dayReport) finishMoving() {
	dr.legFeatures()
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
