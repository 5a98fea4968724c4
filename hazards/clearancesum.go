package hazards

import (
	"math"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// parts are the terms of the clearance, each with its sign. The first waterParts
// of them make the depth of water.
func (s *sum) parts() []plan.Term {
	term := func(part facts.Part, m float64) plan.Term {
		return plan.Term{Value: m, Unit: "m", Of: facts.Term{Part: part}}
	}
	out := []plan.Term{term(facts.ChartedDepth, s.depthM), term(facts.TideLeast, s.tideM), term(facts.DatumOffset, s.offsetM), term(facts.Margin, -s.marginM),
		term(facts.Draught, -s.draughtM), term(facts.Squat, -s.squatM), term(facts.Waves, -s.waveM)}
	out[0].Of.Class, out[1].Of.AtStay = s.f.Class, s.atStay
	out[5].Of.Kn, out[5].Of.WaterM = s.kn, plan.FloorHundredths(s.waterM())
	return out
}

// waterParts is how many of the parts make the depth of water.
const waterParts = 4

// shown are the values of parts as they are shown, so that they add up.
func (s *sum) shown(parts []plan.Term) []float64 {
	values := make([]float64, len(parts))
	for i := range parts {
		values[i] = parts[i].Value
	}
	shown, _ := plan.Shown(values...)
	return shown
}

// terms are parts as they are shown, but for a datum that is the same.
func (s *sum) terms(parts []plan.Term) []plan.Term {
	var out []plan.Term
	for i, v := range s.shown(parts) {
		if parts[i].Of.Part == facts.DatumOffset && v == 0 {
			continue
		}
		parts[i].Value = v
		out = append(out, parts[i])
	}
	return out
}

// figures are what a finding measured and wanted, and what the first is made of:
// the water by itself where only comfort is wanting, else what is left of it.
func (s *sum) figures(k clearanceKind, m *plan.Margins) (measured, required *float64, unit string, made []plan.Term) {
	if k == uncomfortable {
		return ptr(plan.WholeMM(s.waterM())), ptr(m.ComfortDepthM), "m", s.terms(s.parts()[:waterParts])
	}
	return ptr(plan.WholeMM(s.clearanceM())), ptr(s.requiredM), "m", s.terms(s.parts())
}

// clearanceCodes name what is wrong with a clearance.
var clearanceCodes = map[clearanceKind]string{tooLittle: facts.TooLittleWater, onlyExact: facts.EnoughIfExact, onlyInPlace: facts.TooLittleWaterInPlace,
	onlyData: facts.EnoughWithinChart, uncomfortable: facts.ShallowForSpeed}

// facts are what is said of a clearance.
func (s *sum) facts(k clearanceKind, m *plan.Margins) facts.Water {
	w := facts.Water{What: clearanceCodes[k], HaveM: plan.FloorHundredths(s.clearanceM()), WantedM: plan.CeilHundredths(s.requiredM), Sum: s.shownSum(s.parts(), s.clearanceM())}
	switch k {
	case tooLittle:
		w.When = facts.At(s.start)
	case onlyExact:
		w.AccuracyM = plan.CeilHundredths(s.accuracyM)
	case onlyData:
		w.OpenWaveM = plan.CeilHundredths(s.openWaveM)
	case uncomfortable:
		w.HaveM, w.WantedM, w.Kn = plan.FloorHundredths(s.waterM()), plan.CeilHundredths(m.ComfortDepthM), s.kn
		w.Sum = s.shownSum(s.parts()[:waterParts], s.waterM())
		return w
	}
	w.Sum.DatumUnknown, w.Sum.SeaUnknown = !s.datumOK, s.seaUnknown
	return w
}

// shownSum is some of the parts and what they make, as they are shown.
func (s *sum) shownSum(parts []plan.Term, totalM float64) facts.Sum {
	out := facts.Sum{TotalM: plan.FloorHundredths(totalM), AtStay: s.atStay}
	terms := []*float64{&out.ChartedM, &out.TideM, &out.DatumM, &out.MarginM, &out.DraughtM, &out.SquatM, &out.WavesM}
	for i, v := range s.shown(parts) {
		*terms[i] = v
	}
	return out
}

// down rounds to a tenth, down, for words.
func down(m float64) float64 { return math.Floor(m*10+1e-9) / 10 }
