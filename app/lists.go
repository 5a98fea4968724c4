package app

import (
	"cmp"
	"fmt"
	"slices"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Lists that may be as long as what was opened are shown piece by piece: the screen
// must answer at once, whatever is in it.

// listStep is how many rows of a list are shown at first, and more when asked for.
const listStep = 50

// shownOf is how many of a list's rows are shown.
func (v *view) rowsShown(list string, rows int) int { return min(rows, listStep+v.more[list]) }

// showMore is the button that shows more of a list, where there is more.
func moreButton(r *Room, list string, rows int) ui.UI {
	left := rows - r.view.rowsShown(list, rows)
	if left <= 0 {
		return ui.Span()
	}
	return ui.Div().Class("row").Body(ui.P().Text(fmt.Sprintf("And %d more.", left)), button(r, "Show more", "list-more", list))
}

// ListMore shows more of a list.
func (v *view) showMore(list string) {
	if v.more == nil {
		v.more = map[string]int{}
	}
	v.more[list] += listStep
}

// window is which waypoints of a part are listed, from one to before another.
func (v *view) window(part, points int) (from, to int) {
	from = max(0, min(v.windows[part], points-listStep))
	return from, min(points, from+listStep)
}

// ShowWindow lists the waypoints of a part about one of them.
func (v *view) showWindow(part, vertex int) {
	if v.windows == nil {
		v.windows = map[int]int{}
	}
	v.windows[part] = max(0, vertex-listStep/2)
}

// windowButtons go through the waypoints of a long route.
func windowButtons(r *Room, part, points int) ui.UI {
	from, to := r.view.window(part, points)
	if from == 0 && to == points {
		return ui.Span()
	}
	about := func(vertex int) string { return fmt.Sprintf("%d,%d", part, max(0, vertex)) }
	return ui.Div().Class("row").Body(
		ui.P().Text(fmt.Sprintf("Waypoints %d to %d of %d.", from+1, to, points)),
		&press{Room: r, Label: "Those before", Do: "list-window", Arg: about(from - listStep/2), Off: from == 0},
		&press{Room: r, Label: "Those after", Do: "list-window", Arg: about(to + listStep/2), Off: to == points},
	)
}

// plansListed are the plans in the order they are listed: where they are many, the
// open one and the newest come first.
func (c *plans) sorted() []PlanHead {
	if len(c.keeper.list) <= listStep {
		return c.keeper.list
	}
	list := slices.Clone(c.keeper.list)
	slices.SortStableFunc(list, func(a, b PlanHead) int {
		if open := c.history.open.ID; (a.ID == open) != (b.ID == open) {
			if a.ID == open {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Changed.UnixNano(), a.Changed.UnixNano())
	})
	return list[:c.view.rowsShown(listPlans, len(list))]
}

// Lists that show more when asked to.
const (
	listPlans   = "plans"
	listPrivate = "private"
	listLegs    = "legs"
)
