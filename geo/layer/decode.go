package layer

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/geojson"
)

// File is one file of a layer set. Data is not changed and not kept.
type File struct {
	Name string
	Data []byte
}

// The limits of a layer set, all its files together (layer profile section 1).
const (
	MaxBytes     = 64 << 20
	MaxFeatures  = 250_000
	MaxPositions = 5_000_000
)

type limits struct{ bytes, features, positions int }

var profileLimits = limits{MaxBytes, MaxFeatures, MaxPositions}

// Decode reads the files of one layer set, in byte order of their names. After
// a file-level error the set is nil and the messages hold at least one of level
// chart.FileError; else the set holds the same messages. It never panics on
// what a file holds. The set is not indexed: give it to package chart.
func Decode(files []File) (*chart.Set, []chart.Message) { return decode(files, profileLimits) }

// DecodeWith is Decode that calls between after every feature and file, for a
// program that has to do something else from time to time meanwhile.
func DecodeWith(files []File, between func()) (*chart.Set, []chart.Message) {
	return decodeWith(files, profileLimits, between)
}

func decode(files []File, lim limits) (*chart.Set, []chart.Message) {
	return decodeWith(files, lim, func() {})
}

func decodeWith(files []File, lim limits, between func()) (*chart.Set, []chart.Message) {
	files = slices.Clone(files)
	slices.SortStableFunc(files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	set, messages, err := decodeOnce(files, lim, between, false)
	if errors.Is(err, errLate) {
		set, messages, _ = decodeOnce(files, lim, between, true)
	}
	if set != nil {
		set.SHA256 = hashOf(files, between)
		if set.Title == "" && len(files) == 1 {
			set.Title = baseName(files[0].Name)
		}
	}
	return set, messages
}

// errLate says that a collection has members after its features that say how
// to read them. Such a file is read again, those members first. They are rare,
// and so the others need not be scanned twice.
var errLate = errors.New("members after the features")

func decodeOnce(files []File, lim limits, between func(), postpone bool) (*chart.Set, []chart.Message, error) {
	b := new(Builder)
	size, features := 0, 0
	for _, f := range files {
		size += len(f.Data)
		features += countFeatures(f.Data)
	}
	if len(files) == 0 {
		b.Log.Add(chart.Message{Level: chart.FileError, Code: "E-JSON", Found: "no file", Wanted: "a GeoJSON file"})
	} else if size > lim.bytes {
		b.Log.Add(chart.Message{
			Level: chart.FileError, Code: "E-SIZE", File: baseName(files[0].Name),
			Found: fmt.Sprintf("%d bytes", size), Wanted: fmt.Sprintf("%d or fewer in all files of a set", lim.bytes),
		})
	}
	if b.Log.Fatal() {
		return nil, b.Log.Messages(), nil
	}
	b.Reserve(min(features, lim.features))
	for _, f := range files {
		d := newDecoder(b, f, &lim)
		d.postpone, d.between = postpone, between
		if err := d.file(); errors.Is(err, errLate) {
			return nil, nil, err
		}
	}
	set := b.Set()
	return set, b.Log.Messages(), nil
}

// countFeatures estimates the features of a file from its start: room for a few
// too many or too few costs less than a look at all of it.
func countFeatures(data []byte) int {
	start := data[:min(len(data), 1<<18)]
	n := bytes.Count(start, []byte(`"geometry"`))
	return n * (len(data) >> 8) / max(len(start)>>8, 1)
}

func hashOf(files []File, between func()) string {
	h := sha256.New()
	for _, f := range files {
		for part := range slices.Chunk(f.Data, hashedAtOnce) {
			h.Write(part)
			between()
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// hashedAtOnce is how many bytes are hashed without a rest: a few milliseconds.
const hashedAtOnce = 1 << 18

// decoder reads one file into a Builder.
type decoder struct {
	in       *geojson.Reader
	b        *Builder
	left     *limits // what the set may still hold
	from     origin
	postpone bool   // read the features after all other members
	between  func() // see DecodeWith
	private  bool   // features travelling with a plan

	header    fileHeader
	docType   string
	seen      bool // the features were read
	marks     map[string]geojson.Mark
	names     map[string]meaning // of the property names met
	bathy     bathymetry
	fileClass chart.Class

	feature  rawFeature
	object   Object
	shape    geojson.Geometry
	coords   []chart.Coord
	ends     []int32
	polygons []int32
}

func newDecoder(b *Builder, f File, left *limits) *decoder {
	d := &decoder{
		in: geojson.NewReader(f.Data), b: b, left: left,
		from: origin{file: baseName(f.Name)}, between: func() {}, names: make(map[string]meaning), marks: make(map[string]geojson.Mark),
	}
	d.fileClass, _ = fileClass(f.Name)
	d.feature.from = &d.from
	d.bathy = bathymetry{feature: &d.feature, object: &d.object, header: &d.header, from: &d.from}
	d.object.Where = d.feature.where
	d.in.LimitPositions(max(left.positions, 1))
	return d
}

// origin is where a document comes from, as messages show it.
type origin struct {
	file string
	root string // path of the document in a larger one, "" for a file
}

// abort ends the reading of a file with a file-level message.
type abort struct{ chart.Message }

func (a *abort) Error() string { return a.String() }

// refuse is the error that refuses the file.
func (o *origin) refuse(code, path, found, wanted string) error {
	return &abort{chart.Message{
		Level: chart.FileError, Code: code, File: o.file, Path: o.join(path), Found: found, Wanted: wanted,
	}}
}

// join is a path of the document within the larger one.
func (o *origin) join(path string) string {
	if o.root != "" && path != "" && path[0] != '[' {
		return o.root + "." + path
	}
	return o.root + path
}

// file reads the file and logs what was wrong with it as a whole. The error is
// errLate or nil.
func (d *decoder) file() error {
	err := d.document()
	switch {
	case errors.Is(err, errLate):
		return err
	case err != nil:
		d.b.Log.Add(d.messageOf(err))
	}
	d.left.positions -= d.in.PositionCount()
	if d.left.positions < 0 && err == nil {
		d.b.Log.Add(d.messageOf(d.from.refuse("E-SIZE", "", "too many positions", fmt.Sprintf("%d or fewer in all files of a set", MaxPositions))))
	}
	return nil
}

// messageOf turns an error of the reader into a message.
func (d *decoder) messageOf(err error) chart.Message {
	var stop *abort
	if errors.As(err, &stop) {
		return stop.Message
	}
	code, place, text := "E-JSON", geojson.Place{}, err.Error()
	var syntax *geojson.SyntaxError
	var limit *geojson.LimitError
	var value *geojson.ValueError
	switch {
	case errors.As(err, &syntax):
		place, text = syntax.Place, fmt.Sprintf("line %d, column %d: %s", syntax.Line, syntax.Column, syntax.Msg)
	case errors.As(err, &limit):
		code, place, text = "E-SIZE", limit.Place, limit.Msg
		if d.in.PositionCount() >= d.left.positions {
			text = fmt.Sprintf("too many positions; %d or fewer in all files of a set", MaxPositions)
		}
	case errors.As(err, &value):
		place, text = value.Place, value.Msg
	}
	found, wanted := splitText(text)
	return chart.Message{
		Level: chart.FileError, Code: code, File: d.from.file, Path: d.from.join(place.Path), Found: found, Wanted: wanted,
	}
}

// splitText parts a text of the reader, `found; wanted`.
func splitText(text string) (found, wanted string) {
	found, wanted, _ = strings.Cut(text, "; ")
	return found, wanted
}
