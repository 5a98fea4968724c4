package tide

import (
	"encoding/binary"
	"fmt"
	"math"
)

// The station list is one file, made by stationgen. All integers are varints, signed ones zigzag:
//
//	"KRTIDES2"
//	string tables, in the order of tableNames: count, then length and bytes of each string
//	constituent sets: count; of each: count, then indices into the table of constituents
//	number of stations n, then columns of n values each, stations in order of their ids:
//	    id (letters shared with the id before, length and bytes of the rest), name (length, bytes),
//	    country, zone, source, licence, attribution, note, datum (indices),
//	    longitude and latitude (1e-5 degrees, signed), kind (0 reference, 1 factors, 2 metres,
//	    +4 where the datum is only estimated)
//	for each subordinate station, in order: index of its reference, minutes at high and low water
//	    (signed), factor in thousandths or metres in millimetres at high and low water (signed)
//	for each reference station, in order: z0 (mm, signed), a bit for each level of LevelNames that
//	    is known, those levels (mm above the station's datum, signed), index of its constituent
//	    set, the length of its harmonic constants, years of the record that its levels rest on (0
//	    where that is not known), and amplitudes of constituents left out, summed (mm, rounded up)
//	the harmonic constants of each reference station, in order: amplitudes in 0.1 mm; then, for
//	    each amplitude that is not 0, the phase in two bytes, little-endian, in hundredths of a
//	    degree where the amplitude is at least fineAmplitude, else in tenths
const stationMagic = "KRTIDES2"

// leftOutNames are the constituents that stationgen leaves out of the analyses of TICON-4: their
// arguments are not published.
const leftOutNames = "T3 and R3, whose arguments are not published"

// Tables of the file.
const (
	tableConstituents = iota
	tableCountries
	tableZones
	tableSources
	tableLicences
	tableAttributions
	tableNotes
	tableDatums
	tableCount
)

// Amplitudes are stored in AmplitudeStepM; from fineAmplitude steps up (0.1 m) phases are finer, so
// that no constituent is off by more than 0.5 mm.
const (
	amplitudeStepM = 1e-4
	fineAmplitude  = 1000
	fineDeg        = 0.01
	coarseDeg      = 0.1
)

// Kinds of station.
const (
	kindReference = iota
	kindFactors
	kindMetres
	kindEstimated = 4 // added to the above
)

// LevelNames are the tidal levels that the list can give for a station, lowest first: S-32's
// lowest astronomical tide, mean low water springs, mean lower low, mean low water, mean sea level,
// mean high, mean higher high water, mean high water springs, highest astronomical tide.
var LevelNames = []string{"LAT", "MLWS", "MLLW", "MLW", "MSL", "MHW", "MHHW", "MHWS", "HAT"}

// Limits of a station file: ten times what it holds.
const (
	mostStations   = 100_000
	mostStrings    = 10_000
	longestString  = 4096
	longestRecord  = 1000
	mostSets       = 5_000
	positionUnit   = 1e-5
	millimetre     = 1e-3
	factorUnit     = 1e-3
	phaseTurnFine  = 36000
	phaseTurnPlain = 3600
)

// reader reads varints and remembers the first failure.
type reader struct {
	data []byte
	pos  int
	err  error
}

func (r *reader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("station list, byte %d: %s", r.pos, fmt.Sprintf(format, args...))
	}
}

// uint reads an unsigned number that must be below limit.
func (r *reader) uint(limit int, what string) int {
	if r.err != nil {
		return 0
	}
	v, n := binary.Uvarint(r.data[r.pos:])
	if n <= 0 {
		r.fail("%s: the file ends or the number is malformed", what)
		return 0
	}
	if v >= uint64(limit) {
		r.fail("%s: %d; wanted less than %d", what, v, limit)
		return 0
	}
	r.pos += n
	return int(v)
}

// int reads a signed number that must be within ±limit.
func (r *reader) int(limit int, what string) int {
	if r.err != nil {
		return 0
	}
	v, n := binary.Varint(r.data[r.pos:])
	if n <= 0 {
		r.fail("%s: the file ends or the number is malformed", what)
		return 0
	}
	if v > int64(limit) || v < -int64(limit) {
		r.fail("%s: %d; wanted at most %d either way", what, v, limit)
		return 0
	}
	r.pos += n
	return int(v)
}

// bytes reads n bytes. The result is part of the data.
func (r *reader) bytes(n int, what string) []byte {
	if r.err != nil {
		return nil
	}
	if n > len(r.data)-r.pos {
		r.fail("%s: %d bytes wanted, %d left", what, n, len(r.data)-r.pos)
		return nil
	}
	r.pos += n
	return r.data[r.pos-n : r.pos]
}

// string reads a length and that many bytes.
func (r *reader) string(what string) string {
	return string(r.bytes(r.uint(longestString, what), what))
}

// strings reads a table of strings.
func (r *reader) strings(what string) []string {
	n := r.uint(mostStrings, what)
	if n > len(r.data)-r.pos {
		r.fail("%s: %d strings do not fit in what is left", what, n)
		return nil
	}
	out := make([]string, n)
	for i := range out {
		out[i] = r.string(what)
	}
	return out
}

// readConstants reads the harmonic constants of one station, for the constituents named by set.
func readConstants(data []byte, set []int, names []string) ([]Constituent, error) {
	r := reader{data: data}
	amplitudes := make([]int, len(set))
	for i := range amplitudes {
		amplitudes[i] = r.uint(highestM/amplitudeStepM, "amplitude")
	}
	var out []Constituent
	for i, a := range amplitudes {
		if a == 0 || r.err != nil {
			continue
		}
		unit, turn := coarseDeg, phaseTurnPlain
		if a >= fineAmplitude {
			unit, turn = fineDeg, phaseTurnFine
		}
		b := r.bytes(2, "phase")
		if r.err != nil {
			break
		}
		phase := int(b[0]) | int(b[1])<<8
		if phase >= turn {
			r.fail("phase: %d; wanted less than %d", phase, turn)
		}
		out = append(out, Constituent{names[set[i]], round(float64(a)*amplitudeStepM, 4), round(float64(phase)*unit, 2)})
	}
	if r.err == nil && r.pos != len(data) {
		r.fail("%d bytes left over after the harmonic constants", len(data)-r.pos)
	}
	return out, r.err
}

// round rounds to digits decimals, so that stored numbers read as they were meant.
func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p) / p
}
