package main

import (
	"encoding/binary"
	"math"
	"strings"

	"keelroom/hazards/tide"
)

// The file's layout is described in hazards/tide/stationformat.go.

const (
	magic         = "KRTIDES3"
	amplitudeUnit = 1e-4
	fullTurn      = 36000 // hundredths of a degree
	estimated     = 4
)

// table numbers strings in the order in which they first come.
type table struct {
	strings []string
	index   map[string]int
}

func (t *table) of(s string) int {
	if i, ok := t.index[s]; ok {
		return i
	}
	if t.index == nil {
		t.index = map[string]int{}
	}
	t.index[s] = len(t.strings)
	t.strings = append(t.strings, s)
	return len(t.strings) - 1
}

// writer appends varints.
type writer struct{ out []byte }

func (w *writer) uint(v int)   { w.out = binary.AppendUvarint(w.out, uint64(v)) }
func (w *writer) int(v int)    { w.out = binary.AppendVarint(w.out, int64(v)) }
func (w *writer) str(s string) { w.uint(len(s)); w.out = append(w.out, s...) }

// change writes how much more than before a value is, and gives the value.
func (w *writer) change(before, value int) int {
	w.int(value - before)
	return value
}

// units is v in whole units.
func units(v, unit float64) int { return int(math.Round(v / unit)) }

// encode writes kept stations, which are in order of their ids.
func encode(kept []station) []byte {
	var tables [8]table
	columns := encodeColumns(kept, &tables)
	sets := &table{}
	references := encodeReferences(kept, &tables[0], sets)
	w := &writer{out: []byte(magic)}
	for _, t := range tables {
		w.uint(len(t.strings))
		for _, s := range t.strings {
			w.str(s)
		}
	}
	w.uint(len(sets.strings))
	for _, set := range sets.strings {
		names := strings.Split(set, " ")
		w.uint(len(names))
		for _, n := range names {
			w.uint(tables[0].of(n))
		}
	}
	w.out = append(w.out, columns...)
	w.out = append(w.out, references...)
	return w.out
}

// encodeColumns writes what all stations have, and the differences of the subordinate ones.
func encodeColumns(kept []station, tables *[8]table) []byte {
	w := &writer{}
	w.uint(len(kept))
	column := func(write func(*station)) {
		for i := range kept {
			write(&kept[i])
		}
	}
	column(func(s *station) { w.str(s.Name) })
	writeIDs(w, kept)
	for i, text := range []func(*station) string{
		func(s *station) string { return s.Country }, func(s *station) string { return s.TimeZone },
		func(s *station) string { return s.Source }, func(s *station) string { return s.Licence },
		func(s *station) string { return s.Attribution }, func(s *station) string { return s.Note },
		func(s *station) string { return s.ChartDatum },
	} {
		column(func(s *station) { w.uint(tables[i+1].of(text(s))) })
	}
	var lon, lat int
	column(func(s *station) { lon = w.change(lon, units(s.Longitude, 1e-5)) })
	column(func(s *station) { lat = w.change(lat, units(s.Latitude, 1e-5)) })
	column(func(s *station) { w.uint(s.code()) })
	index := map[string]int{}
	for i, s := range kept {
		index[s.ID] = i
	}
	column(func(s *station) { s.writeDifferences(w, index) })
	return w.out
}

func writeIDs(w *writer, kept []station) {
	var ofName, rest writer
	before := ""
	for _, s := range kept {
		n := shared(before, s.ID)
		m := shared(strings.ReplaceAll(strings.ToLower(s.Name), " ", "_"), s.ID[n:])
		w.uint(n)
		ofName.uint(m)
		rest.str(s.ID[n+m:])
		before = s.ID
	}
	w.out = append(append(w.out, ofName.out...), rest.out...)
}

func shared(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// code is the kind of station. TICON's datums are worked out from the gauges' records.
func (s *station) code() int {
	code := 0
	if s.Source == ticon {
		code = estimated
	}
	switch {
	case !s.subordinate():
		return code
	case s.Offsets.Height.Type == "ratio":
		return code + 1
	}
	return code + 2
}

func (s *station) writeDifferences(w *writer, index map[string]int) {
	if !s.subordinate() {
		return
	}
	w.uint(index[s.Offsets.Reference])
	w.int(units(s.Offsets.Time.High, 1))
	w.int(units(s.Offsets.Time.Low, 1))
	w.int(units(s.Offsets.Height.High, 1e-3))
	w.int(units(s.Offsets.Height.Low, 1e-3))
}

// encodeReferences writes levels and harmonic constants of the reference stations.
func encodeReferences(kept []station, names, sets *table) []byte {
	refs := references(kept)
	w := &writer{}
	for _, s := range refs {
		var set []string
		for _, c := range s.Constituents {
			names.of(c.Name)
			set = append(set, c.Name)
		}
		w.uint(sets.of(strings.Join(set, " ")))
	}
	column := func(value func(*station) int) {
		for _, s := range refs {
			w.uint(value(s))
		}
	}
	for _, s := range refs {
		w.int(s.aboveDatum("MSL"))
	}
	column((*station).levels)
	column((*station).recordYears)
	column(func(s *station) int { return int(math.Ceil(s.leftOutM*1e3 - 1e-6)) })
	bases := nearest(refs)
	for i, base := range bases {
		w.uint(i - base)
	}
	for _, name := range tide.LevelNames {
		for _, s := range refs {
			if _, known := s.Datums[name]; known {
				w.int(s.aboveDatum(name) - s.aboveDatum("MSL"))
			}
		}
	}
	writeConstants(w, refs, bases, names.strings)
	return w.out
}

func references(kept []station) (refs []*station) {
	for i := range kept {
		if !kept[i].subordinate() {
			refs = append(refs, &kept[i])
		}
	}
	return refs
}

// aboveDatum is a level above the station's datum in millimetres. The database holds levels above
// the gauge's zero as 32-bit numbers, which are first rounded to a millimetre.
func (s *station) aboveDatum(name string) int {
	return units(s.Datums[name], 1e-3) - units(s.Datums[s.ChartDatum], 1e-3)
}

// levels has a bit for each of the levels that is known.
func (s *station) levels() (bits int) {
	for bit, name := range tide.LevelNames {
		if _, known := s.Datums[name]; known {
			bits |= 1 << bit
		}
	}
	return bits
}
