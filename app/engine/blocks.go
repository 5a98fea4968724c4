package engine

import (
	"time"

	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// The kinds of Block that are under way; the others are the kinds of a stay.
const (
	BlockWarmUp   = "warm-up"
	BlockUnderWay = "under-way"
)

// Block is a time of the day with one thing going on. Times are Unix seconds.
type Block struct {
	Kind string `json:"kind"`
	Part int    `json:"part"` // index into the plan's parts
	Name string `json:"name"`
	From int64  `json:"from"`
	To   int64  `json:"to"`
}

// Blocks are what she does when, from the legs and stays of a plan's report. The
// warm-up is that of package passage.
func Blocks(p *plan.Plan, r *plan.Report) []Block {
	b := blocks{engine: passage.NewEngine(&p.Boat), out: []Block{}}
	legs, stays := r.Legs, r.Stays
	for i, part := range p.Parts {
		switch {
		case part.Route != nil:
			n := min(part.Route.Legs(), len(legs))
			b.route(i, part.Route.Name, legs[:n])
			legs = legs[n:]
		case len(stays) > 0:
			b.stay(i, part.Stay, &stays[0])
			stays = stays[1:]
		}
	}
	return b.out
}

type blocks struct {
	engine *passage.Engine
	out    []Block
}

func (b *blocks) add(kind string, part int, name string, from, to time.Time) {
	b.out = append(b.out, Block{kind, part, name, from.Unix(), to.Unix()})
}

// route adds the warm-up, if the engine is cold, and the rest of the way.
func (b *blocks) route(part int, name string, legs []plan.Leg) {
	if len(legs) == 0 || legs[0].Start == nil || legs[len(legs)-1].End == nil {
		return
	}
	from, to := *legs[0].Start, *legs[len(legs)-1].End
	warm := b.engine.WarmAt(from)
	b.engine.Ran(to.Sub(from))
	if warm.After(to) {
		warm = to
	}
	if warm.After(from) {
		b.add(BlockWarmUp, part, name, from, warm)
	}
	if to.After(warm) {
		b.add(BlockUnderWay, part, name, warm, to)
	}
}

// stay adds a stay, from arriving to leaving.
func (b *blocks) stay(part int, s *plan.Stay, r *plan.StayResult) {
	if r.Arrive == nil || r.Until == nil {
		return
	}
	from, to := *r.Arrive, *r.Until
	if to.Before(from) {
		to = from
	}
	b.engine.Stop(to.Sub(from))
	b.add(s.Kind, part, s.Name, from, to)
}
