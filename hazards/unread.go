package hazards

import (
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// unread is the finding for a feature of the chart that was left out, as what it is:
// its place counts as unknown, whatever it would have said. Things to pass under are
// told by the check of them.
func unread(f *chart.Feature) plan.Finding {
	kind := f.Meant()
	out := plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Source: sourceOf(f),
		Facts: facts.NotRead{Class: kind, Index: f.Index, File: f.File, Info: f.Info}}
	if kind.Overhead() {
		out.Check = plan.CheckBridge
	}
	return out
}
