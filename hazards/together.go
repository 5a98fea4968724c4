package hazards

import (
	"cmp"
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// together is the one finding of a group, which is in the order she comes there:
// the place and time of the first, the words and figures of the worst, and where
// else it holds.
func (m merging) together(items []item, group []int, twins map[*chart.Feature]*chart.Feature) (plan.Finding, cause) {
	group = heaviestFirst(items, group)
	first := &items[group[0]]
	speaker, out := first, *first.Finding
	for _, k := range group[1:] {
		if i := &items[k]; i.Severity > speaker.Severity || i.Severity == speaker.Severity && worseWords(i.Finding, speaker.Finding) {
			speaker = i
		}
		out.Windows = inBoth(out.Windows, items[k].Windows)
	}
	out.Code, out.Facts, out.Measured, out.Required, out.Unit, out.Made, out.Source = speaker.Code, speaker.Facts,
		speaker.Measured, speaker.Required, speaker.Unit, speaker.Made, speaker.Source
	out.Also = m.alsoAt(items, group)
	if first.lying == 0 {
		m.lengthen(&out, items, group)
	}
	if speaker.Measured != nil && !samePlace(speaker.Finding, first.Finding) {
		out.Further = append(out.Further, facts.AsOnLeg{Leg: speaker.Leg, When: facts.At(startOf(speaker.Finding))})
	}
	out.Further = append(out.Further, others(items, group, speaker, twins)...)
	return out, m.causeOf(&out, &first.about)
}

// heaviestFirst puts the notes of a group that wants care elsewhere at its end: the
// group begins where it weighs most.
func heaviestFirst(items []item, group []int) []int {
	group = slices.Clone(group)
	slices.SortStableFunc(group, func(a, b int) int { return cmp.Compare(items[b].Severity, items[a].Severity) })
	return group
}

// worseWords tells whether f should speak before g: it leaves less room, or goes
// further beyond a limit. Of two alike, to a centimetre, the one whose class and
// name come first, so that the way the route runs does not matter.
func worseWords(f, g *plan.Finding) bool {
	a, b := beyond(f), beyond(g)
	if a != b {
		return a > b
	}
	return sourceKey(f) < sourceKey(g)
}

// beyond is how far the figure of a finding lies on the wrong side of what is
// required, in whole hundredths; −Inf for one without a figure.
func beyond(f *plan.Finding) float64 {
	if f.Measured == nil {
		return math.Inf(-1)
	}
	over := *f.Measured
	if f.Required != nil {
		over -= *f.Required
	}
	if f.LessIsWorse() {
		over = -over
	}
	return math.Round(over * 100)
}

func samePlace(f, g *plan.Finding) bool {
	return f.Leg == g.Leg && startOf(f).Round(time.Second).Equal(startOf(g).Round(time.Second))
}

// alsoAt lists the places and times of a group but for the first, each once, in the
// order she comes there.
func (m merging) alsoAt(items []item, group []int) []plan.Passing {
	rest := slices.Sorted(slices.Values(group[1:])) // items are in that order
	last := items[group[0]].Finding
	var out []plan.Passing
	for _, k := range rest {
		f := items[k].Finding
		if samePlace(f, items[group[0]].Finding) || samePlace(f, last) {
			continue
		}
		last = f
		out = append(out, plan.Passing{Leg: f.Leg, Time: f.Time, At: firstOf(f.Geometry)})
	}
	return out
}

// lengthen draws a finding on over the stretches that follow it without a break.
func (m merging) lengthen(out *plan.Finding, items []item, group []int) {
	leg := out.Leg
	for _, k := range group[1:] {
		f := items[k].Finding
		if items[k].lying > 0 || f.Severity != out.Severity || f.Leg > leg+1 || f.Geometry == nil || out.Geometry == nil || !m.onOneRoute(leg, f.Leg) ||
			geo.DistanceM(lastOf(out.Geometry), firstOf(f.Geometry)) > togetherM {
			return
		}
		leg = f.Leg
		out.Geometry = joinedShape(out.Geometry, f.Geometry)
		if f.Until != nil && out.Until != nil {
			out.Until = ptr(later(*out.Until, *f.Until))
		}
	}
}

// onOneRoute tells whether two legs, by their numbers, are of one route.
func (m merging) onOneRoute(a, b int) bool {
	return a > 0 && b > 0 && m.track.Legs[a-1].Route == m.track.Legs[b-1].Route
}

func joinedShape(a, b orb.Geometry) orb.Geometry {
	var out orb.LineString
	for _, g := range []orb.Geometry{a, b} {
		line, ok := g.(orb.LineString)
		if !ok {
			line = orb.LineString{firstOf(g)}
		}
		for _, p := range line {
			if len(out) == 0 || out[len(out)-1] != p {
				out = append(out, p)
			}
		}
	}
	if len(out) == 1 {
		return out[0]
	}
	return out
}

// others tells what else the group says: under other titles, of other limits' times,
// and of how many other things the same holds.
func others(items []item, group []int, speaker *item, twins map[*chart.Feature]*chart.Feature) []facts.Facts {
	out := otherHeadings(items, group, speaker)
	if speaker.Check == plan.CheckSpeed {
		out = append(out, otherTimes(items, group, speaker)...)
	}
	return append(out, otherThings(items, group, speaker, twins)...)
}

// otherHeadings is the worst of the group under each other title.
func otherHeadings(items []item, group []int, speaker *item) []facts.Facts {
	worst := map[facts.Heading]*item{}
	var headings []facts.Heading
	for _, k := range group {
		i := &items[k]
		h := i.heading()
		old := worst[h]
		if old == nil {
			headings = append(headings, h)
		}
		if old == nil || worseWords(i.Finding, old.Finding) {
			worst[h] = i
		}
	}
	var out []facts.Facts
	for _, h := range headings {
		if h != speaker.heading() {
			out = append(out, facts.Also{Of: worst[h].Facts})
		}
	}
	return out
}

// otherTimes is what is said of a limit each other time she comes to it.
func otherTimes(items []item, group []int, speaker *item) []facts.Facts {
	var out []facts.Facts
	for _, k := range group {
		if i := &items[k]; i.heading() == speaker.heading() && i.Facts != speaker.Facts {
			out = append(out, facts.OnLeg{Leg: i.Leg, Of: i.Facts})
		}
	}
	return out
}

// otherThings counts the other things that the words of a group hold for, and
// names those that have a name.
func otherThings(items []item, group []int, speaker *item, twins map[*chart.Feature]*chart.Feature) []facts.Facts {
	seen := map[*chart.Feature]bool{}
	if f := speaker.thing(); f != nil {
		seen[twins[f]] = true
	}
	same := facts.SameFor{CloseBy: slices.Contains(banks, speaker.Check)}
	for _, k := range group {
		i := &items[k]
		if i.heading() != speaker.heading() || i.Facts == speaker.Facts && i.things == nil {
			continue
		}
		for _, f := range i.all() {
			if f = twins[f]; seen[f] {
				continue
			}
			seen[f] = true
			same.Count++
			if f.Name != "" && !slices.Contains(same.Names, f.Name) {
				same.Names = append(same.Names, f.Name)
			}
		}
	}
	if same.Count == 0 {
		return nil
	}
	return []facts.Facts{same}
}
