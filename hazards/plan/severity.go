package plan

// Severity is how a finding weighs. Not clear is worse than no data, that than
// care, that than clear; a note does not count. The zero value, which nobody
// should set, counts as no data and is written so: what is unknown is never clear.
type Severity uint8

// The severities.
const (
	Note Severity = iota + 1
	Clear
	Care
	NoData
	NotClear
)

var severityNames = map[Severity]string{
	Note: "note", Clear: "clear", Care: "care", NoData: "no-data", NotClear: "not-clear",
}

// known returns s, and NoData for what is no severity.
func (s Severity) known() Severity {
	if s < Note || s > NotClear {
		return NoData
	}
	return s
}

// String returns the word of the report: note, clear, care, no-data, not-clear.
func (s Severity) String() string { return severityNames[s.known()] }

// Worse returns the worse of the two.
func (s Severity) Worse(t Severity) Severity { return max(s.known(), t.known()) }

// ParseSeverity returns the severity of that word of the report.
func ParseSeverity(word string) (Severity, bool) {
	for s, name := range severityNames {
		if name == word {
			return s, true
		}
	}
	return 0, false
}

// VerdictOf returns the worst severity found, and Clear where nothing but notes
// was. It knows nothing of checks that were not made: those need findings.
func VerdictOf(findings []Finding) Severity {
	verdict := Clear
	for i := range findings {
		verdict = verdict.Worse(findings[i].Severity)
	}
	return verdict
}
