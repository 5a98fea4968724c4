package app

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"time"

	"keelroom/hazards/plan"
)

// mostStates is how many earlier states a plan keeps.
const mostStates = 50

// change applies one edit to the plan: one step of undo. On an error the plan
// stays as it was.
func (r *Room) change(edit func(p *plan.Plan) error) error {
	p, text, err := r.edited(edit)
	if err != nil || text == r.open.Text {
		return err
	}
	r.open.Past = append(r.open.Past, r.open.Text)
	if n := len(r.open.Past) - mostStates; n > 0 {
		r.open.Past = r.open.Past[n:]
	}
	r.open.Future = nil
	r.take(p, text)
	return nil
}

// edited is the plan with an edit, and its text; the open plan is not touched.
func (r *Room) edited(edit func(p *plan.Plan) error) (*plan.Plan, string, error) {
	p, err := plan.DecodeDraft([]byte(r.open.Text))
	if err != nil {
		return nil, "", err
	}
	before, beforeErr := plan.Encode(p)
	if err := edit(p); err != nil {
		return nil, "", err
	}
	b, err := plan.Encode(p)
	if err != nil {
		return nil, "", err
	}
	if beforeErr == nil && bytes.Equal(b, before) { // a file from elsewhere may be spelt in another way
		return r.plan, r.open.Text, nil
	}
	if p, err = plan.DecodeDraft(b); err != nil {
		return nil, "", err
	}
	return p, string(b), nil
}

// try is change for a gesture: what is wrong is told.
func (r *Room) try(edit func(p *plan.Plan) error) bool {
	if err := r.change(edit); err != nil {
		r.tell(true, capital(plain(err))+".")
		r.chart.SetPlan(r.open.Text)
		return false
	}
	return true
}

// take makes a new state the plan's, saves and checks it.
func (r *Room) take(p *plan.Plan, text string) {
	before := r.plan
	r.plan, r.open.Text, r.open.Title = p, text, p.Title
	r.rev++
	r.chart.SetPlan(text)
	r.setPlace(nil)
	r.selectAfter(before)
	r.followDeparture(before)
	r.typed = map[string]typing{} // questions and mistakes were about the state before
	r.keep()
	r.persist()
	r.recheck()
	r.fade()
	r.redraw()
}

// followDeparture moves the hour with the departure: the water on the chart is that
// of the day as it is now planned.
func (r *Room) followDeparture(before *plan.Plan) {
	was, now := departure(before), departure(r.plan)
	if was == nil || now == nil || was.Equal(*now) {
		return
	}
	r.cursor, r.cursorBy = now.Unix(), false
	r.strip.SetCursor(r.cursor)
	r.colourWater()
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
func (r *Room) fade() {
	rev, chartRev := r.rev, r.chartRev
	r.device.After(fadeAfter, func() {
		if !r.stale() {
			return
		}
		if r.sameWater() {
			r.clearFound()
		} else {
			r.clearViews()
		}
		r.redraw()
	})
	r.device.After(oldAfter, func() {
		if r.stale() && rev == r.rev && chartRev == r.chartRev {
			r.checking.old = true
			r.clearViews() // the waves that the water allows for are those of the way before
			r.redraw()
		}
	})
}

// verdictKnown says whether there is a verdict to be shown: a report that is not older
// than a verdict may stand.
func (r *Room) verdictKnown() bool { return r.day.Report != nil && !(r.checking.old && r.stale()) }

// sameWater says whether the water that was worked out last is that of the plan as
// it is: of the same charts, tide, boat, margins and day.
func (r *Room) sameWater() bool {
	of := func(p *plan.Plan) []any {
		date, _ := p.Date()
		return []any{p.Tide, p.Boat, p.Margins, p.Choices, p.ZoneName, date}
	}
	return r.day.Report != nil && r.checking.sinceChart == r.chartRev && !r.reading() && reflect.DeepEqual(of(r.day.Plan), of(r.plan))
}

// persist asks the device once to keep what is saved when room gets short.
func (r *Room) persist() {
	if r.asked {
		return
	}
	r.asked = true
	r.device.Persist(func(kept bool) { r.unpromised = !kept; r.redraw() })
}

// Undo goes back to the state before the last edit.
func (r *Room) Undo() { r.step(&r.open.Past, &r.open.Future, "There is nothing to undo.") }

// Redo goes forward again.
func (r *Room) Redo() { r.step(&r.open.Future, &r.open.Past, "There is nothing to do again.") }

func (r *Room) step(from, to *[]string, none string) {
	n := len(*from)
	if n == 0 {
		r.tell(false, none)
		return
	}
	text := (*from)[n-1]
	p, err := plan.DecodeDraft([]byte(text))
	if err != nil {
		r.tell(true, "That state cannot be read: "+err.Error())
		return
	}
	*from = (*from)[: n-1 : n-1]
	*to = append(*to, r.open.Text)
	r.typed = map[string]typing{}
	r.take(p, text)
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
