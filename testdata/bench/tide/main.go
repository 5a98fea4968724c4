// Program tide compares a year of hourly heights with those that peer.mjs prints, which it reads
// from standard input, and prints nanoseconds a height for both. It fails where a height differs
// by more than 5 mm: the peer holds node factors for a day and uses other astronomical constants.
package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"time"

	"keelroom/hazards/tide"
)

const mostOffM = 0.005

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "tide:", err)
		os.Exit(1)
	}
}

func run() error {
	var peer struct {
		Constituents []tide.Constituent
		Z0M          float64 `json:"z0_m"`
		Start        time.Time
		StepS        float64   `json:"step_s"`
		NsPerHeight  float64   `json:"ns_per_height"`
		HeightsM     []float64 `json:"heights_m"`
	}
	if err := json.NewDecoder(os.Stdin).Decode(&peer); err != nil {
		return fmt.Errorf("standard input: %w", err)
	}
	h, err := tide.NewHarmonic(peer.Z0M, peer.Constituents)
	if err != nil {
		return err
	}
	step := time.Duration(peer.StepS * float64(time.Second))
	worst, best := 0.0, math.Inf(1)
	for range 9 {
		begun := time.Now()
		for i, want := range peer.HeightsM {
			got, _ := h.HeightM(peer.Start.Add(time.Duration(i) * step))
			worst = max(worst, math.Abs(got-want))
		}
		best = min(best, float64(time.Since(begun).Nanoseconds()))
	}
	ours := best / float64(len(peer.HeightsM))
	fmt.Printf("%d heights, %d constituents: %.0f ns a height, peer %.0f ns (%.2f of it); off by at most %.1f mm\n",
		len(peer.HeightsM), len(peer.Constituents), ours, peer.NsPerHeight, ours/peer.NsPerHeight, worst*1000)
	if worst > mostOffM {
		return fmt.Errorf("a height differs by %.1f mm; wanted at most %.0f", worst*1000, mostOffM*1000)
	}
	return nil
}
