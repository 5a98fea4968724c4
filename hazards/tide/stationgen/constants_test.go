package main

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"keelroom/hazards/tide"
)

// Constants of stations one beside the other come back as they were, to half a step of amplitude and
// to the turn that moves the water by 0.1 mm, wherever their phases lie in the turn.
func TestConstantsBesideABase(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	names := []string{"M2", "S2", "K1", "O1", "M4", "SA"}
	var kept []station
	for i := range 60 {
		s := station{ID: fmt.Sprintf("x/%02d", i), Type: "reference", Name: "INVENTED", Country: "Inventia", Licence: "public domain",
			Longitude: r.Float64() - 0.5, Latitude: r.Float64(), ChartDatum: "LAT", Datums: map[string]float64{"LAT": 0, "MSL": 2, "HAT": 4}}
		for _, name := range names[r.Intn(3):] {
			s.Constituents = append(s.Constituents, constant{name, 4 * math.Pow(r.Float64(), 6), 720*r.Float64() - 360})
		}
		kept = append(kept, s)
	}
	list, err := tide.LoadStations(encode(kept))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range kept {
		st, _ := list.Station(s.ID)
		_, cs, _ := st.Constituents()
		got := map[string]tide.Constituent{}
		for _, c := range cs {
			got[c.Name] = c
		}
		for _, want := range s.Constituents {
			c := got[want.Name]
			off := math.Abs(math.Remainder(c.PhaseDeg-want.Phase, 360)) * math.Pi / 180
			if math.Abs(c.AmplitudeM-want.Amplitude) > 0.5001e-4 || c.AmplitudeM*off > 1.001e-4 && off > 0.00501*math.Pi/180 || c.PhaseDeg < 0 || c.PhaseDeg >= 360 {
				t.Errorf("%s: %v, want %v", s.ID, c, want)
			}
		}
	}
}

func TestPhaseSteps(t *testing.T) {
	for i, step := range tide.PhaseSteps {
		if fullTurn%step != 0 || i > 0 && step <= tide.PhaseSteps[i-1] {
			t.Errorf("a step of %d hundredths", step)
		}
	}
	for _, amplitude := range []int{1, 5, 6, 57, 58, 1145, 1146, 200000} {
		i := tide.PhaseStep(amplitude)
		off := func(i int) float64 {
			return float64(amplitude) * float64(tide.PhaseSteps[i]) / 2 / 100 * math.Pi / 180
		}
		if i > 0 && off(i) > 1 || i+1 < len(tide.PhaseSteps) && off(i+1) <= 1 {
			t.Errorf("amplitude %d is stored with a step of %d hundredths", amplitude, tide.PhaseSteps[i])
		}
	}
}
