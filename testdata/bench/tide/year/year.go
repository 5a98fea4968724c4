// Package year holds what the contestants of the benchmark of heights of tide
// are asked and answer.
package year

// Task asks for a year of hourly heights: both its first instant, in UTC, and
// the first of the next year are among them.
type Task struct {
	Year int `json:"year"`
}

// Heights are metres above chart datum.
type Heights struct {
	Ns       int64     `json:"ns"`
	HeightsM []float64 `json:"heights_m"`
}
