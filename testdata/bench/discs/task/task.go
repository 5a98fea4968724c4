// Package task holds what the contestants of the benchmark of discs are asked and answer.
// Positions are WGS 84 longitude and latitude in degrees.
package task

// Task asks which discs about some places have neither land nor water that may be
// shoaler than NeedM: no land area or islet, and no depth area whose DRVAL1 is less.
type Task struct {
	RadiusM float64      `json:"radius_m"`
	NeedM   float64      `json:"need_m"`
	Places  [][2]float64 `json:"places"`
}

// Answers are in the order of the places.
type Answers struct {
	Ns    int64  `json:"ns"`
	Clear []bool `json:"clear"`
}
