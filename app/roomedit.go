package app

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
func (h *history) change(edit func(p *plan.Plan) error) error {
	p, text, err := h.edited(edit)
	if err != nil || text == h.open.Text {
		return err
	}
	h.open.Past = append(h.open.Past, h.open.Text)
	if n := len(h.open.Past) - mostStates; n > 0 {
		h.open.Past = h.open.Past[n:]
	}
	h.open.Future = nil
	h.take(p, text)
	h.spelt = spelling{p, text, text}
	return nil
}

// edited is the plan with an edit, and its text; the open plan is not touched.
func (h *history) edited(edit func(p *plan.Plan) error) (*plan.Plan, string, error) {
	if h.unread != nil {
		return nil, "", h.unread
	}
	p := h.plan.Clone()
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
	return h.plan, h.open.Text, nil
}

// spelling is the open plan as this program writes it: a file from elsewhere may be
// spelt in another way. It is "" for a plan that cannot be written.
func (h *history) spelling() string {
	if h.spelt.plan != h.plan || h.spelt.of != h.open.Text {
		b, _ := plan.Encode(h.plan) // what fails here fails again with the edit
		h.spelt = spelling{h.plan, h.open.Text, string(b)}
	}
	return h.spelt.text
}

// spelling is a plan's text as it is written, and what it was written for.
type spelling struct {
	plan     *plan.Plan
	of, text string
}

// try is change for a gesture: what is wrong is told.
func (h *history) try(edit func(p *plan.Plan) error) bool {
	if err := h.change(edit); err != nil {
		h.notices.notify(true, phrase.Capital(plain(err))+".")
		h.ports.chart.SetPlan(h.open.Text)
		return false
	}
	return true
}

// take makes a new state the plan's, saves and checks it.
func (r *Room) take(p *plan.Plan, text string) {
	before := r.history.plan
	r.history.plan, r.history.open.Text, r.history.open.Title = p, text, p.Title
	r.history.unread = nil
	r.history.rev++
	r.ports.chart.SetPlan(text)
	r.places.set(nil)
	r.selection.follow(before)
	r.hour.follow(before)
	r.forms.typed = map[string]typing{} // questions and mistakes were about the state before
	r.keeper.keep()
	r.keeper.persist()
	r.checks.recheck()
	r.checks.fade()
	r.ports.redraw()
}

// followDeparture moves the hour with the departure: the water on the chart is that
// of the day as it is now planned.
func (h *hour) follow(before *plan.Plan) {
	was, now := departure(before), departure(h.history.plan)
	if was == nil || now == nil || was.Equal(*now) {
		return
	}
	h.at, h.chosen = now.Unix(), false
	h.ports.strip.SetCursor(h.at)
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
func (r *checks) fade() {
	rev, chartRev := r.history.rev, r.charts.rev
	r.ports.device.After(fadeAfter, func() {
		if !r.stale() {
			return
		}
		if r.sameWater() {
			r.clearFound()
		} else {
			r.clearViews()
		}
		r.ports.redraw()
	})
	r.ports.device.After(oldAfter, func() {
		if r.stale() && rev == r.history.rev && chartRev == r.charts.rev {
			r.checking.old = true
			r.clearViews() // the waves that the water allows for are those of the way before
			r.ports.redraw()
		}
	})
}

// verdictKnown says whether there is a verdict to be shown: a report that is not older
// than a verdict may stand.
func (r *checks) verdictKnown() bool { return r.day.Report != nil && !(r.checking.old && r.stale()) }

// sameWater says whether the water that was worked out last is that of the plan as
// it is: of the same charts, tide, boat, margins and day.
func (r *checks) sameWater() bool {
	of := func(p *plan.Plan) []any {
		date, _ := p.Date()
		return []any{p.Tide, p.Boat, p.Margins, p.Choices, p.ZoneName, date}
	}
	return r.day.Report != nil && r.checking.sinceChart == r.charts.rev && !r.charts.reading() && reflect.DeepEqual(of(r.day.Plan), of(r.history.plan))
}

// Undo goes back to the state before the last edit.
func (h *history) undo() { h.step(&h.open.Past, &h.open.Future, "There is nothing to undo.") }

// Redo goes forward again.
func (h *history) redo() { h.step(&h.open.Future, &h.open.Past, "There is nothing to do again.") }

func (h *history) step(from, to *[]string, none string) {
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
	*to = append(*to, h.open.Text)
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
