package main

import (
	"bytes"
	"encoding/json"
	"strconv"
)

// The files are written by hand so that their bytes are fixed: one feature
// a line, properties in the order given, 7 decimals.

// pair is one property; props keep their order.
type pair struct {
	key   string
	value any // string, int, float64, bool, []string, []float64, props, []props
}

type props []pair

// feature is one line of a layer file.
type feature struct {
	props props
	geom  geometry
}

// geometry writes itself; the nil geometry of DSID is written as null.
type geometry interface{ write(w *bytes.Buffer) }

type (
	point   spot
	line    []spot
	polygon [][]spot // closed rings, the outer first
	// depths is a MultiPoint whose third ordinate is a depth, positive
	// down, as S-57 soundings come from GDAL.
	depths []sounding
)

type sounding struct {
	at spot
	dm int // decimetres below the sounding datum
}

func (p point) write(w *bytes.Buffer) {
	w.WriteString(`{"type":"Point","coordinates":`)
	writeSpot(w, spot(p))
	w.WriteByte('}')
}

func (l line) write(w *bytes.Buffer) {
	w.WriteString(`{"type":"LineString","coordinates":`)
	writeSpots(w, l)
	w.WriteByte('}')
}

func (p polygon) write(w *bytes.Buffer) {
	w.WriteString(`{"type":"Polygon","coordinates":[`)
	for i, ring := range p {
		if i > 0 {
			w.WriteByte(',')
		}
		writeSpots(w, ring)
	}
	w.WriteString(`]}`)
}

func (d depths) write(w *bytes.Buffer) {
	w.WriteString(`{"type":"MultiPoint","coordinates":[`)
	for i, s := range d {
		if i > 0 {
			w.WriteByte(',')
		}
		w.WriteByte('[')
		writeDegrees(w, s.at.lon)
		w.WriteByte(',')
		writeDegrees(w, s.at.lat)
		w.WriteByte(',')
		w.WriteString(strconv.FormatFloat(float64(s.dm)/10, 'f', 1, 64))
		w.WriteByte(']')
	}
	w.WriteString(`]}`)
}

func writeSpots(w *bytes.Buffer, spots []spot) {
	w.WriteByte('[')
	for i, s := range spots {
		if i > 0 {
			w.WriteByte(',')
		}
		writeSpot(w, s)
	}
	w.WriteByte(']')
}

func writeSpot(w *bytes.Buffer, s spot) {
	w.WriteByte('[')
	writeDegrees(w, s.lon)
	w.WriteByte(',')
	writeDegrees(w, s.lat)
	w.WriteByte(']')
}

// writeDegrees writes 10^-7 degrees as degrees with 7 decimals.
func writeDegrees(w *bytes.Buffer, v int32) {
	if v < 0 {
		w.WriteByte('-')
		v = -v
	}
	digits := strconv.Itoa(int(v) + perDegree)
	w.WriteString(strconv.Itoa(int(v) / perDegree))
	w.WriteByte('.')
	w.WriteString(digits[len(digits)-7:])
}

func (p props) write(w *bytes.Buffer) error {
	w.WriteByte('{')
	for i, kv := range p {
		if i > 0 {
			w.WriteByte(',')
		}
		writeText(w, kv.key)
		w.WriteByte(':')
		if err := writeValue(w, kv.value); err != nil {
			return err
		}
	}
	w.WriteByte('}')
	return nil
}

func writeValue(w *bytes.Buffer, v any) error {
	switch v := v.(type) {
	case string:
		writeText(w, v)
	case float64:
		w.WriteString(strconv.FormatFloat(v, 'f', -1, 64))
	case props:
		return v.write(w)
	case []props:
		return writeList(w, v)
	default:
		b, err := json.Marshal(v)
		if err != nil {
			return err
		}
		w.Write(b)
	}
	return nil
}

func writeList(w *bytes.Buffer, list []props) error {
	w.WriteByte('[')
	for i, p := range list {
		if i > 0 {
			w.WriteByte(',')
		}
		if err := p.write(w); err != nil {
			return err
		}
	}
	w.WriteByte(']')
	return nil
}

func writeText(w *bytes.Buffer, s string) {
	b, err := json.Marshal(s)
	if err != nil {
		b = []byte(`""`) // cannot be: a string always marshals
	}
	w.Write(b)
}

func (f feature) write(w *bytes.Buffer) error {
	w.WriteString(`{"type":"Feature","properties":`)
	if err := f.props.write(w); err != nil {
		return err
	}
	w.WriteString(`,"geometry":`)
	if f.geom == nil {
		w.WriteString("null")
	} else {
		f.geom.write(w)
	}
	w.WriteByte('}')
	return nil
}

// collection returns the bytes of a FeatureCollection with one foreign
// member and, where given, a name.
func collection(name, member string, content props, features []feature) ([]byte, error) {
	var w bytes.Buffer
	w.WriteString("{\n\"type\":\"FeatureCollection\",\n")
	if name != "" {
		w.WriteString(`"name":`)
		writeText(&w, name)
		w.WriteString(",\n")
	}
	writeText(&w, member)
	w.WriteByte(':')
	if err := content.write(&w); err != nil {
		return nil, err
	}
	w.WriteString(",\n\"features\":[")
	for i, f := range features {
		if i > 0 {
			w.WriteByte(',')
		}
		w.WriteByte('\n')
		if err := f.write(&w); err != nil {
			return nil, err
		}
	}
	w.WriteString("\n]\n}\n")
	return w.Bytes(), nil
}
