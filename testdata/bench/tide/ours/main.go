// Program ours answers the tasks of the benchmark of heights of tide: see
// package main one folder up. Its argument is a file of a station's constituents.
// M1 is left out, as the peer does.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"time"

	"keelroom/hazards/tide"
	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/tide/year"
)

func main() {
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "tide, ours:", err)
		os.Exit(1)
	}
}

func run(file string) error {
	h, err := load(file)
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	return contest.Serve(func(t year.Task) (year.Heights, error) {
		at, end := time.Date(t.Year, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(t.Year+1, 1, 1, 0, 0, 0, 0, time.UTC)
		var out year.Heights
		begun := time.Now()
		for ; !at.After(end); at = at.Add(time.Hour) {
			m, _ := h.HeightM(at)
			out.HeightsM = append(out.HeightsM, m)
		}
		out.Ns = time.Since(begun).Nanoseconds()
		return out, nil
	})
}

func load(file string) (*tide.Harmonic, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var station struct {
		Z0M          float64 `json:"z0_msl_above_chart_datum_m"`
		Constituents []struct {
			Name             string
			Amplitude, Phase float64
		}
	}
	if err := json.Unmarshal(data, &station); err != nil {
		return nil, err
	}
	var cs []tide.Constituent
	for _, c := range station.Constituents {
		if c.Name != "M1" {
			cs = append(cs, tide.Constituent{Name: c.Name, AmplitudeM: c.Amplitude, PhaseDeg: c.Phase})
		}
	}
	return tide.NewHarmonic(station.Z0M, cs)
}
