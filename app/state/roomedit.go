package state

import (
	"fmt"
	"reflect"
	"strings"
	"time"

	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// mostStates is how many earlier states a plan keeps.
const mostStates = 50

// change applies one edit to the plan: one step of undo. On an error the plan
// stays as it was.
func (h *History) change(edit func(p *plan.Plan) error) error {
	p, text, err := h.edited(edit)
	if err != nil || text == h.Open.Text {
		return err
	}
	h.Open.Past = append(h.Open.Past, h.Open.Text)
	if n := len(h.Open.Past) - mostStates; n > 0 {
		h.Open.Past = h.Open.Past[n:]
	}
	h.Open.Future = nil
	h.take(p, text)
	h.spelt = spelling{p, text, text}
	return nil
}

// edited is the plan with an edit, and its text; the open plan is not touched.
func (h *History) edited(edit func(p *plan.Plan) error) (*plan.Plan, string, error) {
	if h.unread != nil {
		return nil, "", h.unread
	}
	p := h.Plan.Clone()
	if err := edit(p); err != nil {
		return nil, "", err
	}
	b, err := p.Write()
	if err != nil {
		return nil, "", err
	}
	if text := string(b); text != h.spelling() {
		return p, text, nil
	}
	return h.Plan, h.Open.Text, nil
}

// spelling is the open plan as this program writes it: a file from elsewhere may be
// spelt in another way. It is "" for a plan that cannot be written.
func (h *History) spelling() string {
	if h.spelt.plan != h.Plan || h.spelt.of != h.Open.Text {
		b, _ := plan.Encode(h.Plan) // what fails here fails again with the edit
		h.spelt = spelling{h.Plan, h.Open.Text, string(b)}
	}
	return h.spelt.text
}

// spelling is a plan's text as it is written, and what it was written for.
type spelling struct {
	plan     *plan.Plan
	of, text string
}

// try is change for a gesture: what is wrong is told.
func (h *History) try(edit func(p *plan.Plan) error) bool {
	if err := h.change(edit); err != nil {
		h.notices.notify(true, phrase.Capital(plain(err))+".")
		h.ports.chart.SetPlan(h.Open.Text)
		return false
	}
	return true
}

// take makes a new state the plan's, saves and checks it.
func (r *Room) take(p *plan.Plan, text string) {
	before := r.History.Plan
	r.History.Plan, r.History.Open.Text, r.History.Open.Title = p, text, p.Title
	r.History.unread = nil
	r.History.rev++
	r.Ports.chart.SetPlan(text)
	r.Places.set(nil)
	r.Selection.follow(before)
	r.Hour.follow(before)
	r.Forms.Rejected = map[string]rejected{} // questions and mistakes were about the state before
	r.Keeper.keep()
	r.Keeper.persist()
	r.Checks.recheck()
	r.Checks.fade()
	r.Ports.redraw()
}

// followDeparture moves the hour with the departure: the water on the chart is that
// of the day as it is now planned.
func (h *Hour) follow(before *plan.Plan) {
	was, now := departure(before), departure(h.history.Plan)
	if was == nil || now == nil || was.Equal(*now) {
		return
	}
	h.At, h.chosen = now.Unix(), false
	h.ports.strip.SetCursor(h.At)
	h.colour()
}

// fadeAfter is how long what was checked before may stand on the chart after a
// change, so that quick answers do not make it flicker.
const fadeAfter = 400 * time.Millisecond

// oldAfter is how long the verdict of the state before may stand, marked as being
// checked again, while a check is under way.
const oldAfter = 3 * time.Second

// fade takes what was worked out off the views if the new answer is long in coming,
// and then the verdict too.
//
// Until then the water at an hour stays where nothing has changed that it comes from.
func (r *Checks) fade() {
	rev, chartRev := r.history.rev, r.charts.rev
	r.ports.Device.After(fadeAfter, func() {
		if !r.Stale() {
			return
		}
		if r.sameWater() {
			r.clearFound()
		} else {
			r.clearViews()
		}
		r.ports.redraw()
	})
	r.ports.Device.After(oldAfter, func() {
		if r.Stale() && rev == r.history.rev && chartRev == r.charts.rev {
			r.Checking.old = true
			r.clearViews() // the waves that the water allows for are those of the way before
			r.ports.redraw()
		}
	})
}

// VerdictKnown says whether there is a verdict to be shown: a report that is not older
// than a verdict may stand.
func (r *Checks) VerdictKnown() bool { return r.Day.Report != nil && !(r.Checking.old && r.Stale()) }

// sameWater says whether the water that was worked out last is that of the plan as
// it is: of the same charts, tide, boat, margins and day.
func (r *Checks) sameWater() bool {
	of := func(p *plan.Plan) []any {
		date, _ := p.Date()
		return []any{p.Tide, p.Boat, p.Margins, p.Choices, p.ZoneName, date}
	}
	return r.Day.Report != nil && r.Checking.sinceChart == r.charts.rev && !r.charts.reading() && reflect.DeepEqual(of(r.Day.Plan), of(r.history.Plan))
}

// Undo goes back to the state before the last edit.
func (h *History) undo() { h.step(&h.Open.Past, &h.Open.Future, "There is nothing to undo.") }

// Redo goes forward again.
func (h *History) redo() { h.step(&h.Open.Future, &h.Open.Past, "There is nothing to do again.") }

func (h *History) step(from, to *[]string, none string) {
	n := len(*from)
	if n == 0 {
		h.notices.notify(false, none)
		return
	}
	text := (*from)[n-1]
	p, err := plan.DecodeDraft([]byte(text))
	if err != nil {
		h.notices.notify(true, "That state cannot be read: "+err.Error())
		return
	}
	*from = (*from)[: n-1 : n-1]
	*to = append(*to, h.Open.Text)
	h.take(p, text)
}

// shapeOf tells two plans apart by how many points their parts have.
func shapeOf(p *plan.Plan) string {
	var b strings.Builder
	for _, part := range p.Parts {
		if part.Route != nil {
			fmt.Fprintf(&b, "%d ", len(part.Route.Points))
		} else {
			b.WriteString("stay ")
		}
	}
	return b.String()
}
