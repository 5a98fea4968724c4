package hazards

import (
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// silent tells whether a chart says nothing of an area but that it is there: it
// has no words and no rule. Such an area is drawn, and no finding.
func silent(f *chart.Feature) bool {
	r := f.Rules
	return f.Info == "" && (r == nil || r.Restrn == 0 && r.CatRea == 0 && !r.SpeedZone)
}

// passThrough notes an area without a rule or words on the leg that enters it.
func (o *obstacles) passThrough(f *chart.Feature) {
	if o.atStay() {
		return // the leg that ends here has told it
	}
	if list := o.passed[o.index]; !slices.Contains(list, f) {
		o.passed[o.index] = append(list, f)
	}
}

// passesOf are the areas that a leg only passes through, for the report.
func (dr dayReport) passesOf(leg int) (first []plan.Source, more int) {
	var out []plan.Source
	for _, f := range dr.passed[leg] {
		out = append(out, *sourceOf(f))
	}
	return firstPasses(out)
}
