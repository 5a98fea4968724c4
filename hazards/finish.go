package hazards

import (
	"fmt"
	"slices"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
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
	r.Findings, r.More = bounded(c.once(r.Findings, c.abouts))
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

// cautions adds to the standing ones what this plan asks for.
func (c *checker) cautions() {
	add := func(text string) { c.report.Cautions = append(c.report.Cautions, text) }
	if len(c.plan.Stream) == 0 {
		add(plan.CautionOverGround)
	}
	if len(c.plan.Swell) == 0 {
		add(plan.CautionNoSwell)
	}
	if t := c.plan.Tide; t != nil && t.Position == nil {
		add("The plan does not say where its tide station lies: nothing compares its tide with the waters of the day.")
	}
	if c.swellShut {
		add("Swell was left out where no open water lies toward it: how it bends into bays is not computed.")
	}
	add(fmt.Sprintf("Seas are worked out from wind and fetch to within %d %%, and follow the wind's direction at once: an old sea from before a shift is not counted.", 25))
	if c.chart.OnlyPrivate() {
		add("No official or derived chart is loaded: coverage comes from private layers only.")
	}
	c.trustCautions(add)
	for _, s := range c.chart.Sets() {
		if s.Authority == chart.Official {
			continue
		}
		if s.Cancelled != "" {
			add(fmt.Sprintf("%q was cancelled by its producer (%s): it is no chart in force, and beside one counts only where it warns.", s.Title, s.Cancelled))
			continue
		}
		add(fmt.Sprintf("%q is %s data, not an official chart.", s.Title, s.Authority))
	}
	for _, name := range notBuilt {
		add(plan.CautionNotBuilt(name))
	}
}

// trustCautions tells which charts count like official ones by the skipper's
// choice, and which names of it are of none.
func (c *checker) trustCautions(add func(string)) {
	trusted := c.chart.Trusted()
	for _, s := range trusted {
		add(fmt.Sprintf("“%s” is trusted over official charts, as the plan says: where it is of larger scale, their depths and dangers do not count.", s.Title))
	}
	for _, name := range c.plan.Choices.Trust {
		if !slices.ContainsFunc(trusted, func(s *chart.Set) bool { return name == s.Title || name == s.SHA256 }) {
			add(fmt.Sprintf("The plan trusts “%s”, and no derived chart of that name is loaded.", name))
		}
	}
}
