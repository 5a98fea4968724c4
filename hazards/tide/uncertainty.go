package tide

import (
	"cmp"
	"fmt"
	"math"
	"strings"
)

// Record is what is known of harmonic constants besides themselves.
type Record struct {
	Years    int     // of the gauge's record that the levels rest on, 0 where that is not known
	LeftOut  string  // constituents of the analysis that could not be used, by name
	LeftOutM float64 // their amplitudes, summed
}

// mainConstituents are the eight greatest of the tide-generating potential, with their coefficients
// (P. Schureman, Special Publication 98, table 2; from memory), by which the size of one that is
// missing is guessed from one of its species that is there.
var mainConstituents = []struct {
	name    string
	species int // tides a day
	size    float64
}{
	{"M2", 2, 0.9085}, {"S2", 2, 0.4227}, {"N2", 2, 0.1739}, {"K2", 2, 0.1150},
	{"K1", 1, 0.5305}, {"O1", 1, 0.3771}, {"P1", 1, 0.1755}, {"Q1", 1, 0.0722},
}

// wholeRecord years let the 18.6-year turn of the moon's node pass once.
const wholeRecord = 19

// Describe says what it is and how far to trust it, as what is given allows. Within a decimetre is
// common practice, no source, for constants that hold the main constituents.
func (h *Harmonic) Describe() string {
	parts := []string{fmt.Sprintf("harmonic, %s", h.count())}
	missing, usualM, mostM := h.missing()
	switch {
	case len(missing) == len(mainConstituents):
		parts = append(parts, "none of the main constituents is among them: this is no prediction of a tide")
	case len(missing) > 0:
		parts = append(parts, fmt.Sprintf("without %s: by their share in the tide-generating force they move this water by some %s, at times by %s, beside what is predicted",
			strings.Join(missing, ", "), decimetres(usualM), decimetres(mostM)))
	default:
		parts = append(parts, "without weather usually within "+h.usual()+" of the water")
	}
	if h.record.LeftOutM > 0 {
		parts = append(parts, fmt.Sprintf("left out: %s, at most %.0f mm", cmp.Or(h.record.LeftOut, "constituents that could not be used"), math.Ceil(h.record.LeftOutM*1000-1e-6)))
	}
	if y := h.record.Years; y > 0 && y < wholeRecord {
		parts = append(parts, fmt.Sprintf("its levels rest on %s of the gauge's record, less than the %d that the moon's node asks for", counted(y, "year"), wholeRecord))
	}
	return strings.Join(append(parts, "with wind and pressure several decimetres off"), "; ")
}

// usual is how far predictions are usually out, what was left out added.
func (h *Harmonic) usual() string {
	if h.record.LeftOutM < smallM {
		return "a decimetre"
	}
	return fmt.Sprintf("%.2f m", math.Ceil((0.1+h.record.LeftOutM)*100-1e-6)/100)
}

func (h *Harmonic) count() string {
	if len(h.terms) == 1 {
		return "one constituent alone (" + h.terms[0].name + ")"
	}
	return counted(len(h.terms), "constituent")
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// decimetres writes a guess of metres, rounded up.
func decimetres(m float64) string { return fmt.Sprintf("%.1f m", math.Ceil(m*10-1e-9)/10) }

// smallM is the amplitude below which a constituent that is missing is not missed.
const smallM = 0.01

// missing names the main constituents that are not given, and guesses what they move: the root of
// the mean square of their sum, and all of them at once.
func (h *Harmonic) missing() (names []string, usualM, mostM float64) {
	square := 0.0
	for _, c := range mainConstituents {
		unit := unitM(h.given, c.species)
		a := c.size * unit
		if _, ok := h.given[c.name]; ok || unit > 0 && a < smallM {
			continue
		}
		names = append(names, c.name)
		mostM += a
		square += a * a / 2
	}
	return names, math.Sqrt(square), mostM
}

// unitM is what a coefficient of 1 stands for at this place: by the constituents of the species that
// are given, else by the others.
func unitM(given map[string]float64, species int) float64 {
	same, other := 0.0, 0.0
	for _, c := range mainConstituents {
		a, ok := given[c.name]
		switch {
		case ok && c.species == species:
			same = math.Max(same, a/c.size)
		case ok:
			other = math.Max(other, a/c.size)
		}
	}
	if same > 0 {
		return same
	}
	return other
}
