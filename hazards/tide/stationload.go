package tide

import (
	"fmt"
	"strings"
)

// LoadStations reads a station list. Data that is not such a list, or is damaged, is an error that
// names the byte.
func LoadStations(data []byte) (*Stations, error) {
	if !strings.HasPrefix(string(data[:min(len(data), len(stationMagic))]), stationMagic) {
		return nil, fmt.Errorf("station list: does not begin with %s; wanted the file that stationgen makes", stationMagic)
	}
	s := &Stations{}
	r := &reader{data: data, pos: len(stationMagic)}
	for i := range s.tables {
		s.tables[i] = r.strings("string table")
	}
	s.readSets(r)
	s.readHeads(r)
	s.readSubordinates(r)
	s.readReferences(r)
	s.readConstants(r)
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
	s.column(func(h *head) { h.name = r.string("name") })
	s.readIDs(r)
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
	s.readDegrees(r, 180, "longitude", func(h *head) *float64 { return &h.lon })
	s.readDegrees(r, 90, "latitude", func(h *head) *float64 { return &h.lat })
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

// readDegrees reads a column of longitudes or latitudes.
func (s *Stations) readDegrees(r *reader, most int, what string, field func(*head) *float64) {
	limit, at := int(float64(most)/positionUnit), 0
	s.column(func(h *head) {
		if at += r.int(2*limit, what); at > limit || at < -limit {
			r.fail("%s: %d; wanted at most %d either way", what, at, limit)
		}
		*field(h) = round(float64(at)*positionUnit, 5)
	})
}

// readIDs reads the ids, which are sorted and begin with letters of the one before; then may come
// letters of the name.
func (s *Stations) readIDs(r *reader) {
	before, ofName := make([]int, len(s.heads)), make([]int, len(s.heads))
	for _, counts := range [][]int{before, ofName} {
		for i := range counts {
			counts[i] = r.uint(longestString, "shared letters of an id")
		}
	}
	last := ""
	for i := range s.heads {
		h := &s.heads[i]
		name := asInID(h.name)
		if before[i] > len(last) || ofName[i] > len(name) {
			r.fail("an id shares %d letters with one of %d and %d with a name of %d", before[i], len(last), ofName[i], len(name))
			return
		}
		h.id = last[:before[i]] + name[:ofName[i]] + r.string("id")
		if len(h.id) > longestString {
			r.fail("an id of %d letters", len(h.id))
			return
		}
		last = h.id
	}
}

// asInID spells a name as ids do.
func asInID(name string) string { return strings.ReplaceAll(strings.ToLower(name), " ", "_") }

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
	for i := range s.heads {
		if !s.heads[i].subordinate() {
			s.references = append(s.references, &s.heads[i])
		}
	}
	column := func(read func(*head)) {
		for _, h := range s.references {
			read(h)
		}
	}
	column(func(h *head) { h.set = r.uint(len(s.sets), "constituent set") })
	z0 := make([]int, 0, len(s.references))
	column(func(h *head) {
		z0 = append(z0, r.int(highestM/millimetre, "z0"))
		h.z0M = round(float64(z0[len(z0)-1])*millimetre, 3)
	})
	column(func(h *head) { h.levels = r.uint(1<<len(LevelNames), "levels") })
	column(func(h *head) { h.record.Years = r.uint(longestRecord, "years of record") })
	column(func(h *head) {
		h.record.LeftOutM = round(float64(r.uint(highestM/millimetre, "amplitudes left out"))*millimetre, 3)
		if h.record.LeftOutM > 0 {
			h.record.LeftOut = leftOutNames
		}
	})
	for i, h := range s.references {
		if back := r.uint(i+1, "base"); back > 0 {
			h.base = s.references[i-back]
		}
	}
	s.readLevels(r, z0)
}

func (s *Stations) readLevels(r *reader, z0 []int) {
	for bit := range LevelNames {
		for i, h := range s.references {
			if h.levels&(1<<bit) != 0 {
				h.levelsMM = append(h.levelsMM, int32(z0[i]+r.int(2*highestM/millimetre, "level")))
			}
		}
	}
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
