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
		if ol.block == nil || !ol.weighed(i).beats(ol.block.light(i)) {
			hours{c}.legLight(i)
		}
		so := ol.weighed(i)
		c.onlyStops = so.beats(weightOf(plan.Care))
		if !ol.passesOver(i, so) {
			reusing{c}.checkLeg(i)
		}
		ways{c}.checkGapsAt(i)
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

// weight orders severities, from none at all.
type weight uint8

const noFinding weight = 0

func weightOf(s plan.Severity) weight { return weight(s.Worse(plan.Note)) }

// soFar is the weight of the worst that was found before a leg, and anywhere.
type soFar struct{ before, anywhere weight }

// beats tells whether what weighs so and is found on the leg could not be the day's
// first worst finding: something as bad lies before it, or something worse anywhere.
func (s soFar) beats(w weight) bool { return w <= s.before || w < s.anywhere }

// weighed is what was found so far, seen from a leg.
func (ol outlooks) weighed(index int) (s soFar) {
	for i := range ol.report.Findings {
		f := &ol.report.Findings[i]
		w := weightOf(f.Severity)
		s.anywhere = max(s.anywhere, w)
		if f.Leg < ol.track.Legs[index].Number {
			s.before = max(s.before, w)
		}
	}
	for i := range ol.poors { // each will be care: see reportQuality
		if ol.poors[i].leg < index {
			s.before = max(s.before, weightOf(plan.Care))
		}
	}
	return s
}

// passesOver tells whether nothing that a leg can have counts beside what was found so
// far.
func (ol outlooks) passesOver(index int, so soFar) bool {
	if ol.block == nil {
		return false
	}
	settled, err := ol.block.settles(index, so, ol.between)
	ol.stopped = err
	return settled
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
