package anchorages

import (
	"cmp"
	"slices"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// The weights of the order, in points; fewer are better. Judgement: a sea of the
// limit at anchor weighs as much as five quarters of an hour's way. The sea is that
// with the wind turned.
const (
	seaPoints    = 100 // a sea as high as margins.anchored_sea_m
	roomPoints   = 20  // no more room than her circle takes; none from twice that on
	minutePoints = 0.5 // a minute's way
	carePoints   = 5   // a thing that wants care
)

// bottomPoints are for how well the ground holds.
var bottomPoints = map[facts.Holds]float64{facts.HoldsWell: 0, facts.HoldsFairly: 5, facts.HoldsPoorly: 15, facts.HoldsNotCharted: 8}

// Points are what a place is ordered by, each part and their sum.
type Points struct {
	Sea, Room, Bottom, Way, Care float64
}

// Sum is all points together.
func (p Points) Sum() float64 { return p.Sea + p.Room + p.Bottom + p.Way + p.Care }

// PointsOf are a place's points for a boat's margins. What is not known counts as much
// as the worst that passes.
func PointsOf(p *Place, m *plan.Margins) Points {
	out := Points{Sea: seaPoints, Room: roomPoints, Bottom: bottomPoints[facts.HoldsNotCharted]}
	if p.TurnedSeaM != nil && m.AnchoredSeaM > 0 {
		out.Sea = seaPoints * *p.TurnedSeaM / m.AnchoredSeaM
	}
	if room, needed := p.Stay.RoomM, p.Stay.RadiusM; room != nil && needed != nil && *needed > 0 {
		out.Room = roomPoints * min(max(2 - *room / *needed, 0), 1)
	}
	if g := p.Stay.Ground; g != nil {
		out.Bottom = bottomPoints[g.Holds]
	}
	if p.FromMin != nil {
		out.Way = minutePoints * *p.FromMin
	}
	for _, f := range p.Findings {
		if f.Severity == plan.Care {
			out.Care += carePoints
		}
	}
	return out
}

// apartM is how far apart places of the same water are told, at least.
const apartM = 250

// Places are the places found so far, best first. Of several close together in one
// water the best is told.
func (s *Search) Places() []Place {
	var out []Place
	for _, i := range s.told() {
		out = append(out, s.found[i])
	}
	return out
}

// Told is how many places Places has.
func (s *Search) Told() int { return len(s.told()) }

// told are the places that are told, by their places in found, best first.
func (s *Search) told() []int {
	m := &s.question.Plan.Margins
	points := make([]float64, len(s.found))
	order := make([]int, len(s.found))
	for i := range s.found {
		points[i], order[i] = PointsOf(&s.found[i], m).Sum(), i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(points[a], points[b]), cmp.Compare(s.found[a].node, s.found[b].node))
	})
	var out []int
	for _, i := range order {
		if w := s.found[i].Worst; w == plan.NotClear || w == plan.NoData {
			continue // all its figures say so, though the quick look did not
		}
		if !slices.ContainsFunc(out, func(o int) bool {
			return s.lattice.gapM(s.found[o].node, s.found[i].node) < apartM && s.waters.same(o, i)
		}) {
			out = append(out, i)
		}
	}
	return out
}
