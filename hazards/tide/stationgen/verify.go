package main

import (
	"fmt"
	"io"
	"math"
	"math/rand"
	"time"

	"keelroom/hazards/tide"
)

// mostOffM is how far heights from the list may be from those of the constants as they were.
const mostOffM = 0.002

// verify reads the list back and compares heights at 200 times of 20 years for every reference
// station.
func verify(data []byte, kept []station, w io.Writer) error {
	list, err := tide.LoadStations(data)
	if err != nil {
		return err
	}
	if list.Len() != len(kept) {
		return fmt.Errorf("%d stations read back of %d", list.Len(), len(kept))
	}
	worst, at := 0.0, ""
	for i := range kept {
		off, err := offBy(list, &kept[i])
		if err != nil {
			return fmt.Errorf("%s: %w", kept[i].ID, err)
		}
		if off > worst {
			worst, at = off, kept[i].ID
		}
	}
	fmt.Fprintf(w, "rounding: heights off by at most %.2f mm (%s)\n", worst*1000, at)
	if worst > mostOffM {
		return fmt.Errorf("%s: heights off by %.2f mm; wanted at most %.0f", at, worst*1000, mostOffM*1000)
	}
	return nil
}

func offBy(list *tide.Stations, s *station) (float64, error) {
	st, ok := list.Station(s.ID)
	if !ok {
		return 0, fmt.Errorf("not found")
	}
	got, err := st.Tide()
	if err != nil || s.subordinate() {
		return 0, err
	}
	var cs []tide.Constituent
	for _, c := range s.Constituents {
		cs = append(cs, tide.Constituent{Name: c.Name, AmplitudeM: c.Amplitude, PhaseDeg: math.Mod(c.Phase, 360)})
	}
	z0 := s.Datums["MSL"] - s.Datums[s.ChartDatum]
	want, err := tide.NewHarmonic(z0, cs)
	if err != nil {
		return 0, err
	}
	r := rand.New(rand.NewSource(1))
	start := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	worst := 0.0
	for range 200 {
		t := start.Add(time.Duration(r.Int63n(int64(20 * 365 * 24 * time.Hour))))
		a, _ := got.HeightM(t)
		b, _ := want.HeightM(t)
		worst = max(worst, math.Abs(a-b))
	}
	return worst, nil
}
