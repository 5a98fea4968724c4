package rode

import "math"

// MaxShankDeg is the angle of the pull at the shank up to which an anchor is taken to
// hold as well as on level ground (common practice).
const MaxShankDeg = 5

// Scope is the length of rode wanted for each metre of height.
type Scope struct {
	Chain float64 // with nothing but chain laid
	Rope  float64 // as soon as rope is laid
}

// LengthM is what the scope rule asks of a rode aboard. What is wanted beyond the chain
// is rope where there is rope, else more of the same chain.
func (s Scope) LengthM(aboard Line, heightM float64) float64 {
	heightM = math.Max(0, heightM)
	if chain := s.Chain * heightM; chain <= aboard.ChainM || aboard.RopeM <= 0 {
		return chain
	}
	return math.Max(s.Rope*heightM, aboard.ChainM)
}

// HeightM is the greatest height for which so much rode is enough by the scope rule:
// LengthM turned about.
func (s Scope) HeightM(aboard Line, laidM float64) float64 {
	onChain := math.Min(laidM, aboard.ChainM) / s.Chain
	if aboard.RopeM <= 0 {
		return laidM / s.Chain
	}
	if laidM <= aboard.ChainM {
		return onChain
	}
	return math.Max(onChain, laidM/s.Rope)
}

// Laying is how much rode to lay, and why.
type Laying struct {
	ScopeM float64 // what the scope rule asks
	FlatM  float64 // with which the pull at the shank is level at the load; +Inf: none
	AngleM float64 // with which it is MaxShankDeg there
	ToLayM float64 // the longer of ScopeM and AngleM in whole metres, never more than aboard
}

// Lay works out how much of a rode aboard to lay at a height and a load.
func Lay(aboard Line, s Scope, heightM, loadN float64) Laying {
	out := Laying{ScopeM: s.LengthM(aboard, heightM), FlatM: aboard.LeastM(heightM, loadN, 0), AngleM: aboard.LeastM(heightM, loadN, MaxShankDeg)}
	out.ToLayM = math.Min(wholeMetres(math.Max(out.ScopeM, out.AngleM)), aboard.LengthM())
	return out
}

// wholeMetres rounds up; what is over by less than a millimetre is not over.
func wholeMetres(m float64) float64 { return math.Ceil(math.Round(m*1000) / 1000) }
