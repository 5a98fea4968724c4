package chart

import (
	"math"

	"github.com/paulmach/orb"
)

// Unknown is the value of a depth or clearance that the chart does not state.
// Test with Known: an Unknown compares false with everything.
var Unknown = math.NaN()

// Known reports whether the chart states the value.
func Known(v float64) bool { return !math.IsNaN(v) }

// Coord is a position in 1e-7 degrees.
type Coord struct{ Lon, Lat int32 }

const e7 = 1e-7

// CoordOf rounds a position to 1e-7 degrees. The position is taken as valid.
func CoordOf(p orb.Point) Coord {
	return Coord{int32(math.Round(p[0] / e7)), int32(math.Round(p[1] / e7))}
}

// Position in degrees.
func (c Coord) Position() orb.Point { return orb.Point{float64(c.Lon) * e7, float64(c.Lat) * e7} }

// wrapped brings a longitude beyond ±180° to the other side.
func (c Coord) wrapped() Coord {
	const half = 1_800_000_000
	switch lon := int64(c.Lon); {
	case lon > half:
		c.Lon = int32(lon - 2*half)
	case lon < -half:
		c.Lon = int32(lon + 2*half)
	}
	return c
}

// Geometry is a feature's shape: vertices part after part. A point feature has
// one or many vertices and no Ends; a line has one part a string; an area has
// one part a ring, outer and inner alike (rings follow each other in any order
// and direction: inside is decided even-odd), the closing vertex included.
type Geometry struct {
	Prim   Prim
	Coords []Coord
	Ends   []int32 // index after the last vertex of each part
	// Polygons gives, for an area of several polygons, the index in Ends after
	// the last ring of each, whose first ring is its outer one; nil is one
	// polygon. Only drawing needs it.
	Polygons []int32
	// Border lists runs of a line or a ring that lie on the limit of the data or
	// are masked (S-57 USAG 3, MASK 1): pairs of indices in Coords, the first and
	// the last vertex of a run. An area is filled up to there; the run is not
	// drawn, and is no shore. nil where the source does not tell.
	Border []int32
	// DepthsM holds a sounding's depth for each vertex, metres positive down;
	// nil for every other class.
	DepthsM []float64
}

// Parts calls fn for each line or ring.
func (g *Geometry) Parts(fn func(part []Coord)) {
	start := int32(0)
	for _, end := range g.Ends {
		fn(g.Coords[start:end])
		start = end
	}
}

// Feature is one object of a chart. Pointers are nil where the class has no
// use for the group.
type Feature struct {
	Class Class
	Geometry
	Index int    // its place in the file: features[Index]
	File  string // name of the file it came from, without folders
	Key   string // LNAM, or the GeoJSON id; may be empty or shared
	Name  string // text only
	Info  string // text only

	// DRVAL1 or VALDCO or VALSOU, and DRVAL2; metres, Unknown if not stated.
	DepthMinM, DepthMaxM float64
	// Datum is the VERDAT of the depths above, 0 unknown; filled in from the
	// feature, M_SDAT or the set by New.
	Datum int
	// Doubtful depths carry a QUASOU that says so.
	Doubtful bool
	ScaMin   int // do not draw below this scale denominator; 0 always

	Danger   *Danger
	Rules    *Rules
	Overhead *Overhead
	Mark     *Mark
	Meta     *Meta
	NatSur   Codes // nature of the surface (NATSUR)
	CatMor   int   // kind of a mooring structure (MORFAC), 0 not stated
	Light    *Light

	Set *Set // the layer set it belongs to, filled in by New

	leftOut Class // of a stand-in for a refused feature: what that was
}

// Danger holds what a rock, wreck or obstruction says besides its depth
// (VALSOU is Feature.DepthMinM). 0 means not stated.
type Danger struct {
	WatLev, CatObs, CatWrk, ExpSou int
}

// Light holds the character of a light. What is not stated, or cannot be read, is
// zero: a light only helps to find one's way by eye.
type Light struct {
	Character int    // LITCHR
	Group     string // SIGGRP, such as (2)
	PeriodS   float64
	Colours   []int // COLOUR
}

// Rules holds restrictions and speed limits of an area.
type Rules struct {
	Restrn, CatRea Codes
	SpeedZone      bool
	Limits         []SpeedLimit // empty in a speed zone: limit not stated
	Season         Season
}

// SpeedLimit is one limit, with the class of vessels it holds for if any.
type SpeedLimit struct {
	Kn          float64
	VesselClass string
}

// Overhead holds the clearances of a bridge, cable, pipe or conveyor in
// metres, Unknown if not stated, and the height datum (VERDAT) if it has its
// own, else 0.
type Overhead struct {
	VerClrM, VerCclM, VerCsaM, HorClrM float64
	Opening                            bool // an opening bridge (CATBRG 2-5, 7, 8)
	Fixed                              bool // a bridge that is stated not to open (CATBRG 1)
	HeightDatum                        int
}

// Mark holds what a buoy or beacon says.
type Mark struct {
	CatLam, CatCam int
	Colours        []int // COLOUR in the chart's order
	Shape          int   // BOYSHP or BCNSHP
}

// MooringBuoy is the one CATMOR that floats (IHO S-57 App. A, attribute 40).
const MooringBuoy = 7

// Afloat reports whether the feature is a buoy or a light that swings to a mooring:
// what is near it may move, and gives way a little.
func (f *Feature) Afloat() bool {
	switch k := f.Class; k {
	case BOYINB, LITFLT, LITVES:
		return true
	case MORFAC:
		return f.CatMor == MooringBuoy
	default:
		return k.Mark() && !k.Beacon()
	}
}

// Meta holds what a metadata area says; 0 is not stated.
type Meta struct {
	CatCov    int
	CatZoc    int
	VerDat    int
	MarSys    int
	OrientDeg float64 // Unknown if not stated
}

// Message is one finding about a layer file: a code of the layer profile, the
// place, what was found there and what is wanted.
type Message struct {
	Level         Level
	Code          string
	File, Path    string
	Found, Wanted string
	// More is how many further messages of one code and cause this one stands for, 0
	// for one of its own.
	More int
}

// Level of a message: what it does to the data.
type Level uint8

// The levels: a warning loads the data as stated, a feature error leaves one
// feature out, a file error leaves the whole set out.
const (
	Warning Level = iota
	FeatureError
	FileError
)

// String names the level.
func (l Level) String() string {
	return [...]string{"warning", "feature", "file"}[l]
}

// String writes the message as `CODE path: found; wanted`, with the file first
// where it is known.
func (m Message) String() string {
	place := m.Path
	if m.File != "" {
		place = m.File + " " + place
	}
	return m.Code + " " + place + ": " + m.Found + "; " + m.Wanted
}

// Refused marks a feature that was left out though a check would need it: the
// box counts as unknown. A box that is empty covers the whole set.
type Refused struct {
	Class    Class
	File     string
	Index    int
	Min, Max Coord
	Boxless  bool
	Code     string
}

// Authority says who stands behind a layer set.
type Authority uint8

// The authorities. A private set may add danger, never take it away.
const (
	Private Authority = iota
	Derived
	Official
)

// String is the word the layer profile uses.
func (a Authority) String() string {
	return [...]string{"private", "derived", "official"}[a]
}

// Set is one layer set: the files of one chart, or what a skipper drew.
type Set struct {
	Title, Source, Licence, Edition, IssueDate string

	Authority Authority
	// FromCell: it was read from the files of its producer themselves, which nothing
	// was left out of on the way. Beside other sets it counts like an official one.
	FromCell      bool
	Scale         int // denominator of the compilation scale, 0 unknown
	SoundingDatum int // VERDAT of depths, 0 unknown
	HeightDatum   int // VERDAT of heights, 0 unknown
	// OffDatum is true where positions may be 100 m out (HDAT is not WGS 84).
	OffDatum bool
	SHA256   string // of the files in byte order of their names
	// Cancelled names what its producer cancelled it with, "" for a chart in force.
	// A cancelled one has the Authority of a private layer.
	Cancelled string

	Features []Feature
	Refused  []Refused
	Messages []Message // first 20 of each code, then a count
}
