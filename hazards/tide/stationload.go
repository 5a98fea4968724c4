package tide

import (
	"fmt"
	"strings"
)

// LoadStations reads a station list. It keeps data, which must not be changed afterwards. Data
// that is not such a list, or is damaged, is an error that names the byte.
func LoadStations(data []byte) (*Stations, error) {
	if !strings.HasPrefix(string(data[:min(len(data), len(stationMagic))]), stationMagic) {
		return nil, fmt.Errorf("station list: does not begin with %s; wanted the file that stationgen makes", stationMagic)
	}
	s := &Stations{data: data}
	r := &reader{data: data, pos: len(stationMagic)}
	for i := range s.tables {
		s.tables[i] = r.strings("string table")
	}
	s.readSets(r)
	s.readHeads(r)
	s.readSubordinates(r)
	s.readReferences(r)
	if r.err == nil && r.pos != len(data) {
		r.fail("%d bytes left over", len(data)-r.pos)
	}
	if r.err != nil {
		return nil, r.err
	}
	return s, s.index()
}

func (s *Stations) readSets(r *reader) {
	n := r.uint(mostSets, "number of constituent sets")
	for i := 0; i < n && r.err == nil; i++ {
		set := make([]int, r.uint(mostConstituents, "constituents in a set"))
		for j := range set {
			set[j] = r.uint(len(s.tables[tableConstituents]), "constituent")
		}
		s.sets = append(s.sets, set)
	}
}

// readHeads reads the columns that all stations have.
func (s *Stations) readHeads(r *reader) {
	n := r.uint(mostStations, "number of stations")
	if n > len(r.data)-r.pos {
		r.fail("%d stations do not fit in what is left", n)
	}
	if r.err != nil {
		return
	}
	s.heads = make([]head, n)
	s.readIDs(r)
	s.column(func(h *head) { h.name = r.string("name") })
	index := func(table int, what string, field func(*head) *int) {
		s.column(func(h *head) { *field(h) = r.uint(len(s.tables[table]), what) })
	}
	index(tableCountries, "country", func(h *head) *int { return &h.country })
	index(tableZones, "time zone", func(h *head) *int { return &h.zone })
	index(tableSources, "source", func(h *head) *int { return &h.source })
	index(tableLicences, "licence", func(h *head) *int { return &h.licence })
	index(tableAttributions, "attribution", func(h *head) *int { return &h.attribution })
	index(tableNotes, "note", func(h *head) *int { return &h.note })
	index(tableDatums, "datum", func(h *head) *int { return &h.datum })
	s.column(func(h *head) { h.lon = round(float64(r.int(180/positionUnit, "longitude"))*positionUnit, 5) })
	s.column(func(h *head) { h.lat = round(float64(r.int(90/positionUnit, "latitude"))*positionUnit, 5) })
	s.column(func(h *head) {
		h.kind = r.uint(kindEstimated+kindMetres+1, "kind of station")
		if h.kind&^kindEstimated > kindMetres {
			r.fail("kind of station: %d is not one", h.kind)
		}
	})
}

func (s *Stations) column(read func(*head)) {
	for i := range s.heads {
		read(&s.heads[i])
	}
}

// readIDs reads the ids, which are sorted and begin with letters of the one before.
func (s *Stations) readIDs(r *reader) {
	before := ""
	s.column(func(h *head) {
		shared := r.uint(longestString, "shared letters of an id")
		if shared > len(before) {
			r.fail("an id shares %d letters with one of %d", shared, len(before))
			shared = 0
		}
		h.id = before[:shared] + r.string("id")
		if len(h.id) > longestString {
			r.fail("an id of %d letters", len(h.id))
			h.id = ""
		}
		before = h.id
	})
}

func (s *Stations) readSubordinates(r *reader) {
	s.column(func(h *head) {
		if !h.subordinate() {
			return
		}
		h.reference = r.uint(len(s.heads), "reference")
		if r.err == nil && s.heads[h.reference].subordinate() {
			r.fail("the reference of %s is itself subordinate", h.id)
		}
		h.high.Minutes = float64(r.int(mostMinutes, "minutes at high water"))
		h.low.Minutes = float64(r.int(mostMinutes, "minutes at low water"))
		readHeight(r, h.kind, &h.high)
		readHeight(r, h.kind, &h.low)
	})
}

func readHeight(r *reader, kind int, d *Difference) {
	if kind&^kindEstimated == kindMetres {
		d.Metres = round(float64(r.int(highestM/millimetre, "metres"))*millimetre, 3)
		return
	}
	v := r.int(mostFactor/factorUnit, "factor")
	if v <= 0 {
		r.fail("factor: %d thousandths; wanted more than 0", v)
	}
	d.Factor = round(float64(v)*factorUnit, 3)
}

func (s *Stations) readReferences(r *reader) {
	s.column(func(h *head) {
		if h.subordinate() {
			return
		}
		h.z0M = round(float64(r.int(highestM/millimetre, "z0"))*millimetre, 3)
		h.levels = r.uint(1<<len(LevelNames), "levels")
		for bit := range LevelNames {
			if h.levels&(1<<bit) != 0 {
				h.levelsMM = append(h.levelsMM, int32(r.int(2*highestM/millimetre, "level")))
			}
		}
		h.set = r.uint(len(s.sets), "constituent set")
		h.to = r.uint(1<<16, "length of harmonic constants")
		h.record.Years = r.uint(longestRecord, "years of record")
		h.record.LeftOutM = round(float64(r.uint(highestM/millimetre, "amplitudes left out"))*millimetre, 3)
		if h.record.LeftOutM > 0 {
			h.record.LeftOut = leftOutNames
		}
	})
	s.column(func(h *head) {
		if !h.subordinate() {
			h.from = r.pos
			r.bytes(h.to, "harmonic constants")
			h.to = r.pos
		}
	})
}

// index prepares the look-ups.
func (s *Stations) index() error {
	s.ofID = make(map[string]int, len(s.heads))
	s.folded = make([]string, len(s.heads))
	for i, h := range s.heads {
		key := strings.ToLower(h.id)
		if j, twice := s.ofID[key]; twice {
			return fmt.Errorf("station list: id %q is that of stations %d and %d", h.id, j, i)
		}
		s.ofID[key] = i
		s.folded[i] = fold(h.name)
	}
	return nil
}
