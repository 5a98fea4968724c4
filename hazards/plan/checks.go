package plan

import "slices"

// The names of the checks.
const (
	CheckClearance     = "clearance"
	CheckTideWindow    = "tide-window"
	CheckLand          = "land"
	CheckHazard        = "hazard"
	CheckNoEntry       = "no-entry"
	CheckSpeed         = "speed"
	CheckMark          = "mark"
	CheckBridge        = "bridge"
	CheckSea           = "sea"
	CheckShelter       = "shelter"
	CheckWindShift     = "wind-shift"
	CheckAnchoringRule = "anchoring-rule"
	CheckDaylight      = "daylight"
	CheckFuel          = "fuel"
	CheckSchedule      = "schedule"
	CheckChain         = "chain"
	CheckSwing         = "swing"
	CheckHolding       = "holding"
	CheckLines         = "lines"
	CheckAboard        = "aboard"
	CheckCoverage      = "coverage"
	CheckDatum         = "datum"
)

// CheckNames returns all checks, in the order of the contract.
func CheckNames() []string {
	return []string{
		CheckClearance, CheckTideWindow, CheckLand, CheckHazard, CheckNoEntry, CheckSpeed,
		CheckMark, CheckBridge, CheckSea, CheckShelter, CheckWindShift, CheckAnchoringRule,
		CheckDaylight, CheckFuel, CheckSchedule, CheckChain, CheckSwing, CheckHolding,
		CheckLines, CheckAboard, CheckCoverage, CheckDatum,
	}
}

// What became of a check.
const (
	Done          = "done"
	NotApplicable = "not-applicable"
	NoInput       = "no-input"
	NotBuilt      = "not-built"
)

// The standing cautions, part of every report.
const (
	CautionAid      = "This is a planning aid, not a chart and not a means of navigation."
	CautionCharts   = "Check every figure against the official charts and the notices to mariners in force."
	CautionLookout  = "Keep a proper lookout at all times, and go by what you see."
	CautionRules    = "Local rules and the orders of those who keep them come before this plan."
	CautionPractice = "Where this differs from the practice of licensed mariners and pilots, follow them."
	// CautionOverGround belongs to a report on a plan without streams.
	CautionOverGround = "No stream was given: speeds are taken over the ground."
	// See NotGiven for those that follow. CautionNoRode and CautionNoHolding belong to a report on a plan with a stay at anchor.
	CautionNoRode    = "What rode the boat has is not given: how much to lay is not checked. Give the metres of chain and rope, and the chain's weight."
	CautionNoHolding = "What her anchor holds is not given: whether it holds in the wind of the day is not checked."
	// CautionNoSwell belongs to a report on a plan without swell; it is told beside
	// the verdict too.
	CautionNoSwell = "No swell was given: none is counted, under way or at a stay. Look at a forecast of it, or type it in."
)

// NotGiven returns the cautions about what a plan does not give, and what is so not
// counted or not checked. They are told beside the verdict too.
func (p *Plan) NotGiven() []string {
	var out []string
	if len(p.Swell) == 0 {
		out = append(out, CautionNoSwell)
	}
	if !p.Anchors() {
		return out
	}
	if !p.Boat.RodeGiven() {
		out = append(out, CautionNoRode)
	}
	if p.Boat.HoldingN == nil {
		out = append(out, CautionNoHolding)
	}
	return out
}

// Anchors reports whether she lies at anchor on any stay.
func (p *Plan) Anchors() bool {
	return slices.ContainsFunc(p.Parts, func(part Part) bool { return part.Stay != nil && part.Stay.Kind == AtAnchor })
}

// StandingCautions returns the cautions that are part of every report.
func StandingCautions() []string {
	return []string{CautionAid, CautionCharts, CautionLookout, CautionRules, CautionPractice}
}

// CautionNotBuilt returns the caution that a check is not made by this version.
func CautionNotBuilt(check string) string {
	return "Not checked by this version: " + check + "."
}
