package hazards

import (
	"fmt"
	"math"

	"keelroom/hazards/plan"
)

// parts are the terms of the clearance, each with its sign. The first waterParts
// of them make the depth of water.
func (s *sum) parts() []plan.Term {
	when := "the least within 15 min of passing"
	if s.atStay {
		when = "the least while she lies there"
	}
	return []plan.Term{
		{Name: "charted depth", Value: s.depthM, Unit: "m", Why: s.f.Class.String() + ", the shoalest the chart allows"},
		{Name: "tide", Value: s.tideM, Unit: "m", Why: when},
		{Name: "datum", Value: s.offsetM, Unit: "m", Why: "tide datum above sounding datum, as answered"},
		{Name: "margin", Value: -s.marginM, Unit: "m", Why: "for the tide's own uncertainty"},
		{Name: "draught", Value: -s.draughtM, Unit: "m", Why: "at rest, loaded"},
		{Name: "squat", Value: -s.squatM, Unit: "m", Why: fmt.Sprintf("at %.1f kn in %s m of water", s.kn, plan.Down(s.waterM()))},
		{Name: "waves", Value: -s.waveM, Unit: "m", Why: "share of the significant wave height"},
	}
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
		if parts[i].Name == "datum" && v == 0 {
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

func clearanceWords(k clearanceKind, s *sum, c *checker) (title, detail string) {
	have, wanted := plan.Down(s.clearanceM()), plan.Up(s.requiredM)
	switch k {
	case tooLittle:
		return "Too little water", fmt.Sprintf("%s m under the keel at %s, %s m wanted. %s", have, c.clock(s.start), wanted, s.sentence())
	case onlyExact:
		return "Enough only if the survey is exact", fmt.Sprintf("%s m under the keel, %s m wanted, but the charted depth may be out by %s m. %s", have, wanted, plan.Up(s.accuracyM), s.sentence())
	case onlyInPlace:
		return "Shoal water within the survey's position accuracy", fmt.Sprintf("Outside the corridor, but charted things may lie where they are not drawn: %s m under the keel there, %s m wanted. %s", have, wanted, s.sentence())
	case onlyData:
		return "Enough only in the sea within the chart", fmt.Sprintf("With open water beyond the chart the sea would take %s m more. %s", plan.Up(s.openWaveM), s.sentence())
	}
	return "Shallow for this speed", fmt.Sprintf("%s m of water at %.1f kn, %s m is comfortable. %s", plan.Down(s.waterM()), s.kn, plan.Up(c.plan.Margins.ComfortDepthM), s.added(s.parts()[:waterParts], s.waterM()))
}

// sentence writes the sum out.
func (s *sum) sentence() string {
	text := s.added(s.parts(), s.clearanceM())
	if !s.datumOK {
		text += " Depth and tide are above different levels, or it is not known which: at most this much."
	}
	if s.seaUnknown {
		text += " Not all of the sea is known: too little may have been taken off for waves."
	}
	return text
}

// added writes parts and what they make. The tide says which it is: it differs
// from the height at the minute.
func (s *sum) added(parts []plan.Term, totalM float64) string {
	text := ""
	for i, v := range s.shown(parts) {
		switch name := parts[i].Name; {
		case i == 0:
			text = fmt.Sprintf("Charted %.2f m", v)
		case name == "tide":
			text += fmt.Sprintf(" %s tide %.2f m (%s)", signOf(v), math.Abs(v), parts[i].Why)
		case v != 0:
			text += fmt.Sprintf(" %s %s %.2f m", signOf(v), name, math.Abs(v))
		}
	}
	return text + " = " + plan.Down(totalM) + " m."
}

func signOf(v float64) string {
	if v < 0 {
		return "−"
	}
	return "+"
}

// down rounds to a tenth, down, for words.
func down(m float64) float64 { return math.Floor(m*10+1e-9) / 10 }

// unknownInPlaceWords are those of unknown water that only the survey's position
// accuracy brings within reach.
func unknownInPlaceWords(why string) (title, detail string) {
	return "Unknown water within the survey's position accuracy", "Outside the corridor, but charted things may lie where they are not drawn: there " + why + "."
}
