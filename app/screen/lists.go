package screen

import (
	"fmt"

	"keelroom/app/state"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Lists that may be as long as what was opened are shown piece by piece: the screen
// must answer at once, whatever is in it.

// moreButton is the button that shows more of a list, where there is more.
func moreButton(r *state.Room, list string, rows int) ui.UI {
	left := rows - r.View.RowsShown(list, rows)
	if left <= 0 {
		return ui.Span()
	}
	return ui.Div().Class("row").Body(ui.P().Text(fmt.Sprintf("And %d more.", left)), button(r, "Show more", "list-more", list))
}

// windowButtons go through the waypoints of a long route.
func windowButtons(r *state.Room, part, points int) ui.UI {
	from, to := r.View.Window(part, points)
	if from == 0 && to == points {
		return ui.Span()
	}
	about := func(vertex int) string { return fmt.Sprintf("%d,%d", part, max(0, vertex)) }
	return ui.Div().Class("row").Body(
		ui.P().Text(fmt.Sprintf("Waypoints %d to %d of %d.", from+1, to, points)),
		&press{Room: r, Label: "Those before", Do: "list-window", Arg: about(from - state.ListStep/2), Off: from == 0},
		&press{Room: r, Label: "Those after", Do: "list-window", Arg: about(to + state.ListStep/2), Off: to == points},
	)
}
