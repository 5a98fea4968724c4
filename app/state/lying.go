package state

import (
	"encoding/json"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// Lying is the search for another place for a stay, and its answer.
type Lying struct {
	ports   *Ports
	view    *View
	aside   *Aside
	history *History
	charts  *Charts
	// arrivals is when she comes to the stay that is a part of the plan, as checked
	// last; ok is false where that is not known.
	arrivals func(part int) (at time.Time, ok bool)

	Part   int  // of the plan: the stay that it is about
	Asked  bool // whether a search was asked for, and its answer stands or is awaited
	Busy   bool
	Share  float64 // of the search that is done
	Found  engine.AnchoragesBody
	Failed string
	Taken  int // the rank of the place that was chosen last, 0 for none

	Stopped bool // the skipper ended the search

	asks   int  // the search at hand, counted: answers of another are not its answer
	taking bool // the plan changes as a place is chosen
	cancel func()
}

// find looks for places for a stay in the part of the chart that is seen.
func (l *Lying) find(part int) {
	l.drop()
	if !l.atAnchor(part) {
		return
	}
	l.Part, l.Asked = part, true
	if l.view.bounds == nil {
		l.Failed = "The chart is not drawn yet: try again in a moment."
		return
	}
	q := engine.Request{Kind: engine.FindAnchorages, Plan: l.history.Open.Text, Stay: part, Bounds: l.view.bounds, PlanRev: l.history.rev, ChartRev: l.charts.rev}
	if at, ok := l.arrivals(part); ok {
		q.Time = at.Unix()
	}
	asked := AskedOf(q)
	if l.aside.has(asked) {
		l.Failed = "No place is looked for: twice the part that checks has stopped at this search, so it is set aside until the plan or the charts are changed."
		return
	}
	l.Busy = true
	l.asks++
	asking := l.asks
	l.cancel = l.ports.engine.Ask(q, func(a engine.Reply, _ map[string]Doc) {
		l.aside.answered(asked, a)
		if asking != l.asks {
			return
		}
		l.answer(a)
	})
}

func (l *Lying) answer(a engine.Reply) {
	var body engine.AnchoragesBody
	readable := len(a.Body) > 0 && json.Unmarshal(a.Body, &body) == nil
	switch a.State {
	case engine.Progress:
		if a.Total > 0 {
			l.Share = float64(a.Done) / float64(a.Total)
		}
	case engine.Cancelled:
		l.Busy, l.Stopped = false, true
	case engine.Failed:
		l.Busy, l.Failed = false, a.Words
	default:
		l.Busy = false
		if !readable {
			l.Failed = "The answer cannot be read. Look again."
		}
	}
	if readable && a.State != engine.Failed {
		l.Found = body
		l.mark()
	}
	l.ports.redraw()
}

// mark marks the places on the chart.
func (l *Lying) mark() {
	at := make([]orb.Point, len(l.Found.Places))
	for i, p := range l.Found.Places {
		at[i] = p.At
	}
	l.ports.chart.MarkAnchorages(at)
}

// stop ends the search; what was found stays.
func (l *Lying) stop() {
	if l.Busy && l.cancel != nil {
		l.cancel()
	}
	l.Stopped = l.Stopped || l.Busy
	l.Busy = false
	l.asks++
}

// drop takes the answer away.
func (l *Lying) drop() {
	l.stop()
	if l.Asked {
		l.ports.chart.MarkAnchorages(nil)
	}
	l.Part, l.Asked, l.Stopped, l.Share, l.Found, l.Failed, l.Taken, l.cancel = 0, false, false, 0, engine.AnchoragesBody{}, "", 0, nil
}

// planChanged drops the answer, which was for another plan, unless it is this answer
// that changes it.
func (l *Lying) planChanged() {
	if !l.taking {
		l.drop()
	}
}

// place is a place of the answer by its rank.
func (l *Lying) place(rank int) (p engine.AnchoragePlace, ok bool) {
	if rank < 1 || rank > len(l.Found.Places) {
		return p, false
	}
	return l.Found.Places[rank-1], true
}

// show shows a place on the chart.
func (l *Lying) show(rank int) {
	if p, ok := l.place(rank); ok {
		l.ports.chart.GoTo(p.At)
	}
}

// take puts the stay at a place; the ends of the ways to it and from it go along.
func (l *Lying) take(rank int) {
	p, ok := l.place(rank)
	if !ok {
		return
	}
	l.stop()
	l.taking = true
	defer func() { l.taking = false }()
	part := l.Part
	if l.history.try(func(q *plan.Plan) error { return edit.MoveStay(q, part, p.At) }) {
		l.Taken = rank
	}
}

// Lie is what the checks say of lying at a place.
type Lie struct {
	Part   int // the stay
	Asking bool
	Failed string
	Body   engine.LieBody
}

// ask asks what the checks say of lying at the place of the card instead.
func (l *Lying) ask(part int, place *PlaceInfo) {
	if place == nil || !l.atAnchor(part) {
		return
	}
	lie := &Lie{Part: part, Asking: true}
	place.Lie = lie
	q := engine.Request{Kind: engine.LieHere, Plan: l.history.Open.Text, Stay: part, Lon: &place.At[0], Lat: &place.At[1], PlanRev: l.history.rev, ChartRev: l.charts.rev}
	if at, ok := l.arrivals(part); ok {
		q.Time = at.Unix()
	}
	asked := AskedOf(q)
	if l.aside.has(asked) {
		lie.Asking, lie.Failed = false, "What the checks say of lying here is not known: twice the part that checks has stopped at it."
		return
	}
	l.ports.engine.Ask(q, func(a engine.Reply, _ map[string]Doc) {
		l.aside.answered(asked, a)
		if a.State == engine.Progress || place.Lie != lie {
			return
		}
		lie.Asking = false
		if err := json.Unmarshal(a.Body, &lie.Body); err != nil || a.State != engine.Done {
			lie.Failed = "What the checks say of lying here is not known: " + a.Words
		}
		l.ports.redraw()
	})
}

// atAnchor reports whether a part of the plan is a stay at anchor.
func (l *Lying) atAnchor(part int) bool {
	parts := l.history.Plan.Parts
	return part >= 0 && part < len(parts) && parts[part].Stay != nil && parts[part].Stay.Kind == plan.AtAnchor
}

// lieHere puts a stay at the place of the card.
func (r *Room) lieHere(part int) {
	place := r.Places.Place
	if place == nil || place.Land || !r.Lying.atAnchor(part) {
		return
	}
	if r.History.try(func(p *plan.Plan) error { return edit.MoveStay(p, part, place.At) }) {
		r.View.Tab = TabStays
	}
}

// arrivalAt is when she comes to a stay, as checked last.
func (r *Room) arrivalAt(part int) (at time.Time, ok bool) {
	d := r.Checks.Day
	if d.Report == nil || r.Checks.Stale() {
		return at, false
	}
	n := 0
	for i := range r.History.Plan.Parts[:part] {
		if r.History.Plan.Parts[i].Stay != nil {
			n++
		}
	}
	if n >= len(d.Report.Stays) || d.Report.Stays[n].Arrive == nil {
		return at, false
	}
	return *d.Report.Stays[n].Arrive, true
}
