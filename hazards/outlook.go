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
	// What belongs to the day as a whole, or is known once the track is.
	burning{c}.checkFuel()
	hours{c}.checkSchedule()
	whereabouts{c}.checkWhereabouts()
	roughness{c}.checkStemming()
	speedZones{c}.checkZones()
	for i := 0; i < len(c.track.Legs) && !(outlooks{c}).decided(i); i++ {
		reusing{c}.checkLeg(i)
		ways{c}.checkGapsAt(i)
		hours{c}.legLight(i)
		c.checkStaysAt(i)
		if err := c.pause(); err != nil {
			return Outlook{}, err
		}
	}
	gathered{c}.reportQuality()
	gathered{c}.reportUndirected()
	return Outlook{Verdict: plan.VerdictOf(c.report.Findings), Worst: outlooks{c}.worstNamed(), Back: c.track.Back}, nil
}

// outlooks tell what an outlook wants of a check.
type outlooks struct{ *checker }

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
