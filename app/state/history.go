package state

import (
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// History is the open plan with its earlier and undone states.
type History struct {
	notices *Notices
	ports   *Ports
	changed func(before *plan.Plan) // after every change of the open plan

	Open     SavedPlan       // Text is the plan as it is
	Plan     *plan.Plan      // of open.Text
	unread   error           // why that cannot be read; plan is another then
	spelt    spelling        // see spelling
	rev      int             // counts every change of the plan within this page
	readable map[string]bool // whether an earlier state can be read
}

// CanStep says whether the newest of a list of states can be gone to.
func (h *History) CanStep(states []string) bool {
	if len(states) == 0 {
		return false
	}
	text := states[len(states)-1]
	if h.readable == nil {
		h.readable = map[string]bool{}
	}
	can, known := h.readable[text]
	if !known {
		_, err := plan.DecodeDraft([]byte(text))
		can = err == nil
		if len(h.readable) > mostStates { // those of plans that were open before
			clear(h.readable)
		}
		h.readable[text] = can
	}
	return can
}

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

// try is change for a gesture: what is wrong is shown.
func (h *History) try(edit func(p *plan.Plan) error) bool {
	if err := h.change(edit); err != nil {
		h.notices.notify(true, phrase.Capital(plain(err))+".")
		h.ports.chart.SetPlan(h.Open.Text)
		return false
	}
	return true
}

// undo goes back to the state before the last edit.
func (h *History) undo() { h.step(&h.Open.Past, &h.Open.Future, "There is nothing to undo.") }

// redo goes forward again.
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

// take makes a new state the plan's.
func (h *History) take(p *plan.Plan, text string) {
	before := h.Plan
	h.Plan, h.Open.Text, h.Open.Title = p, text, p.Title
	h.unread = nil
	h.rev++
	h.changed(before)
}

// read makes the plan follow the text, once another one is open. A text that cannot be
// read gives an empty plan: nothing of another one may stand under its name.
func (h *History) read() error {
	p, err := plan.DecodeDraft([]byte(h.Open.Text))
	if err != nil {
		p = plan.New()
		p.Title = "A plan that cannot be read"
	}
	h.Plan, h.Open.Title, h.unread = p, p.Title, err
	h.rev++
	return err
}
