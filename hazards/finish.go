package hazards

import (
	"slices"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// NotBuilt are the names of the checks that this version does not make. Whoever shows
// a verdict shows them beside it.
func NotBuilt() []string {
	return []string{plan.CheckLines, plan.CheckAboard}
}

// dayReport is a report being finished: what is said of the day as a whole.
type dayReport struct{ *checker }

// finish writes the figures of the day, the state of each check, the cautions
// and the verdict.
func (dr dayReport) finish() {
	r := dr.report
	r.LeaveBy = leaver{dr.checker}.leaveBy()
	r.Tide, r.Sun = dr.tideOfDay(), dr.sunOfDay()
	r.Charts, r.Messages = dr.chartsUsed(), dr.messages()
	dr.legFeatures()
	dr.figures()
	dr.stateOfChecks()
	dr.cautions()
}

func (dr dayReport) tideOfDay() *plan.TideOfDay {
	if dr.tide == nil {
		return nil
	}
	out := &plan.TideOfDay{Datum: dr.plan.Tide.DatumOf(), Method: dr.tide.Describe()}
	from, _ := dr.day(dr.track.Depart)
	_, to := dr.day(dr.track.Back)
	for _, e := range dr.heights.tide.Events(from, to) {
		out.Events = append(out.Events, plan.HighOrLow{Time: e.Time, Kind: e.Kind(), HeightM: e.HeightM})
	}
	return out
}

func (dr dayReport) sunOfDay() *plan.Sun {
	d := dr.memory.sunOn(dr.track.Depart.In(dr.zone()), dr.track.Legs[0].Rhumb.From)
	known := func(t time.Time) *time.Time {
		if t.IsZero() {
			return nil
		}
		return &t
	}
	return &plan.Sun{Sunrise: known(d.Sunrise), Sunset: known(d.Sunset), CivilDusk: known(d.CivilDusk)}
}

func (dr dayReport) chartsUsed() []plan.ChartUsed {
	var out []plan.ChartUsed
	for _, s := range dr.chart.Sets() {
		out = append(out, plan.ChartUsed{Title: s.Title, Edition: s.Edition, IssueDate: s.IssueDate, Scale: s.Scale,
			Datum: s.SoundingDatum, Authority: s.Authority.String(), SHA256: s.SHA256})
	}
	return out
}

// messages are those of all sets: of one code and cause the first, then their
// number.
func (dr dayReport) messages() []string {
	var log layer.Log
	for _, s := range dr.chart.Sets() {
		for _, m := range s.Messages {
			log.Add(m)
		}
	}
	var out []string
	for _, m := range log.Messages() {
		out = append(out, m.String())
	}
	return out
}

// stateOfChecks says what became of each check.
func (dr dayReport) stateOfChecks() {
	state := dr.report.Checks
	for _, name := range plan.CheckNames() {
		state[name] = plan.Done
	}
	for _, name := range NotBuilt() {
		state[name] = plan.NotBuilt
	}
	only := func(applies bool, names ...string) {
		for _, name := range names {
			if !applies {
				state[name] = plan.NotApplicable
			}
		}
	}
	only(len(dr.track.Stops) > 0, plan.CheckShelter, plan.CheckWindShift, plan.CheckAnchoringRule)
	only(slices.ContainsFunc(dr.track.Stops, func(s passage.Stop) bool { return s.Stay.Kind != plan.AtBerth }), plan.CheckSwing)
	only(dr.plan.Anchors(), plan.CheckChain, plan.CheckHolding)
	only(!dr.plan.Boat.Night, plan.CheckDaylight)
	missing := func(given bool, names ...string) {
		for _, name := range names {
			if !given && state[name] == plan.Done {
				state[name] = plan.NoInput
			}
		}
	}
	missing(dr.tide != nil, plan.CheckClearance, plan.CheckTideWindow, plan.CheckSwing)
	missing(dr.plan.Boat.LengthM != nil, plan.CheckSwing)
	missing(len(dr.plan.Wind) > 0, plan.CheckSea, plan.CheckShelter, plan.CheckWindShift)
	missing(dr.plan.Boat.RodeGiven() && dr.tide != nil && len(dr.plan.Wind) > 0 && len(dr.chart.Sets()) > 0, plan.CheckChain)
	missing(dr.plan.Boat.HoldingN != nil && len(dr.plan.Wind) > 0, plan.CheckHolding)
	missing(dr.report.FuelL != nil, plan.CheckFuel)
	missing(len(dr.chart.Sets()) > 0, plan.CheckClearance, plan.CheckTideWindow, plan.CheckLand, plan.CheckHazard, plan.CheckNoEntry,
		plan.CheckSpeed, plan.CheckMark, plan.CheckBridge, plan.CheckAnchoringRule, plan.CheckSwing, plan.CheckCoverage, plan.CheckDatum)
}

// surgeM is the sea at a stay from which on the jerk of waves at the anchor is spoken of
// (at-anchor contract, section 1).
const surgeM = 0.3

// anchorCautions are what a stay at anchor asks for.
func (dr dayReport) anchorCautions() {
	if !dr.plan.Anchors() {
		return
	}
	if !dr.plan.Boat.RodeGiven() {
		dr.caution(facts.NoRodeGiven, "", "")
	}
	if dr.plan.Boat.HoldingN == nil {
		dr.caution(facts.NoHoldingGiven, "", "")
	}
	if slices.ContainsFunc(dr.report.Stays, func(s plan.StayResult) bool { return s.SeaGreatestM == nil || plan.Enough(*s.SeaGreatestM, surgeM) }) {
		dr.caution(facts.WaveSurge, "", "")
	}
}

// cautions are the standing ones and what this plan asks for.
func (dr dayReport) cautions() {
	dr.report.Warned = facts.StandingCautions()
	if len(dr.plan.Stream) == 0 {
		dr.caution(facts.OverGround, "", "")
	}
	if len(dr.plan.Swell) == 0 {
		dr.caution(facts.NoSwellGiven, "", "")
	}
	if t := dr.plan.Tide; t != nil && t.Position == nil {
		dr.caution(facts.StationNowhere, "", "")
	}
	dr.anchorCautions()
	if dr.swellShut {
		dr.caution(facts.SwellShut, "", "")
	}
	dr.caution(facts.SeaAccuracy, "", "")
	if dr.chart.OnlyPrivate() {
		dr.caution(facts.PrivateCoverage, "", "")
	}
	dr.trustCautions()
	for _, s := range dr.chart.Sets() {
		switch {
		case s.Authority == chart.Official:
		case s.Cancelled != "":
			dr.caution(facts.Cancelled, s.Title, s.Cancelled)
		default:
			dr.caution(facts.NotOfficial, s.Title, s.Authority.String())
		}
	}
	for _, name := range NotBuilt() {
		dr.caution(facts.NotBuilt, name, "")
	}
}

func (dr dayReport) caution(what, name, by string) {
	dr.report.Warned = append(dr.report.Warned, facts.Caution{What: what, Name: name, By: by})
}

// trustCautions tells which charts count like official ones by the skipper's
// choice, and which names of it are of none.
func (dr dayReport) trustCautions() {
	trusted := dr.chart.Trusted()
	for _, s := range trusted {
		dr.caution(facts.Trusted, s.Title, "")
	}
	for _, name := range dr.plan.Choices.Trust {
		if !slices.ContainsFunc(trusted, func(s *chart.Set) bool { return name == s.Title || name == s.SHA256 }) {
			dr.caution(facts.TrustedUnknown, name, "")
		}
	}
}
