package tide

import (
	"fmt"
	"sort"
	"strings"
)

// Constituent is one harmonic constant of a station.
type Constituent struct {
	Name       string  // as in the IHO list or as NOAA or Schureman write it; case does not count
	AmplitudeM float64 // metres
	PhaseDeg   float64 // Greenwich phase lag in degrees, for times in UTC
}

// factor is one node factor in a constituent's modulation, times times over. A negative count
// turns u and leaves f a multiplier (Schureman 1958, Table 2a; IHO list, annex B).
type factor struct {
	node  node
	count int
}

// definition is what a constituent's name stands for.
type definition struct {
	args    [6]int // multiples of τ, s, h, p, N′ = −N and p1
	quarter int    // quarter turns added
	factors []factor
}

// primary are the constituents with an argument of their own: extended Doodson numbers as letters
// (A = 1, Z = 0, Y = −1 …, last letter in quarter turns) as in the "Standard List of Tidal
// Constituents" of the IHO Tide, Water Level and Current Working Group (2017), in agreement with
// Schureman 1958, Table 2, for all that stand in both. Node factors are Schureman's; where he has
// none they are those of the IHO list, annex A.
var primary = map[string]own{
	// Long period. SA_KV is the anomalistic year of the Norwegian analyses (IHO list, first Sa):
	// confirmed by 64 pairs of analyses of the same gauges, which differ by 79.5° = −p1.
	// Mtm and MSqm take the factor of Mf, as A. T. Doodson's lines of 1921 have it (from memory);
	// the IHO list gives them Mm's and M2's, a difference of a few millimetres at most.
	"SA": {"ZZAZZZZ", nodeNone}, "SA_KV": {"ZZAZZYZ", nodeNone}, "SSA": {"ZZBZZZZ", nodeNone},
	"STA": {"ZZCZZZZ", nodeNone}, "MSM": {"ZAXAZZZ", nodeMm}, "MM": {"ZAZYZZZ", nodeMm},
	"MF": {"ZBZZZZZ", nodeMf}, "MTM": {"ZCZYZZZ", nodeMf}, "MSQM": {"ZDXZZZZ", nodeMf},
	"MSTM": {"ZCXAZZZ", nodeMf}, "MQM": {"ZDZXZZZ", nodeMf},
	// Diurnal.
	"ALP1": {"AVBAZZY", nodeO1}, // M. Foreman 1977; not in the IHO list
	"2Q1":  {"AWZBZZY", nodeO1}, "SIGMA1": {"AWBZZZY", nodeO1}, "Q1": {"AXZAZZY", nodeO1},
	"RHO1": {"AXBYZZY", nodeO1}, "O1": {"AYZZZZY", nodeO1}, "TAU1": {"AYBZZZA", nodeK1},
	"BET1": {"AZXAZZA", nodeJ1}, "M1": {"AZZAZZA", nodeM1}, "NO1": {"AZZAZZA", nodeNO1},
	"CHI1": {"AZBYZZA", nodeJ1}, "PI1": {"AAWZZAY", nodeNone}, "P1": {"AAXZZZY", nodeNone},
	"S1": {"AAYZZZB", nodeNone}, "S1_KV": {"AAYZZAA", nodeS1Foreman}, "K1": {"AAZZZZA", nodeK1},
	"PSI1": {"AAAZZYA", nodeNone}, "PHI1": {"AABZZZA", nodeJ1}, "THETA1": {"ABXAZZA", nodeJ1},
	"J1": {"ABZYZZA", nodeJ1}, "OO1": {"ACZZZZA", nodeOO1}, "UPS1": {"ADZYZZA", nodeOO1},
	// Semidiurnal. OQ2_KV is M. Foreman's OQ2 (from memory, as its amplitudes are 4 mm at most).
	"OQ2_KV": {"BWZCZZZ", nodeM2}, "EPS2": {"BWBAZZZ", nodeM2}, "2N2": {"BXZBZZZ", nodeM2},
	"MU2": {"BXBZZZZ", nodeM2}, "N2": {"BYZAZZZ", nodeM2}, "NU2": {"BYBYZZZ", nodeM2},
	"GAMMA2": {"BZXBZZB", nodeGamma2}, "ALPHA2": {"BZYZZAB", nodeAlpha2}, "M2": {"BZZZZZZ", nodeM2},
	"LAMBDA2": {"BAXAZZB", nodeM2}, "L2": {"BAZYZZB", nodeL2}, "T2": {"BBWZZAZ", nodeNone},
	"S2": {"BBXZZZZ", nodeNone}, "R2": {"BBYZZYB", nodeNone}, "K2": {"BBZZZZZ", nodeK2},
	"XI2": {"BCXAZZZ", nodeKJ2}, "ETA2": {"BCZYZZZ", nodeKJ2},
	// MA2, MB2, NA2, NB2: the seasons' side lines of M2 and N2 (IHO list, note f).
	// M(KS)2 is another name of the second, counted from the perihelion like alpha2, not the
	// compound that it looks like. Both are confirmed by 60 and 41 pairs of analyses of the same
	// Norwegian gauges under the one and the other name (−102° and −75°; −p1 − 180° and p1).
	"MA2": {"BZYZZZZ", nodeM2}, "MB2": {"BZAZZZZ", nodeM2}, "M(KS)2": {"BZAZZYZ", nodeNone},
	"M(SK)2": {"BZYZZAB", nodeAlpha2}, "NA2": {"BYYAZZZ", nodeM2}, "NB2": {"BYAAZYZ", nodeM2},
	// From the third-degree potential, Doodson 245.555 and 265.555, as TICON-4 has them. The
	// quarter turns are not in the IHO list; they follow from what N2 and L2 lack in TICON's
	// analyses of 40 records of under two years, beside NOAA's of the same gauges (94° and −72°,
	// coherence 0.90 and 0.84). Their nodal modulation is not known here.
	"3N2": {"BYZZZZA", nodeNone}, "3L2": {"BAZZZZY", nodeNone},
	// Third of a day. T3 and R3, the side lines of S3, could not be confirmed: no published
	// argument was at hand, and no gauge has them in two analyses. A quarter turn or two may be
	// missing. They are not used from the built-in station list.
	"M3": {"CZZZZZB", nodeM3}, "S3": {"CCWZZZB", nodeNone},
	"T3": {"CCVZZZZ", nodeNone}, "R3": {"CCXZZZZ", nodeNone},
}

// compounds are those whose names do not spell what they are made of in the plain way.
var compounds = map[string]string{
	"MSF":     "S2-M2", // IHO list, annex B, exceptions
	"M2KS2":   "M2+K2+K2-S2-S2",
	"M2(KS)2": "M2+K2+K2-S2-S2",
	"2MN8":    "M2+M2+N2+N2",
	"2MS8":    "M2+M2+S2+S2",
	"OO2":     "O1+Q1", // so at the one NOAA station that has it, by its speed
}

// aliases are other spellings of one and the same constituent.
var aliases = map[string]string{
	"RHO": "RHO1", "LAM2": "LAMBDA2", "LDA2": "LAMBDA2", "EP2": "EPS2", "EPSILON2": "EPS2",
	"SGM": "SIGMA1", "SIG1": "SIGMA1", "MFM": "MTM", "THE1": "THETA1", "ALPHA1": "ALP1",
	"BETA1": "BET1", "UPSILON1": "UPS1", "MSO": "MSF", "2N4": "N4",
}

// greek writes letters of the Greek alphabet out, as the names above do.
var greek = strings.NewReplacer("Α", "ALPHA", "Β", "BETA", "Γ", "GAMMA", "Δ", "DELTA", "Ε", "EPS",
	"Η", "ETA", "Θ", "THETA", "Λ", "LAMBDA", "Μ", "MU", "Ν", "NU", "Ξ", "XI", "Π", "PI", "Ρ", "RHO",
	"Σ", "SIGMA", "Τ", "TAU", "Υ", "UPS", "Φ", "PHI", "Χ", "CHI", "Ψ", "PSI", " ", "")

// canonical gives the one spelling of a name used here.
func canonical(name string) string {
	n := greek.Replace(strings.ToUpper(strings.TrimSpace(name)))
	if a, ok := aliases[n]; ok {
		return a
	}
	return n
}

// define finds what a name stands for.
func define(name string) (definition, error) {
	n := canonical(name)
	if p, ok := primary[n]; ok {
		return p.definition(), nil
	}
	if sum, ok := compounds[n]; ok {
		return compose(splitSum(sum)), nil
	}
	if parts, ok := spell(n); ok {
		return compose(parts), nil
	}
	return definition{}, fmt.Errorf("constituent %q is not known; known are %s, and compounds of them such as 2MK5",
		name, strings.Join(KnownConstituents(), ", "))
}

// KnownConstituents are the names of the constituents with an argument of their own, in order.
func KnownConstituents() []string {
	var names []string
	for n := range primary {
		names = append(names, n)
	}
	for n := range compounds {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}
