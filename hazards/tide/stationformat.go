package tide

import (
	"encoding/binary"
	"fmt"
	"math"
)

// The station list is one file, made by stationgen. All integers are varints, signed ones zigzag:
//
//	"KRTIDES3"
//	string tables, in the order of tableNames: count, then length and bytes of each string
//	constituent sets: count; of each: count, then indices into the table of constituents
//	number of stations n, then columns of n values each, stations in order of their ids:
//	    name (length, bytes), id in three columns (letters shared with the id before, then letters
//	    shared with the name as an id spells it, then length and bytes of the rest), country, zone,
//	    source, licence, attribution, note, datum (indices), longitude and latitude (1e-5 degrees
//	    more than the station before, signed), kind (0 reference, 1 factors, 2 metres, +4 where the
//	    datum is only estimated)
//	for each subordinate station, in order: index of its reference, minutes at high and low water
//	    (signed), factor in thousandths or metres in millimetres at high and low water (signed)
//	columns of the reference stations: index of the constituent set, z0 (mm, signed), a bit for
//	    each level of LevelNames that is known, years of the record that its levels rest on (0 where
//	    that is not known), amplitudes of constituents left out, summed (mm, rounded up), how many
//	    reference stations before it its base is (0: none)
//	for each level, a column of those that are known (mm above z0, signed)
//	the harmonic constants, as stationconstants.go says
//
// Columns, and differences from what is alike, make the packed file small.
const stationMagic = "KRTIDES3"

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
	mostStations  = 100_000
	mostStrings   = 10_000
	longestString = 4096
	longestRecord = 1000
	mostSets      = 5_000
	positionUnit  = 1e-5
	millimetre    = 1e-3
	factorUnit    = 1e-3
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

// round rounds to digits decimals, so that stored numbers read as they were meant.
func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p) / p
}
