package hazards

import (
	"math"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/rode"
)

// chainCheck compares the rode of a stay at anchor with what is wanted (at-anchor
// contract, section 2).
type chainCheck struct {
	*stayCheck
	bed     *bed
	aboard  rode.Line
	scope   rode.Scope
	laidM   float64 // of what is aboard
	planned bool    // the stay says how much is laid
}

// checkChain checks the rode. Without one in the boat only what is planned to be laid can
// be compared, as rope, which wants the most: the report's cautions say so.
func (s *stayCheck) checkChain() {
	c, ok := s.chain()
	if !ok {
		return
	}
	c.notAboard()
	shoal, known := c.bed.shoalest()
	if height := c.bed.overM(shoal); known && c.bed.tideAtAll && !plan.Enough(c.laidM, c.scope.LengthM(c.aboard, height)) {
		c.tooShort(facts.RodeShort, height, shoal, plan.NotClear)
		return
	}
	height, known := c.bed.highM()
	if !known {
		c.add(plan.Finding{Check: plan.CheckChain, Severity: plan.NoData, Facts: facts.GreatestDepthNotKnown{Why: c.whyNotDeep()}})
		return
	}
	c.atTheDeepest(height)
}

// chain is the check of a stay at anchor; ok is false where there is no anchor, or nothing
// is known of the rode.
func (s *stayCheck) chain() (c chainCheck, ok bool) {
	aboard, given := s.aboard()
	planned := s.stop.Stay.RodeM != nil
	if s.stop.Stay.Kind != plan.AtAnchor || !given && !planned {
		return c, false
	}
	laid := s.rodeOf().line.LengthM()
	return chainCheck{s, s.bed(), aboard, s.scope(), math.Min(laid, aboard.LengthM()), planned}, true
}

// notAboard tells of more to be laid than there is.
func (c chainCheck) notAboard() {
	if !c.planned || plan.Enough(c.aboard.LengthM(), *c.stop.Stay.RodeM) {
		return
	}
	laid, aboard := *c.stop.Stay.RodeM, c.aboard.LengthM()
	c.add(plan.Finding{Check: plan.CheckChain, Severity: plan.NotClear, Measured: &aboard, Required: &laid, Unit: "m",
		Facts: facts.RodeNotAboard{LaidM: plan.CeilHundredths(laid), AboardM: plan.FloorHundredths(aboard)}})
}

// atTheDeepest compares the rode with the greatest height that chart, or echo sounder, and
// tide allow.
func (c chainCheck) atTheDeepest(heightM float64) {
	depth, _ := c.bed.deepest()
	wanted := c.scope.LengthM(c.aboard, heightM)
	c.keepHere(plan.CheckChain, plan.WholeMM(c.laidM), wanted, "m")
	if !plan.Enough(c.laidM, wanted) {
		c.tooShort(facts.RodeShortIfDeep, heightM, depth, plan.Care)
	}
	c.lifts(heightM)
}

// tooShort adds a finding of a rode that is shorter than the scope rule asks.
func (c chainCheck) tooShort(what string, heightM, depthM float64, severity plan.Severity) {
	wanted := c.scope.LengthM(c.aboard, heightM)
	f := facts.Rode{What: what, LaidM: plan.FloorHundredths(c.laidM), WantedM: plan.CeilHundredths(wanted), Scope: c.scopeAt(heightM), Height: c.height(depthM), Planned: c.planned, SoundM: -1}
	if to := c.soundTo(); to != nil {
		f.SoundM = plan.FloorHundredths(*to)
	}
	c.add(plan.Finding{Check: plan.CheckChain, Severity: severity, Facts: f, Measured: ptr(plan.WholeMM(c.laidM)), Required: ptr(wanted), Unit: "m"})
}

// scopeAt is the scope that counts at a height: that of rope where more than the chain is
// wanted and there is rope.
func (c chainCheck) scopeAt(heightM float64) float64 {
	if c.scope.Chain*heightM <= c.aboard.ChainM || c.aboard.RopeM <= 0 {
		return c.scope.Chain
	}
	return c.scope.Rope
}

// lifts tells where the pull comes up at the shank, or where it is not known.
func (c chainCheck) lifts(heightM float64) {
	load, known := c.pull().loadN()
	if !known {
		c.add(plan.Finding{Check: plan.CheckChain, Severity: plan.NoData, Facts: facts.LoadNotKnown{Why: c.whyNoLoad()}})
		return
	}
	deg := c.aboard.Laid(c.laidM).ShankDeg(heightM, load)
	if !plan.Exceeds(deg, rode.MaxShankDeg) {
		return
	}
	depth, _ := c.bed.deepest()
	f := facts.PullLifts{Deg: math.Ceil(deg), MostDeg: rode.MaxShankDeg, LoadN: math.Ceil(load), GustKn: c.pull().gustKn, LaidM: plan.FloorHundredths(c.laidM), Height: c.height(depth)}
	if enough := c.aboard.LeastM(heightM, load, rode.MaxShankDeg); !math.IsInf(enough, 0) {
		f.WantedM = math.Ceil(plan.WholeMM(enough))
	}
	c.add(plan.Finding{Check: plan.CheckChain, Severity: plan.Care, Facts: f, Measured: ptr(deg), Required: ptr(float64(rode.MaxShankDeg)), Unit: "deg"})
}

// heightTerms are what the height of the roller over ground of a depth is made of.
func (c chainCheck) heightTerms(depthM float64) []plan.Term {
	depth := facts.DeepestCharted
	if c.bed.sounded {
		depth = facts.SoundedDepth
	}
	return c.bed.shownUp([]plan.Term{metres(depth, depthM), metres(facts.TideGreatest, c.bed.topM), metres(facts.Margin, c.bed.topMarginM), metres(facts.BowRoller, c.bed.rollerM)})
}

// height is the same for words.
func (c chainCheck) height(depthM float64) facts.Height {
	terms := c.heightTerms(depthM)
	return facts.Height{DepthM: terms[0].Value, TideM: terms[1].Value, MarginM: terms[2].Value, RollerM: terms[3].Value, TotalM: c.bed.overM(depthM),
		Sounded: c.bed.sounded, Shoalest: !c.bed.sounded && depthM != c.bed.deepM}
}

func metres(part facts.Part, m float64) plan.Term {
	return plan.Term{Value: m, Unit: "m", Of: facts.Term{Part: part, AtStay: true}}
}

// shownUp are terms as they are shown where more is worse: whole hundredths that add up to
// their sum rounded up.
func (b *bed) shownUp(terms []plan.Term) []plan.Term {
	values := make([]float64, len(terms))
	for i := range terms {
		values[i] = -terms[i].Value
	}
	shown, _ := plan.Shown(values...)
	for i := range terms {
		terms[i].Value = 0 - shown[i]
	}
	return terms
}

func (c chainCheck) whyNotDeep() facts.WhyNotDeep {
	switch {
	case c.bed.sounded && !c.bed.echoKnown:
		return facts.NoTideAtEcho
	case !c.bed.tideKnown:
		return facts.NoTideOverStay
	}
	return facts.NotChartedDeep
}

// whyNoLoad is why the load is not known.
func (s *stayCheck) whyNoLoad() facts.WhyNoLoad {
	switch p := s.pull(); {
	case !p.windKnown:
		return facts.NoWindOverStay
	case !p.streamKnown:
		return facts.NoStreamOverStay
	case !p.areaKnown:
		return facts.NoArea
	}
	return facts.NoBeam
}
