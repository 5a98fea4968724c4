package hazards

import (
	"slices"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// notBuilt are the checks this version does not make.
var notBuilt = []string{plan.CheckChain, plan.CheckSwing, plan.CheckHolding, plan.CheckLines, plan.CheckAboard}

// finish writes the figures of the day, the state of each check, the cautions
// and the verdict.
func (c *checker) finish() {
	r := c.report
	c.legFeatures()
	r.Depart, r.Back = ptr(c.track.Depart), ptr(c.track.Back)
	r.LeaveBy = c.leaveBy()
	r.DistanceNm, r.UnderWayMin = ptr(c.distanceNM()), ptr(c.underWayMinutes())
	r.LeastClearance = c.leastOfDay()
	r.Tide, r.Sun = c.tideOfDay(), c.sunOfDay()
	r.Charts, r.Messages = c.chartsUsed(), c.messages()
	c.stateOfChecks()
	c.cautions()
	r.Verdict = plan.VerdictOf(r.Findings)
	r.Findings, r.More = bounded(c.merging().once(r.Findings, c.abouts))
}

func (c *checker) tideOfDay() *plan.TideOfDay {
	if c.tide == nil {
		return nil
	}
	out := &plan.TideOfDay{Datum: c.plan.Tide.DatumOf(), Method: c.tide.Describe()}
	from, _ := c.day(c.track.Depart)
	_, to := c.day(c.track.Back)
	for _, e := range c.heights.tide.Events(from, to) {
		out.Events = append(out.Events, plan.HighOrLow{Time: e.Time, Kind: e.Kind(), HeightM: e.HeightM})
	}
	return out
}

func (c *checker) sunOfDay() *plan.Sun {
	d := c.memory.sunOn(c.track.Depart.In(c.zone()), c.track.Legs[0].Rhumb.From)
	known := func(t time.Time) *time.Time {
		if t.IsZero() {
			return nil
		}
		return &t
	}
	return &plan.Sun{Sunrise: known(d.Sunrise), Sunset: known(d.Sunset), CivilDusk: known(d.CivilDusk)}
}

func (c *checker) chartsUsed() []plan.ChartUsed {
	var out []plan.ChartUsed
	for _, s := range c.chart.Sets() {
		out = append(out, plan.ChartUsed{Title: s.Title, Edition: s.Edition, IssueDate: s.IssueDate, Scale: s.Scale,
			Datum: s.SoundingDatum, Authority: s.Authority.String(), SHA256: s.SHA256})
	}
	return out
}

// messages are those of all sets: of one code and cause the first, then their
// number.
func (c *checker) messages() []string {
	var log layer.Log
	for _, s := range c.chart.Sets() {
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
func (c *checker) stateOfChecks() {
	state := c.report.Checks
	for _, name := range plan.CheckNames() {
		state[name] = plan.Done
	}
	for _, name := range notBuilt {
		state[name] = plan.NotBuilt
	}
	only := func(applies bool, names ...string) {
		for _, name := range names {
			if !applies {
				state[name] = plan.NotApplicable
			}
		}
	}
	only(len(c.track.Stops) > 0, plan.CheckShelter, plan.CheckWindShift, plan.CheckAnchoringRule)
	only(!c.plan.Boat.Night, plan.CheckDaylight)
	missing := func(given bool, names ...string) {
		for _, name := range names {
			if !given && state[name] == plan.Done {
				state[name] = plan.NoInput
			}
		}
	}
	missing(c.tide != nil, plan.CheckClearance, plan.CheckTideWindow)
	missing(len(c.plan.Wind) > 0, plan.CheckSea, plan.CheckShelter, plan.CheckWindShift)
	missing(c.report.FuelL != nil, plan.CheckFuel)
	missing(len(c.chart.Sets()) > 0, plan.CheckClearance, plan.CheckTideWindow, plan.CheckLand, plan.CheckHazard, plan.CheckNoEntry,
		plan.CheckSpeed, plan.CheckMark, plan.CheckBridge, plan.CheckAnchoringRule, plan.CheckCoverage, plan.CheckDatum)
}

// cautions are the standing ones and what this plan asks for.
func (c *checker) cautions() {
	c.report.Warned = facts.StandingCautions()
	if len(c.plan.Stream) == 0 {
		c.caution(facts.OverGround, "", "")
	}
	if len(c.plan.Swell) == 0 {
		c.caution(facts.NoSwellGiven, "", "")
	}
	if t := c.plan.Tide; t != nil && t.Position == nil {
		c.caution(facts.StationNowhere, "", "")
	}
	if c.swellShut {
		c.caution(facts.SwellShut, "", "")
	}
	c.caution(facts.SeaAccuracy, "", "")
	if c.chart.OnlyPrivate() {
		c.caution(facts.PrivateCoverage, "", "")
	}
	c.trustCautions()
	for _, s := range c.chart.Sets() {
		switch {
		case s.Authority == chart.Official:
		case s.Cancelled != "":
			c.caution(facts.Cancelled, s.Title, s.Cancelled)
		default:
			c.caution(facts.NotOfficial, s.Title, s.Authority.String())
		}
	}
	for _, name := range notBuilt {
		c.caution(facts.NotBuilt, name, "")
	}
}

func (c *checker) caution(what, name, by string) {
	c.report.Warned = append(c.report.Warned, facts.Caution{What: what, Name: name, By: by})
}

// trustCautions tells which charts count like official ones by the skipper's
// choice, and which names of it are of none.
func (c *checker) trustCautions() {
	trusted := c.chart.Trusted()
	for _, s := range trusted {
		c.caution(facts.Trusted, s.Title, "")
	}
	for _, name := range c.plan.Choices.Trust {
		if !slices.ContainsFunc(trusted, func(s *chart.Set) bool { return name == s.Title || name == s.SHA256 }) {
			c.caution(facts.TrustedUnknown, name, "")
		}
	}
}
