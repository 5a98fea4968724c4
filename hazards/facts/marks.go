package facts

import "keelroom/geo/chart"

// LateralMark is a lateral mark of which something is to be said besides its side.
type LateralMark struct {
	plain
	What string // HandNotCharted, PreferredChannel, CrossingChannel or DirectionNotCharted
	Name string
}

// Code is what is the matter.
func (m LateralMark) Code() string { return m.What }

// LateralWrong is a lateral mark passed on the other side.
type LateralWrong struct {
	plain
	Name   string
	Port   bool // it should be left to port
	Beside Beside
	LeastM float64 // of Shoal water: in tenths, rounded down
}

// Code is what is the matter.
func (LateralWrong) Code() string { return CodeLateralWrong }

// Beside is the water where a mark is passed.
type Beside uint8

// The water where a mark is passed.
const (
	Deep Beside = iota
	Foul
	NotKnown
	Shoal
)

// CardinalMark is a cardinal mark run over or passed on the other side. Side is its
// CATCAM.
type CardinalMark struct {
	plain
	What                string // SideNotCharted, CodeOverCardinal or CodeCardinalWrong
	Name                string
	Side                int
	DistanceM, BearingD float64
}

// Code is what is the matter.
func (m CardinalMark) Code() string { return m.What }

// MarkNotRead is a mark that could not be read.
type MarkNotRead struct {
	plain
	Class chart.Class
	Index int
	File  string
	Info  string
}

// Code is what is the matter.
func (MarkNotRead) Code() string { return CodeMarkNotRead }
