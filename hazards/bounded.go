package hazards

import (
	"cmp"
	"slices"

	"keelroom/hazards/plan"
)

// toldPerCheck is how many findings of one check a leg has in the report; the worst
// are told and the rest counted. Nobody reads more, and a layer may hold thousands
// of areas over each other (judgement).
const toldPerCheck = 20

// bounded keeps the findings that are told, and counts the others by check, leg and
// severity. One that holds on several legs is told where it is among the worst of any
// of them, so that no leg seems better than it is. The verdict and every figure are
// worked out of all of them before.
func bounded(all []plan.Finding) (told []plan.Finding, more []plan.More) {
	of := map[checkOnLeg][]int{}
	for i := range all {
		for _, p := range legsOf(&all[i]) {
			of[p] = append(of[p], i)
		}
	}
	keep := make([]bool, len(all))
	for _, group := range of {
		slices.SortStableFunc(group, func(i, j int) int { return worstFirst(&all[i], &all[j]) })
		for _, i := range group[:min(len(group), toldPerCheck)] {
			keep[i] = true
		}
	}
	counts := map[counted]int{}
	for i := range all {
		if f := &all[i]; keep[i] {
			told = append(told, *f)
		} else {
			counts[counted{checkOnLeg{f.Check, f.Leg}, f.Severity}]++
		}
	}
	return told, sorted(counts)
}

// checkOnLeg is a check on a leg.
type checkOnLeg struct {
	check string
	leg   int
}

// legsOf are a finding's check on each leg where it holds.
func legsOf(f *plan.Finding) []checkOnLeg {
	out := []checkOnLeg{{f.Check, f.Leg}}
	for _, p := range f.Also {
		if c := (checkOnLeg{f.Check, p.Leg}); c != out[len(out)-1] {
			out = append(out, c)
		}
	}
	return out
}

// worstFirst is the order in which findings of a check and leg are told: what says
// most of the water she meets first.
func worstFirst(f, g *plan.Finding) int {
	return cmp.Or(cmp.Compare(g.Severity, f.Severity), cmp.Compare(beyond(g), beyond(f)), startOf(f).Compare(startOf(g)),
		cmp.Compare(sourceKey(f), sourceKey(g)))
}

// counted is what findings that are not told are counted by.
type counted struct {
	checkOnLeg
	severity plan.Severity
}

// sorted lists counts by leg, check and severity.
func sorted(counts map[counted]int) []plan.More {
	var out []plan.More
	for k, n := range counts {
		out = append(out, plan.More{Check: k.check, Leg: k.leg, Severity: k.severity, Count: n})
	}
	slices.SortFunc(out, func(a, b plan.More) int {
		return cmp.Or(cmp.Compare(a.Leg, b.Leg), cmp.Compare(a.Check, b.Check), cmp.Compare(b.Severity, a.Severity))
	})
	return out
}

// passesPerLeg is how many areas that a leg only passes through are named.
const passesPerLeg = 50

// firstPasses names so many areas and counts the rest.
func firstPasses(areas []plan.Source) (first []plan.Source, more int) {
	if len(areas) <= passesPerLeg {
		return areas, 0
	}
	return areas[:passesPerLeg], len(areas) - passesPerLeg
}
