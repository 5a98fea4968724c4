package hazards

import (
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// sameness finds which findings tell the same.
type sameness struct {
	merging
	items []item
	sets  *sets
	twins map[*chart.Feature]*chart.Feature
}

// sameKey is what findings that tell the same have in common.
type sameKey struct {
	check string
	sev   plan.Severity
	day   int64 // midnight of the local day: windows are of one day
	thing *chart.Feature
	lying int
	leg   int
	// words is a heading or facts: what reads alike.
	words any
}

func (s *sameness) find() {
	s.raiseNotes()
	first := map[sameKey]int{}
	for i := range s.items {
		for _, key := range s.keys(&s.items[i]) {
			if j, seen := first[key]; seen {
				s.sets.join(i, j)
			} else {
				first[key] = i
			}
		}
	}
	s.near()
}

// raiseNotes has a note of a thing told with the care that the same thing wants at
// another time of the day, rather than by itself.
func (s *sameness) raiseNotes() {
	worse := map[sameKey]plan.Severity{}
	key := func(i *item) sameKey {
		return sameKey{check: i.Check, day: s.dayOf(i), thing: s.twins[i.thing()], lying: i.lying, words: i.heading()}
	}
	for n := range s.items {
		if i := &s.items[n]; i.thing() != nil && i.Severity != plan.Note {
			worse[key(i)] = max(worse[key(i)], i.Severity)
		}
	}
	for n := range s.items {
		if i := &s.items[n]; i.Severity == plan.Note {
			i.weighs = max(i.Severity, worse[key(i)])
		}
	}
}

// keys are what a finding may have in common with others: the thing it comes from,
// be it on the way or at one stay, and its words. The same words of another thing
// say something else, but for a note: that is read once.
func (s *sameness) keys(i *item) []sameKey {
	base := sameKey{check: i.Check, sev: i.weighs, day: s.dayOf(i)}
	thing := s.twins[i.thing()]
	byWords := base
	byWords.words = i.Facts
	switch {
	case i.weighs == plan.Note && slices.Contains(onceADay, i.Check):
		byWords.words = i.heading()
	case i.weighs != plan.Note:
		byWords.thing = thing
	}
	keys := []sameKey{byWords}
	if i.Code == facts.CrossingChannel { // the marks of one channel, on both its sides
		onLeg := base
		onLeg.words, onLeg.leg = i.heading(), i.Leg
		keys = append(keys, onLeg)
	}
	// A record of soundings may lie all over a chart: each is a thing of its own.
	if thing == nil || thing.Class == chart.SOUNDG {
		return keys
	}
	byThing := base
	byThing.thing, byThing.lying = thing, i.lying
	return append(keys, byThing)
}

// onceADay are the checks whose notes are one a day under each title: marks on the
// other side in deep water, which are named together, and water enough at this tide.
var onceADay = []string{plan.CheckMark, plan.CheckTideWindow}

func (s *sameness) dayOf(i *item) int64 {
	if i.Time == nil {
		return 0
	}
	from, _ := s.day(*i.Time)
	return from.Unix()
}

// banks are the checks whose findings are of stretches of water: those close to
// each other are one to the skipper, whichever features they come from.
var banks = []string{plan.CheckClearance, plan.CheckTideWindow, plan.CheckLand, plan.CheckHazard, plan.CheckCoverage, plan.CheckDatum, plan.CheckSea, plan.CheckDaylight}

// near joins neighbouring stretches, over legs too. Where she lies is told by
// itself.
func (s *sameness) near() {
	grids := map[sameKey]*grid{}
	for n := range s.items {
		i := &s.items[n]
		if i.lying > 0 || i.Geometry == nil || !slices.Contains(banks, i.Check) {
			continue
		}
		key := sameKey{check: i.Check, sev: i.weighs, day: s.dayOf(i), words: i.heading()}
		if f := i.thing(); f != nil && f.Class == chart.MQUAL {
			key.words = i.Facts // which quality it is must be told
		}
		g := grids[key]
		if g == nil {
			g = newGrid()
			grids[key] = g
		}
		g.add(n, i.Geometry, s.sets.joined, s.sets.join)
	}
}

// sets are disjoint sets of the numbers below n (Tarjan, "Efficiency of a good but
// not linear set union algorithm", J. ACM 22, 1975).
type sets struct{ parent []int }

func newSets(n int) *sets {
	s := &sets{make([]int, n)}
	for i := range s.parent {
		s.parent[i] = i
	}
	return s
}

func (s *sets) root(i int) int {
	for s.parent[i] != i {
		s.parent[i] = s.parent[s.parent[i]]
		i = s.parent[i]
	}
	return i
}

// join makes one set of two; the lowest number stands for it.
func (s *sets) join(i, j int) {
	i, j = s.root(i), s.root(j)
	s.parent[max(i, j)] = min(i, j)
}

// joined tells whether two are in one set.
func (s *sets) joined(i, j int) bool { return s.root(i) == s.root(j) }

// groups are the sets in the order of their lowest numbers, each in rising order.
func (s *sets) groups() [][]int {
	var out [][]int
	place := map[int]int{}
	for i := range s.parent {
		r := s.root(i)
		k, seen := place[r]
		if !seen {
			k = len(out)
			place[r], out = k, append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}
