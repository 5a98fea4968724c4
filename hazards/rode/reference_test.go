package rode

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"keelroom/hazards/plan"
)

// reference is testdata/anchoring.json: values computed from the formulas it names, and
// published ones, each with its source.
type reference struct {
	Catenary []struct {
		H     float64  `json:"h_m"`
		Kg    float64  `json:"chain_kg_per_m"`
		Load  float64  `json:"H_N"`
		W     float64  `json:"w_N_per_m"`
		Least float64  `json:"Lmin_m"`
		Span  float64  `json:"x_m"`
		Scope float64  `json:"scope"`
		Laid  *float64 `json:"L_m"`
		Taut  *float64 `json:"taut_upper_bound_m"`
		Reach *float64 `json:"x_total_m"`
	}
	Drag []struct {
		A  float64 `json:"A_m2"`
		Cd float64 `json:"Cd"`
		V  float64 `json:"V_mps"`
		F  float64 `json:"F_N"`
	} `json:"wind_drag"`
	Loads struct {
		Beam   []float64            `json:"beam_ft"`
		Lbf    map[string][]float64 `json:"lbf"`
		Newton float64              `json:"lbf_to_N"`
	}
	Chain struct {
		Rows []struct {
			D     float64 `json:"d_mm"`
			Pitch float64 `json:"pitch_mm"`
			Kg    float64 `json:"kg_per_m"`
		}
	}
	Scope struct {
		Examples []struct {
			Scope float64 `json:"scope"`
			Depth float64 `json:"depth_m"`
			Rise  float64 `json:"tide_rise_m"`
			Bow   float64 `json:"bow_m"`
			Rode  float64 `json:"rode_m"`
		}
	}
}

func load(t *testing.T) reference {
	t.Helper()
	b, err := os.ReadFile("testdata/anchoring.json")
	if err != nil {
		t.Fatal(err)
	}
	var r reference
	if err := json.Unmarshal(b, &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Catenary) != 6 || len(r.Drag) != 2 || len(r.Loads.Beam) != 7 || len(r.Chain.Rows) != 4 || len(r.Scope.Examples) != 2 {
		t.Fatal("testdata/anchoring.json is not whole")
	}
	return r
}

func within(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.6g, want %.6g ± %.2g %%", what, got, want, share*100)
	}
}

func TestCatenaryRows(t *testing.T) {
	const share = 0.001
	for _, r := range load(t).Catenary {
		line := Line{ChainM: 1000, ChainKgPerM: r.Kg}
		within(t, "weight in water", line.weight(), r.W, share)
		least := line.LeastM(r.H, r.Load, 0)
		within(t, "least length", least, r.Least, share)
		within(t, "scope", least/r.H, r.Scope, share)
		laid := Line{ChainM: least, ChainKgPerM: r.Kg}
		if r.Load > 1 { // a metre of it hangs straight down else
			within(t, "the load that lifts it", laid.LiftN(r.H, 0), r.Load, share)
		}
		if r.Laid != nil {
			within(t, "taut", ReachM(*r.Laid, r.H), *r.Taut, share)
		}
		// The row's figure has three decimals.
		if span := (Line{ChainM: least * (1 + 1e-9), ChainKgPerM: r.Kg}).SpanM(r.H, r.Load); math.Abs(span-r.Span) > math.Max(share*r.Span, 0.0005) {
			t.Errorf("span of the least: %.6g, want %.6g", span, r.Span)
		}
		if r.Reach != nil {
			within(t, "span", Line{ChainM: *r.Laid, ChainKgPerM: r.Kg}.SpanM(r.H, r.Load), *r.Reach, share)
		}
	}
}

func TestDragRows(t *testing.T) {
	for _, r := range load(t).Drag {
		within(t, "drag", DragN(airDensity, r.Cd, r.A, r.V), r.F, 0.001)
	}
	// By hand: 2.5 · ½ · 1.225 · 1.2 · 6 · (30 · 0.514444)² = 2.5 · 4.41 · 238.19 = 2626 N.
	within(t, "wind's load", WindLoadN(6, 30), 2626, 0.001)
	// ½ · 1025 · 0.5 · 2.5 · 1 · (2 · 0.514444)² = 640.6 · 1.05861 = 678.2 N.
	within(t, "stream's load", StreamLoadN(2.5, 1, 2), 678.2, 0.001)
	within(t, "gust for a load", GustForLoadKn(6, WindLoadN(6, 17.5)), 17.5, 1e-9)
}

// The load with the default area lies within −3 and +20 % of published design loads of
// power boats of 20 to 60 ft, whose beams are from memory. The table is a fact of this
// test; the program has none of it.
func TestPublishedLoads(t *testing.T) {
	r := load(t).Loads
	const foot = 0.3048
	for row, gust := range map[string]float64{"lunch_15kn": 15, "working_30kn": 30} {
		for i, lbf := range r.Lbf[row] {
			length, beam := r.Lbf["LOA_ft"][i]*foot, r.Beam[i]*foot
			boat := plan.Boat{LengthM: &length, BeamM: &beam}
			area, ok := boat.Windage()
			if !ok {
				t.Fatal("no area")
			}
			if share := WindLoadN(area, gust)/(lbf*r.Newton) - 1; share < -0.03 || share > 0.20 {
				t.Errorf("%s of %.0f ft: %+.1f %%", row, r.Lbf["LOA_ft"][i], share*100)
			}
		}
	}
}

// Makers' weights of short link chain follow its steel: 0.0219 kg/m for a square
// millimetre of diameter, within the 5 % that their tables differ by.
func TestChainWeights(t *testing.T) {
	for _, r := range load(t).Chain.Rows {
		within(t, "weight", 0.0219*r.D*r.D, r.Kg, 0.05)
	}
}

func TestScopeExamples(t *testing.T) {
	for _, r := range load(t).Scope.Examples {
		height := r.Depth + r.Rise + r.Bow
		scope := Scope{Chain: r.Scope, Rope: r.Scope}
		within(t, "scope rule", scope.LengthM(Line{ChainM: 100}, height), r.Rode, 1e-9)
		within(t, "height for it", scope.HeightM(Line{ChainM: 100}, r.Rode), height, 1e-9)
		if lay := Lay(Line{ChainM: 100, ChainKgPerM: 2}, scope, height, 0); lay.ToLayM != r.Rode {
			t.Errorf("to lay %v, want %v", lay.ToLayM, r.Rode)
		}
	}
}
