package anchorages

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// Search is a question being answered. It can be left off, by an error of
// Session.Between, and run on.
type Search struct {
	question Question
	lattice  *lattice
	flooded  bool
	level    int   // of strides
	queue    []int // nodes of the level that are not looked at yet, last first
	begun    bool  // whether the queue is of the level
	found    []Place
	waters   forest // which of them lie in one water
	done     int    // of total, in shares of the work
	total    int
}

// Place is a place to lie at.
type Place struct {
	At       orb.Point
	Stay     plan.StayResult
	Findings []plan.Finding
	Worst    plan.Severity
	// TurnedSeaM is the greatest significant height with the wind turned by
	// margins.wind_room_deg either way, metres; nil is not known.
	TurnedSeaM *float64
	// FromMin is how long she is under way from where she comes, straight at cruising
	// speed, minutes; nil is not known.
	FromMin *float64

	node int
	full bool // with all figures
}

// strides are the lattice's levels, coarse to fine, in nodes.
var strides = [...]int{16, 8, 4, 2, 1}

// reachM is how far about a place that was found, in water that hangs together with
// it, the lattice is not looked at.
const reachM = 600

// New begins to answer a question. An error says what is wrong with it.
func New(q Question) (*Search, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	q.Stay.At = q.Area.Center()
	return &Search{question: q, lattice: newLattice(q.Area), total: 1}, nil
}

// Run looks for places until all are found. Of those found so far Places tells at any
// time; found, unless it is nil, is called after each. An error is that of the plan,
// of the Session's Between, or of found; after the last two Run can be called again.
func (s *Search) Run(session *hazards.Session, found func() error) error {
	l, err := session.Lying(s.question.Plan, s.question.Stay, s.question.Arrive)
	if err != nil {
		return err
	}
	pause := func() error {
		if session.Between == nil {
			return nil
		}
		return session.Between()
	}
	if !s.flooded {
		if err := s.lattice.flood(l.Chart(), s.mostDepthM(), pause); err != nil {
			return err
		}
		s.lattice.bar(l.Chart(), l.LeastDepthM()+s.question.Plan.Margins.WaveFraction*s.question.Plan.Margins.AnchoredSeaM, s.mostDepthM())
		if err := s.passOpen(l, l.Chart(), pause); err != nil {
			return err
		}
		s.flooded = true
		s.total = s.lattice.count(water)
	}
	for ; s.level < len(strides); s.level, s.begun = s.level+1, false {
		if !s.begun {
			s.queue, s.begun = s.nodesOf(s.level), true
		}
		for len(s.queue) > 0 {
			i := s.queue[len(s.queue)-1]
			was := len(s.found)
			if err := s.look(l, i); err != nil {
				return err
			}
			s.queue = s.queue[:len(s.queue)-1]
			if err := pause(); err != nil {
				return err
			}
			if found != nil && len(s.found) > was {
				if err := found(); err != nil {
					return err
				}
			}
		}
	}
	return s.finish(l, pause)
}

// finish works out all figures of the places that are told.
func (s *Search) finish(l *hazards.Lying, pause func() error) error {
	for i, ok := s.notFull(); ok; i, ok = s.notFull() {
		p := &s.found[i]
		lie, err := l.At(p.At)
		if err != nil {
			return err
		}
		p.Stay, p.Findings, p.Worst, p.full = lie.Stay, lie.Findings, lie.Worst, true
		if err := pause(); err != nil {
			return err
		}
	}
	return nil
}

// notFull is a place that is told, by its place in found, whose figures are not all
// worked out; they may change the order.
func (s *Search) notFull() (i int, ok bool) {
	for _, i := range s.told() {
		if !s.found[i].full {
			return i, true
		}
	}
	return 0, false
}

// Progress is how much of the work is done, from 0 to 1.
func (s *Search) Progress() float64 {
	if s.level >= len(strides) {
		return 1
	}
	return float64(s.done) / float64(max(1, s.total))
}

// mostDepthM is the least depth of an area from which on it is too deep: she floats
// above all the rode that she has, whatever the tide.
func (s *Search) mostDepthM() float64 {
	const spareM = 5 // no tide of a stay stands further below the charted depths
	if r := s.question.Plan.Boat.Rode; r != nil && r.ChainM != nil {
		return *r.ChainM + r.RopeM + spareM
	}
	return withoutRodeM
}

// withoutRodeM is the depth looked at most where the boat says nothing of her rode:
// what a small boat's hundred metres of it are good for (judgement).
const withoutRodeM = 30

// nodesOf are the nodes of a level that no coarser one has, the nearest to the middle
// of the area last.
func (s *Search) nodesOf(level int) []int {
	l, step := s.lattice, strides[level]
	var out []int
	for y := 0; y < l.rows; y += step {
		for x := 0; x < l.cols; x += step {
			if i := y*l.cols + x; l.nodes[i] == water {
				out = append(out, i)
			}
		}
	}
	middle := l.nearest(s.question.Area.Center())
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(l.gapM(b, middle), l.gapM(a, middle)) })
	return out
}

// look looks at a node.
func (s *Search) look(l *hazards.Lying, i int) error {
	if s.near(i) {
		return nil
	}
	at := s.lattice.at(i)
	s.done++
	if _, out := l.RuledOut(at); out {
		s.lattice.nodes[i] = ruledOut
		return nil
	}
	lie, err := l.Judge(at)
	if err != nil {
		return err
	}
	if lie.Worst == plan.NotClear || lie.Worst == plan.NoData {
		s.lattice.nodes[i] = ruledOut
		return nil
	}
	s.lattice.nodes[i] = fit
	s.found = append(s.found, s.placeOf(l, i, lie))
	s.join(l)
	return nil
}

// near reports whether a node is close to a place that was found, in the same water.
func (s *Search) near(i int) bool {
	return slices.ContainsFunc(s.found, func(p Place) bool {
		return s.lattice.gapM(p.node, i) <= reachM && s.lattice.joined(p.node, i)
	})
}

func (s *Search) placeOf(l *hazards.Lying, i int, lie hazards.Lie) Place {
	p := Place{At: s.lattice.at(i), Stay: lie.Stay, Findings: lie.Findings, Worst: lie.Worst, node: i}
	if hs, ok := l.TurnedSea(p.At); ok {
		p.TurnedSeaM = &hs
	}
	if kn := s.question.Plan.Boat.CruiseKn; s.question.From != nil && kn > 0 {
		minutes := math.Ceil(geo.DistanceM(*s.question.From, p.At) / metresPerNM / kn * 60)
		p.FromMin = &minutes
	}
	return p
}

// count is how many nodes are as told.
func (l *lattice) count(of node) (n int) {
	for _, s := range l.nodes {
		if s == of {
			n++
		}
	}
	return n
}
