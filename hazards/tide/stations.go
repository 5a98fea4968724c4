package tide

import (
	"fmt"
	"sort"
	"strings"

	"github.com/paulmach/orb"
)

// Stations is a list of tide stations, read from the one file that stationgen makes. It is not
// changed once loaded and may be used by several goroutines.
type Stations struct {
	tables     [tableCount][]string
	sets       [][]int
	heads      []head
	references []*head // those of heads that have constants of their own, in order
	ofID       map[string]int
	folded     []string // names for Search, by station
}

// head is what is kept of a station.
type head struct {
	id, name                                    string
	country, zone, source, licence, attribution int
	note, datum                                 int
	lon, lat                                    float64
	kind                                        int
	reference                                   int // a subordinate station's
	high, low                                   Difference
	z0M                                         float64
	levels                                      int // bits of LevelNames that are in levelsMM
	levelsMM                                    []int32
	set                                         int
	constants                                   []storedConstant // one for each constituent of the set
	base                                        *head            // the reference station that its constants are stored beside
	record                                      Record
}

func (h head) subordinate() bool { return h.kind&^kindEstimated != kindReference }

// StationInfo is what a list of stations shows.
type StationInfo struct {
	ID          string
	Name        string
	Country     string
	Position    orb.Point // longitude, latitude, WGS 84 degrees
	TimeZone    string    // IANA name
	Subordinate bool      // given by differences on another station
	DistanceM   float64   // from the position asked about; 0 where none was
}

// Station is one tide station.
type Station struct {
	StationInfo
	// Datum is the name of the level that heights are above, as the source gives it: MLLW, LAT,
	// LLWLT, NLLW, MLWS, TLT, MSL or CD (a chart datum that the source does not describe).
	Datum string
	// VERDAT is the datum's number in S-57's list of vertical datums, 0 where it has none.
	VERDAT int
	// DatumEstimated says that the datum was worked out from the tide gauge's own record by the
	// makers of the list, not taken from a hydrographic office: the chart's may differ by a few
	// decimetres.
	DatumEstimated bool
	// Reference is the id of the station that a subordinate one is given on.
	Reference string
	// Source, Licence and Attribution say where the constants are from. Attribution must be shown
	// with anything made from them.
	Source, Licence, Attribution string
	// Note is what the source says about the station's quality, or empty.
	Note string
	// Record is what is known of its harmonic constants; a subordinate station has none.
	Record Record

	list  *Stations
	index int
}

// Len is the number of stations.
func (s *Stations) Len() int { return len(s.heads) }

// Attributions are all texts that must be shown with the list, in order.
func (s *Stations) Attributions() []string {
	out := append([]string(nil), s.tables[tableAttributions]...)
	sort.Strings(out)
	return out
}

// Station finds a station by its id, in upper or lower case.
func (s *Stations) Station(id string) (*Station, bool) {
	i, ok := s.ofID[strings.ToLower(id)]
	if !ok {
		return nil, false
	}
	return s.station(i), true
}

func (s *Stations) station(i int) *Station {
	h := &s.heads[i]
	st := &Station{
		StationInfo:    s.info(i),
		Datum:          s.tables[tableDatums][h.datum],
		DatumEstimated: h.kind&kindEstimated != 0,
		Source:         s.tables[tableSources][h.source],
		Licence:        s.tables[tableLicences][h.licence],
		Attribution:    s.tables[tableAttributions][h.attribution],
		Note:           s.tables[tableNotes][h.note],
		Record:         h.record,
		list:           s,
		index:          i,
	}
	st.VERDAT = VERDATOf(st.Datum)
	if h.subordinate() {
		st.Reference = s.heads[h.reference].id
	}
	return st
}

func (s *Stations) info(i int) StationInfo {
	h := &s.heads[i]
	return StationInfo{
		ID: h.id, Name: h.name, Country: s.tables[tableCountries][h.country],
		Position: orb.Point{h.lon, h.lat}, TimeZone: s.tables[tableZones][h.zone],
		Subordinate: h.subordinate(),
	}
}

// Constituents are the station's harmonic constants and z0, mean sea level above its datum in
// metres. A subordinate station has none of its own: ok is false.
func (st *Station) Constituents() (z0M float64, cs []Constituent, ok bool) {
	h := &st.list.heads[st.index]
	if h.subordinate() {
		return 0, nil, false
	}
	return h.z0M, st.list.constants(h), true
}

// constants are a reference station's, without those that are too small to be stored.
func (s *Stations) constants(h *head) []Constituent {
	var out []Constituent
	for i, c := range h.constants {
		if c.amplitude != 0 {
			out = append(out, c.of(s.tables[tableConstituents][s.sets[h.set][i]]))
		}
	}
	return out
}

// Tide is the station's tide above its datum: harmonic, or a secondary port on its reference.
func (st *Station) Tide() (Tide, error) {
	h := &st.list.heads[st.index]
	if !h.subordinate() {
		return st.list.harmonic(st.index)
	}
	ref, err := st.list.harmonic(h.reference)
	if err != nil {
		return nil, err
	}
	sec, err := NewSecondary(ref, h.high, h.low)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", h.id, err)
	}
	return sec, nil
}

func (s *Stations) harmonic(i int) (*Harmonic, error) {
	t, err := NewHarmonic(s.heads[i].z0M, s.constants(&s.heads[i]))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.heads[i].id, err)
	}
	t.record = s.heads[i].record
	return t, nil
}

// Differences are those of a subordinate station on its reference.
func (st *Station) Differences() (high, low Difference, ok bool) {
	h := &st.list.heads[st.index]
	return h.high, h.low, h.subordinate()
}
