package screen

import (
	"testing"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// What a report only counts is shown on the screen and on the printed sheet, and is
// in the tally.
func TestWhatIsOnlyCounted(t *testing.T) {
	day := inventedDay(t)
	day.Report.More = []plan.More{{Check: plan.CheckNoEntry, Severity: plan.NotClear, Leg: 2, Count: 1980}, {Check: plan.CheckLand, Severity: plan.Note, Leg: 3, Count: 4}}
	const tally, want = "1981 places or times are not clear", "1980 more on leg 2, "
	_, paper := shown(day)
	wantInOrder(t, paper, tally, "What to watch", "third", "Not listed", want, "(not clear)", "4 more on leg 3, land (note)", "Stays")
	r := state.NewRoom(nil, nil, nil, "test")
	r.Checks.Day, r.History.Plan = day, day.Plan
	wantInOrder(t, plainText(ui.HTMLString(watchPanel(r))), "What to watch", "Not listed", want, "Leave by")
	wantInOrder(t, plainText(ui.HTMLString(verdictCard(r))), tally)
	if got := tabMark(r, state.TabWatch); got != "\u00a01983" {
		t.Errorf("the tab says %q, want 1983: 1980, and three above a note", got)
	}
}
