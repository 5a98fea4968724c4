package facts

import (
	"strconv"
	"strings"

	"keelroom/geo/chart"
)

// Limits is a list of speed limits, in a form that can be compared: of each its
// knots and, after a blank, the vessels it is for; a line each.
type Limits string

// LimitsOf is the list.
func LimitsOf(list []chart.SpeedLimit) Limits {
	var b strings.Builder
	for _, l := range list {
		b.WriteString(strconv.FormatFloat(l.Kn, 'g', -1, 64) + " " + strings.ReplaceAll(l.VesselClass, "\n", " ") + "\n")
	}
	return Limits(b.String())
}

// All calls a function for each limit.
func (s Limits) All(fn func(kn float64, vessels string)) {
	for line := range strings.Lines(string(s)) {
		kn, vessels, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		if v, err := strconv.ParseFloat(kn, 64); err == nil {
			fn(v, vessels)
		}
	}
}
