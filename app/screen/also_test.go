package screen

import (
	"testing"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// Where else a finding holds is shown on the screen and on the printed sheet,
// legs that follow each other as one.
func TestAlsoIsTold(t *testing.T) {
	day := inventedDay(t)
	found := &day.Report.Findings[1] // "second"
	found.Also = []plan.Passing{{Leg: 3, Time: at(14, 2)}, {Leg: 4, Time: at(14, 4)}, {Leg: 5, Time: at(14, 9)}, {Leg: 9, Time: at(16, 30)}}
	const want = "Also on legs 3 to 5 from 12:02 to 12:09 and on leg 9 at 14:30."
	_, paper := shown(day)
	wantInOrder(t, paper, "second", want, "third")
	r := state.NewRoom(nil, nil, nil, "test")
	r.Checks.Day, r.History.Plan = day, day.Plan
	wantInOrder(t, plainText(ui.HTMLString((&findingRow{Room: r, Index: 1}).Render())), "Second", want)
	found.Also = []plan.Passing{{Leg: 2, Time: at(14, 2)}, {Leg: 2, Time: at(14, 4)}, {Time: nil}}
	_, paper = shown(day)
	wantInOrder(t, paper, "Also on leg 2 at 12:02, on leg 2 at 12:04 and at a time not known.")
}
