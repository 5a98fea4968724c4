package library

// Sequence is the order in which updates are applied to a base: strictly one after the
// other, none missing (ENC Product Specification, 5.7). The zero value is none: make it
// with SequenceOf.
type Sequence struct {
	Base    State
	Last    int // the update that the base, or the last one applied, states
	Stopped bool
}

// SequenceOf is the sequence that begins with a base.
func SequenceOf(base State) Sequence { return Sequence{Base: base, Last: base.Update} }

// Step is what is to be done with an update.
type Step uint8

// The steps.
const (
	Apply        Step = iota
	InBase            // the base has it already
	OtherEdition      // it is for another edition
	AfterStop         // one before it was not applied
	Repeated          // it was applied already
	Gap               // one before it is missing
	Cancel            // it cancels the cell, whatever comes of the others
)

// Next says what is to be done with an update. After Apply or Gap, call
// Applied or Stop with what came of it.
func (s *Sequence) Next(f CellFile) Step {
	switch state := f.State(); {
	case f.Role == Cancellation:
		return Cancel
	case state.Edition != s.Base.Edition:
		return OtherEdition
	case state.Update <= s.Base.Update:
		return InBase
	case s.Stopped:
		return AfterStop
	case state.Update <= s.Last:
		return Repeated
	case state.Update > s.Last+1:
		return Gap
	}
	return Apply
}

// Applied takes an update for applied.
func (s *Sequence) Applied(f CellFile) { s.Last = f.Update }

// Stop applies nothing more of the edition: an update did not fit, or is missing.
func (s *Sequence) Stop() { s.Stopped = true }

// CancelledBy says whether a cancellation holds for a base, by their dates of issue,
// YYYYMMDD: a base that was issued later is a cell in force again. Where a date is not
// known, it holds.
func CancelledBy(issued, base string) bool {
	return !(isDate(issued) && isDate(base) && base > issued)
}

func isDate(s string) bool {
	for _, c := range s {
		if c < '0' || c > '9' {
			return false
		}
	}
	return len(s) == len("YYYYMMDD")
}
