package hazards

import (
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/waters"
)

// loadFolder reads a folder of layers as one set.
func loadFolder(t testing.TB, folder string) *chart.Set {
	t.Helper()
	return waters.Folder(t, folder)
}

func readPlan(t testing.TB, parts ...string) *plan.Plan {
	t.Helper()
	return waters.Plan(t, parts...)
}
