// Package words puts what the checks found into a language: titles and details of
// findings, cautions, reasons, what lies at a place. It works from codes and
// quantities (package facts) and decides nothing. Words are made where a report is
// written or shown, by Fill; a check of which only the verdict is wanted makes none.
//
// A language is a table, a Language: English is one. Another language is another
// table, with its own order of words and its own way to write a time.
package words

import (
	"slices"
	"strings"
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// Sentence words facts of the code that it stands under in a table.
type Sentence func(*Teller, facts.Facts) string

// Language is a table of sentences.
type Language struct {
	// Titles and Details are of findings, by their code.
	Titles, Details map[string]Sentence
	// Others are the sentences of a report besides: what a finding says for several,
	// why there is no later time to leave, cautions, and what lies at a place.
	Others map[string]Sentence
	// Term names a term of a sum, and says what it is.
	Term func(*Teller, facts.Term) (name, why string)
	// Clock writes a time in its zone, with the date where it is of another day than
	// the departure.
	Clock func(local time.Time, otherDay bool) string
	// Datum names a vertical datum (VERDAT).
	Datum func(verdat int) string
	// Zone is what a speed zone without a name is called.
	Zone string
	// More says how many more areas a leg passes through.
	More func(n int) string
}

// say is the sentence for facts of one type.
func say[F facts.Facts](word func(*Teller, F) string) Sentence {
	return func(t *Teller, f facts.Facts) string {
		if of, ok := f.(F); ok {
			return word(t, of)
		}
		return ""
	}
}

// either is the first of several sentences that has words for the facts: one code may
// come with facts of several types.
func either(list ...Sentence) Sentence {
	return func(t *Teller, f facts.Facts) string {
		for _, s := range list {
			if text := s(t, f); text != "" {
				return text
			}
		}
		return ""
	}
}

// fixed is a sentence without quantities.
func fixed(text string) Sentence { return func(*Teller, facts.Facts) string { return text } }

// Teller words facts in one language, with the clock of one plan.
type Teller struct {
	language *Language
	zone     *time.Location
	from, to time.Time // the day of departure
}

// For is who tells in the language with the clock of a zone (nil: UTC), for a day
// that begins with a departure.
func (l *Language) For(zone *time.Location, depart time.Time) *Teller {
	if zone == nil {
		zone = time.UTC
	}
	y, m, d := depart.In(zone).Date()
	return &Teller{l, zone, time.Date(y, m, d, 0, 0, 0, 0, zone), time.Date(y, m, d+1, 0, 0, 0, 0, zone)}
}

// Clock writes a time as the skipper reads it: in the plan's zone, and with the date
// where it is not the day of departure.
func (t *Teller) Clock(c facts.Clock) string {
	local := c.Time().In(t.zone)
	return t.language.Clock(local, local.Before(t.from) || !local.Before(t.to))
}

// clockOnly writes a time without its date.
func (t *Teller) clockOnly(c facts.Clock) string { return t.language.Clock(c.Time().In(t.zone), false) }

// Title words what is the matter.
func (t *Teller) Title(f facts.Facts) string { return t.find(t.language.Titles, f) }

// Detail words it in full.
func (t *Teller) Detail(f facts.Facts) string { return t.find(t.language.Details, f) }

// Other words a sentence that is no finding's.
func (t *Teller) Other(f facts.Facts) string { return t.find(t.language.Others, f) }

// find looks a sentence up. What a table lacks is told by its code, never left out.
func (t *Teller) find(table map[string]Sentence, f facts.Facts) string {
	if f == nil {
		return ""
	}
	if s := table[f.Code()]; s != nil {
		return s(t, f)
	}
	return f.Code()
}

// Finding gives a finding its title and detail, unless it has no facts: one that was
// read has its words already.
func (t *Teller) Finding(f *plan.Finding) {
	if f.Facts != nil {
		f.Title, f.Detail = t.Title(f.Facts), t.Detail(f.Facts)+t.further(f.Further)
	}
	if len(f.Made) == 0 || f.Made[0].Of.Part == facts.NoPart {
		return
	}
	f.Made = slices.Clone(f.Made) // others may have the same finding, in another language
	for i := range f.Made {
		f.Made[i].Name, f.Made[i].Why = t.language.Term(t, f.Made[i].Of)
	}
}

// further words what a finding says besides; what is under other titles in the order
// of those.
func (t *Teller) further(list []facts.Facts) string {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b facts.Facts) int {
		x, ok := a.(facts.Also)
		y, both := b.(facts.Also)
		if !ok || !both {
			return 0
		}
		return strings.Compare(t.Title(x.Of), t.Title(y.Of))
	})
	text := ""
	for _, f := range list {
		text += t.Other(f)
	}
	return text
}

// FillTitles gives the findings of a report their titles and what has no name one, where
// no more is shown of it.
func (l *Language) FillTitles(r *plan.Report) {
	t := l.For(nil, time.Time{})
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Facts != nil {
			f.Title = t.Title(f.Facts)
		}
	}
	t.names(r)
}

// Fill gives a report all its words, with the clock of the plan's zone (nil: UTC).
func (l *Language) Fill(r *plan.Report, zone *time.Location) {
	var depart time.Time
	if r.Depart != nil {
		depart = *r.Depart
	}
	t := l.For(zone, depart)
	for i := range r.Findings {
		t.Finding(&r.Findings[i])
	}
	for i := range r.LeaveBy {
		if by := &r.LeaveBy[i]; by.Reason != nil {
			by.Why = t.Other(by.Reason)
		}
	}
	if r.Warned != nil {
		r.Cautions = t.Others(r.Warned)
	}
	for i := range r.Stays {
		t.stay(&r.Stays[i])
	}
	t.names(r)
}

// stay words the ground at an anchor and what the figures of a stay are made of.
func (t *Teller) stay(s *plan.StayResult) {
	if s.Ground != nil {
		s.Bottom = t.Other(*s.Ground)
	}
	s.Explained = slices.Clone(s.Explained) // others may have the same stay, in another language
	for i := range s.Explained {
		e := &s.Explained[i]
		e.Made = slices.Clone(e.Made)
		for k := range e.Made {
			e.Made[k].Name, e.Made[k].Why = t.language.Term(t, e.Made[k].Of)
		}
	}
}

// First words findings, and gives the one of them that a report in the plan's zone
// has first among its worst; nil for none.
func (l *Language) First(findings []plan.Finding, zone *time.Location, depart time.Time) *plan.Finding {
	t := l.For(zone, depart)
	for i := range findings {
		t.Finding(&findings[i])
	}
	return (&plan.Report{Findings: findings}).Worst(zone)
}

// names gives what has no name of its own one.
func (t *Teller) names(r *plan.Report) {
	for i := range r.Zones {
		if z := &r.Zones[i]; z.Name == "" {
			z.Name = t.language.Zone
		}
	}
	for i := range r.SlowDowns {
		if s := &r.SlowDowns[i]; s.Zone == "" {
			s.Zone = t.language.Zone
		}
	}
	for i := range r.Legs {
		if leg := &r.Legs[i]; leg.MorePasses > 0 {
			leg.Passes = append(slices.Clone(leg.Passes), plan.Source{Name: t.language.More(leg.MorePasses)})
			leg.MorePasses = 0
		}
	}
}

// Others words a list of sentences.
func (t *Teller) Others(list []facts.Facts) []string {
	var out []string
	for _, f := range list {
		out = append(out, t.Other(f))
	}
	return out
}
