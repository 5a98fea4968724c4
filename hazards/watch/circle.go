package watch

import (
	"fmt"
	"math"

	"keelroom/hazards/rode"
)

// Laid is what lies between the anchor and the boat, in metres.
type Laid struct {
	RodeM      float64 `json:"rode_m"`  // let out, chain and rope
	ChainM     float64 `json:"chain_m"` // chain aboard: what is laid beyond it is rope
	DepthM     float64 `json:"depth_m"` // least water over the anchor; 0 where it is not known, which makes the circle the largest
	BowRollerM float64 `json:"bow_roller_m"`
	LengthM    float64 `json:"length_m"`
	PositionM  float64 `json:"position_m"` // of the anchor's place
}

// RadiusM is the radius of the swinging circle about the anchor: the rode stretched flat from
// the bow roller to the ground at the lowest water, her length and what the anchor's place
// may be out. The error says what has to be typed instead.
func (l *Laid) RadiusM() (float64, error) {
	for _, v := range []float64{l.RodeM, l.ChainM, l.DepthM, l.BowRollerM, l.LengthM, l.PositionM} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, fmt.Errorf("a figure of the circle is not a number; metres are wanted")
		}
	}
	switch {
	case l.RodeM <= 0:
		return 0, fmt.Errorf("how much rode is laid is not given; type its metres, counted from the bow roller to the anchor")
	case l.RodeM > 1000:
		return 0, fmt.Errorf("%.0f m of rode are laid; at most 1000 m are wanted", l.RodeM)
	}
	high := math.Max(0, l.DepthM+l.BowRollerM)
	chain := math.Min(l.RodeM, math.Max(0, l.ChainM))
	line := rode.Line{ChainM: chain, RopeM: l.RodeM - chain}.StretchedM()
	if line <= high {
		return 0, fmt.Errorf("%.0f m of rode do not reach the ground %.1f m below the bow roller; type what is laid and the water there", l.RodeM, high)
	}
	return rode.RadiusM(line, high, math.Max(0, l.LengthM), math.Max(0, l.PositionM)), nil
}
