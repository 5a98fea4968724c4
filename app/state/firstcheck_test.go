package state

import (
	"slices"
	"testing"

	"keelroom/app/engine"
)

// asked starts a room and gives the kinds of its requests that read a chart or
// check, in their order.
func asked(g *harness) (kinds []string) {
	g.onAsk = func(r engine.Request) {
		if r.Kind == engine.PutSet || r.Kind == engine.CheckPlan {
			kinds = append(kinds, r.Kind)
		}
	}
	g.start()
	return kinds
}

// The first check waits for the chart that is read at the start: without it nothing
// would be known. One check is enough then.
func TestFirstCheckWaitsForTheChart(t *testing.T) {
	g := newHarness(t)
	if kinds := asked(g); !slices.Equal(kinds, []string{engine.PutSet, engine.CheckPlan}) {
		t.Errorf("asked for %v", kinds)
	}
	if g.room.Checks.Day.Report == nil {
		t.Error("the day is not checked")
	}
}

// Where no chart can be had, the day is checked all the same, and nothing is clear.
func TestFirstCheckWithoutTheChart(t *testing.T) {
	g := newHarness(t)
	g.store.settings = map[string]string{settingDemo: "removed"}
	if kinds := asked(g); !slices.Equal(kinds, []string{engine.CheckPlan}) {
		t.Errorf("asked for %v", kinds)
	}
}
