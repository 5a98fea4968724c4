// Package legs holds what the contestants of the benchmark of legs are asked
// and answer. Positions are WGS 84 longitude and latitude in degrees.
package legs

// Task asks about some legs, rhumb lines of at most chart.MaxPieceM. HalfM is
// the half-width of the corridor in metres; 0 asks for the areas that the
// centre lines meet and where they cross their boundaries.
type Task struct {
	HalfM float64      `json:"half_m"`
	Legs  [][4]float64 `json:"legs"` // from longitude, latitude, to longitude, latitude
}

// Answers holds one list a leg. Features are named `CLASS/index`, the index
// being their place in the file of the class.
type Answers struct {
	Ns     int64      `json:"ns"`
	Areas  [][]Area   `json:"areas,omitempty"`
	Things [][]string `json:"things,omitempty"`
}

// Area is a depth area that a leg meets.
type Area struct {
	ID    string       `json:"id"`
	Cross [][2]float64 `json:"cross,omitempty"`
}
