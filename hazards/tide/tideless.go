package tide

import (
	"fmt"
	"time"
)

// Tideless is water without a tide: one level for all time.
type Tideless struct{ levelM float64 }

// NewTideless is the tide that stands at levelM metres above the datum at any time.
func NewTideless(levelM float64) *Tideless { return &Tideless{levelM} }

// HeightM is the level.
func (w *Tideless) HeightM(time.Time) (float64, bool) { return w.levelM, true }

// Events are none.
func (w *Tideless) Events(from, to time.Time) []Event { return nil }

// Least is the level.
func (w *Tideless) Least(from, to time.Time) (float64, bool) { return w.levelM, true }

// Greatest is the level.
func (w *Tideless) Greatest(from, to time.Time) (float64, bool) { return w.levelM, true }

// RangeM is 0.
func (w *Tideless) RangeM(time.Time) (float64, bool) { return 0, true }

// Method is MethodTideless.
func (w *Tideless) Method() Method { return MethodTideless }

// Describe names the level.
func (w *Tideless) Describe() string {
	return fmt.Sprintf("tideless, level %.2f m; wind and pressure can raise or lower it by decimetres", w.levelM)
}

// Covers is unbounded.
func (w *Tideless) Covers() (from, to time.Time, bounded bool) { return firstTime, lastTime, false }
