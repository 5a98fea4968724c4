package hazards

import (
	"cmp"
	"math"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// togetherM is how close along the leg two things of one kind are one place to
// the skipper.
const togetherM = 100

// group is one or several findings of one kind close together on a leg. The
// finding is that of the nearest thing.
type group struct {
	finding  plan.Finding
	from, to float64
	things   []*chart.Feature
}

// joinGroup adds a finding to the groups, joining it to all that it is close
// to. Areas with rules of their own are never joined.
func joinGroup(groups []group, g group) []group {
	if !joins(g.finding.Check) {
		return append(groups, g)
	}
	out := groups[:0]
	for _, h := range groups {
		if h.finding.Check == g.finding.Check && h.finding.Severity == g.finding.Severity && facts.HeadingOf(h.finding.Facts) == facts.HeadingOf(g.finding.Facts) &&
			h.from <= g.to+togetherM && g.from <= h.to+togetherM {
			g = h.with(g)
			continue
		}
		out = append(out, h)
	}
	return append(out, g)
}

// joins tells whether findings of the check are of one kind with their neighbours:
// areas with rules of their own, marks and bridges are not.
func joins(check string) bool { return check == plan.CheckLand || check == plan.CheckHazard }

// with joins two groups. The nearer thing speaks; of two equally near (to a
// centimetre) the one whose class and name come first, so that the way the leg
// runs does not matter.
func (h group) with(g group) group {
	out := h
	if h.after(g) {
		out.finding = g.finding
	}
	out.from, out.to, out.things = math.Min(h.from, g.from), math.Max(h.to, g.to), append(h.things, g.things...)
	return out
}

// after tells whether g should speak before h.
func (h group) after(g group) bool {
	return cmp.Or(cmp.Compare(h.nearness(), g.nearness()), cmp.Compare(sourceKey(&h.finding), sourceKey(&g.finding))) > 0
}

// nearness is how far off the thing is, to a centimetre.
func (h group) nearness() float64 {
	if h.finding.Measured == nil {
		return math.Inf(1)
	}
	return math.Round(*h.finding.Measured*100) / 100
}

func sourceKey(f *plan.Finding) string {
	if s := f.Source; s != nil {
		return s.Class + "\x00" + s.Name + "\x00" + s.Layer
	}
	return ""
}

// coveredByWorse tells whether another group of the same check is worse and
// holds all of this one, where they are of one kind.
func coveredByWorse(g *group, all []group) bool {
	if !joins(g.finding.Check) {
		return false
	}
	for i := range all {
		h := &all[i]
		if h.finding.Check == g.finding.Check && h.finding.Severity == plan.NotClear && g.finding.Severity == plan.Care &&
			h.from-togetherM <= g.from && g.to <= h.to+togetherM {
			return true
		}
	}
	return false
}

// worded is the finding of the whole group.
func (h group) worded(o *obstacles) plan.Finding {
	f := h.finding
	start, end := o.when(h.from, h.to)
	f.Time, f.Until, f.Geometry = ptr(start), ptr(end), o.where(h.from, h.to)
	return f
}
