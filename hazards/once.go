package hazards

import (
	"cmp"
	"slices"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// Once is enough (plan-file contract, section 4). What holds on several legs, out
// and home, or by two charts of one thing is told once, with the other places and
// times beside it. The checks themselves find everything, and the verdict and
// every figure come from all of it; only then are findings of one check and
// severity put together.

// about is what a finding is about, as far as the finding itself does not say.
type about struct {
	lying  int              // which stay it is told of, from 1; 0: on the way
	things []*chart.Feature // what it speaks for; nil: its source alone
	ofDay  bool             // of the day as a whole, whichever leg it is told of
	// arriving: the stay, from 1, that it is about coming to.
	arriving int
}

// everyFinding leaves all findings apart, so that a test can tell that putting
// them together hides nothing.
var everyFinding = false

// item is a finding among those to be put together.
type item struct {
	*plan.Finding
	about
	weighs plan.Severity // that of the finding that it is told with
}

// thing is the feature that a finding comes from, nil for none.
func (i *item) thing() *chart.Feature { return thingOf(i.Finding) }

// all are the features that it speaks for.
func (i *item) all() []*chart.Feature {
	if f := i.thing(); i.things == nil && f != nil {
		return []*chart.Feature{f}
	}
	return i.things
}

// heading is what its title is made of.
func (i *item) heading() facts.Heading { return facts.HeadingOf(i.Facts) }

func startOf(f *plan.Finding) time.Time {
	if f.Time == nil {
		return time.Time{}
	}
	return *f.Time
}

// merging puts findings of a day together.
type merging struct {
	causes
	ground *ground
	day    func(time.Time) (from, to time.Time)
}

func (c *checker) merging() merging { return merging{c.causes(), c.ground, c.day} }

// once puts findings together that tell the same, and gives each its id.
func (m merging) once(all []plan.Finding, abouts []about) []plan.Finding {
	var causes []cause
	if everyFinding {
		for i := range all {
			causes = append(causes, m.causeOf(&all[i], &abouts[i]))
		}
		identify(all, causes)
		return all
	}
	items := make([]item, len(all))
	for i := range all {
		items[i] = item{Finding: &all[i], about: abouts[i], weighs: all[i].Severity}
	}
	// In the order she comes there: the first of a group gives its place and time.
	slices.SortStableFunc(items, func(a, b item) int {
		return cmp.Or(cmp.Compare(a.Leg, b.Leg), startOf(a.Finding).Compare(startOf(b.Finding)))
	})
	same := sameness{merging: m, items: items, sets: newSets(len(items)), twins: m.ground.twinsAmong(items)}
	same.find()
	var out []plan.Finding
	for _, group := range same.sets.groups() {
		for _, part := range apart(items, group) {
			f, from := m.together(items, part, same.twins)
			out, causes = append(out, f), append(causes, from)
		}
	}
	identify(out, causes)
	return out
}

// apart splits a group where no time would be clear for all of it though there is
// one for each: a list of windows must hold for every place it is told of.
func apart(items []item, group []int) [][]int {
	var parts [][]int
	var windows [][][2]time.Time
next:
	for _, i := range group {
		w := items[i].Windows
		for k := range parts {
			both := inBoth(windows[k], w)
			if len(both) > 0 || len(windows[k]) == 0 || len(w) == 0 {
				parts[k], windows[k] = append(parts[k], i), both
				continue next
			}
		}
		parts, windows = append(parts, []int{i}), append(windows, w)
	}
	return parts
}

// inBoth is what lies in both of two lists of windows; where one is not known, it
// is not known.
func inBoth(a, b [][2]time.Time) [][2]time.Time {
	if a == nil || b == nil {
		return nil
	}
	out := [][2]time.Time{}
	for _, v := range a {
		for _, w := range b {
			if from, to := later(v[0], w[0]), earlier(v[1], w[1]); from.Before(to) {
				out = append(out, [2]time.Time{from, to})
			}
		}
	}
	return out
}
