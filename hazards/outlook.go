package hazards

import (
	"time"

	"keelroom/hazards/plan"
)

// Outlook is the short of a report: what a sweep over many departures shows of
// each.
type Outlook struct {
	Verdict plan.Severity
	// Worst are, of the findings of the verdict's severity, those that she comes to
	// first: one, or several that only their words tell apart (words.Language.First).
	// The report has that finding first (plan.Report.Worst), and may tell worse of it
	// from where it holds again. There is none for a report without findings.
	Worst []plan.Finding
	Back  time.Time
}

// Outlook gives what Check would say, and no more than that of it, which is
// faster: where something is not clear, nothing that comes after it in the report
// is worked out, as it could not be worse nor come first. Errors are those of
// Check.
func (s *Session) Outlook(p *plan.Plan) (Outlook, error) {
	c, err := s.begin(p, true)
	if err != nil {
		return Outlook{}, err
	}
	return outlooks{checker: c}.look()
}

// outlooks work out what an outlook wants of a check that is laid out.
type outlooks struct {
	*checker
	block *block // of departures that this one is of; nil for one by itself
}

// look makes the outlook.
func (ol outlooks) look() (Outlook, error) {
	c := ol.checker
	// What belongs to the day as a whole, or is known once the track is.
	burning{c}.checkFuel()
	hours{c}.checkSchedule()
	whereabouts{c}.checkWhereabouts()
	roughness{c}.checkStemming()
	speedZones{c}.checkZones()
	for i := 0; i < len(c.track.Legs) && !ol.decided(i); i++ {
		if !ol.passesOver(i) {
			reusing{c}.checkLeg(i)
		}
		ways{c}.checkGapsAt(i)
		if ol.block == nil || !ol.block.surelyDay(i) {
			hours{c}.legLight(i)
		}
		c.checkStaysAt(i)
		if err := c.pause(); err != nil {
			return Outlook{}, err
		}
	}
	gathered{c}.reportQuality()
	gathered{c}.reportUndirected()
	return Outlook{Verdict: plan.VerdictOf(c.report.Findings), Worst: ol.worstNamed(), Back: c.track.Back}, nil
}

// worstNamed are the report's worst findings that she comes to first, with their ids.
func (ol outlooks) worstNamed() []plan.Finding {
	var out []plan.Finding
	for _, i := range ol.report.WorstFirst() {
		f := ol.report.Findings[i]
		f.ID = ol.causes().causeOf(&f, &ol.abouts[i]).id()
		out = append(out, f)
	}
	return out
}

// passesOver tells whether a leg has nothing that could be the day's first worst
// finding: something as bad lies before it, or something worse anywhere.
func (ol outlooks) passesOver(index int) bool {
	before, anywhere := noFinding, noFinding
	for i := range ol.report.Findings {
		f := &ol.report.Findings[i]
		anywhere = max(anywhere, weightOf(f.Severity))
		if f.Leg < ol.track.Legs[index].Number {
			before = max(before, weightOf(f.Severity))
		}
	}
	for i := range ol.poors { // each will be care: see reportQuality
		if ol.poors[i].leg < index {
			before = max(before, weightOf(plan.Care))
		}
	}
	for b := ol.block; b != nil && ol.stopped == nil; b = b.within {
		b.between, b.stopped = ol.between, nil
		w, ok := b.weighs(index)
		if ok && (w <= before || w < anywhere) {
			return true
		}
		ol.stopped = b.stopped
	}
	return false
}

// decided tells whether something is not clear on a leg before this one, or for
// the whole day: findings are written by leg.
func (ol outlooks) decided(index int) bool {
	for i := range ol.report.Findings {
		f := &ol.report.Findings[i]
		if f.Severity == plan.NotClear && f.Leg < ol.track.Legs[index].Number {
			return true
		}
	}
	return false
}
