package rode

import "math"

// RopeStretch is how much longer rope may be under a load (judgement).
const RopeStretch = 1.1

// StretchedM is the length of a line with its rope stretched.
func (l Line) StretchedM() float64 { return l.ChainM + RopeStretch*l.RopeM }

// ReachM is how far from the anchor the bow comes, the line taut at a height: the upper
// bound of what a catenary gives. 0 where the line does not reach the ground.
func ReachM(lineM, heightM float64) float64 {
	heightM = math.Max(0, heightM)
	return math.Sqrt(math.Max(0, lineM*lineM-heightM*heightM))
}

// RadiusM is that of the circle that a boat so long sweeps on a line, with so many metres
// for where the anchor is thought to lie.
func RadiusM(lineM, heightM, boatM, positionM float64) float64 {
	return ReachM(lineM, heightM) + boatM + positionM
}
