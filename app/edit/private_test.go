package edit

import (
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
)

// The layer decoder reads what is drawn, as it is meant.
func TestPrivateFeatures(t *testing.T) {
	p := day(t)
	ring := []orb.Point{{-36, 43}, {-35.9, 43}, {-35.9, 43.1}}
	accepted(t, p, AddZone(p, ring, `INVENTED "slow" <b>`, ptr(5.0), AnchoringProhibited))
	accepted(t, p, AddHazard(p, ring[:1], "INVENTED rock", ptr(-0.4), Rock))
	accepted(t, p, AddHazard(p, ring, "INVENTED foul", nil, ""))
	accepted(t, p, RemovePrivate(p, 1))
	p, err := plan.Decode(encoded(t, p))
	if err != nil {
		t.Fatal(err)
	}
	raw := make([]layer.PlanFeature, len(p.Private))
	for i, f := range p.Private {
		raw[i] = layer.PlanFeature{Data: f.Feature}
	}
	set, messages := layer.Private("the plan", raw)
	for _, m := range messages {
		if m.Level != chart.Warning {
			t.Error(m)
		}
	}
	if set == nil || len(set.Features) != 4 {
		t.Fatalf("4 features are wanted: %v", set)
	}
	for i, class := range []string{"RESARE", "RESARE", "UWTROC", "OBSTRN"} {
		if got := set.Features[i].Class.String(); got != class {
			t.Errorf("feature %d is %s, want %s", i, got, class)
		}
	}
}

// Features of the file and parts of the day name each other, with other features
// between them and after any edit.
func TestIndexes(t *testing.T) {
	p := day(t)
	for part, feature := range []int{1, 3, 5, 6, 7} {
		if got, ok := FeatureOfPart(p, part); !ok || got != feature {
			t.Errorf("part %d is feature %d, want %d", part, got, feature)
		}
		if got, ok := PartOfFeature(p, feature); !ok || got != part {
			t.Errorf("feature %d is part %d, want %d", feature, got, part)
		}
	}
	for _, feature := range []int{-1, 0, 2, 4, 8} {
		if part, ok := PartOfFeature(p, feature); ok {
			t.Errorf("feature %d is no part, not %d", feature, part)
		}
	}
	if _, ok := FeatureOfPart(p, 5); ok {
		t.Error("a part that is not there")
	}
	accepted(t, p, AddHazard(p, []orb.Point{{-36, 43}}, "", nil, ""))
	if part, ok := PartOfFeature(p, 8); ok {
		t.Errorf("the new danger is no part, not %d", part)
	}
}
