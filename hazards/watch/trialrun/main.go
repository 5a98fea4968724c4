// Trialrun prints how the anchor watch does on simulated nights: see package trial.
package main

import (
	"flag"
	"os"

	"keelroom/hazards/watch/trial"
)

func main() {
	size := trial.Whole
	flag.Float64Var(&size.Hours, "hours", size.Hours, "hours at anchor, holding, for each error of the receiver")
	flag.IntVar(&size.Drags, "drags", size.Drags, "drags at each speed")
	flag.Uint64Var(&size.Seed, "seed", size.Seed, "of the nights")
	flag.Float64Var(&size.PositionM, "position", size.PositionM, "metres that the circle allows for the anchor's place")
	flag.Parse()
	trial.Head(os.Stdout)
	for _, sigma := range trial.Sigmas {
		trial.Run(size, sigma).Print(os.Stdout)
	}
}
