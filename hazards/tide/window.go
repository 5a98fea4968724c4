package tide

import "time"

// Window is a tide whose turning points over a span are worked out once, so that Events, Least,
// Greatest and RangeM inside it cost a binary search, and whose heights, if it is harmonic, come from
// a curve. Outside it asks the tide it stands for.
type Window struct {
	base     Tide
	curve    *curve  // nil: of another kind
	adjustM  float64 // to the heights of the curve
	from, to time.Time
	events   []Event // from a day or more before from to as much after to
	solid    bool    // the whole span is known
}

// windowPad makes the turning points on both sides of every instant of a window known to it, also
// where the tide is diurnal and stands at neaps.
const windowPad = 48 * time.Hour

// NewWindow works out the turning points of t from from to to.
func NewWindow(t Tide, from, to time.Time) *Window {
	from, to = ordered(from, to)
	w := &Window{base: t, from: from, to: to, events: t.Events(from.Add(-windowPad), to.Add(windowPad))}
	_, w.solid = t.Least(from, to) // also false where a secondary port's waters are out of order inside
	if a, ok := t.(adjusted); ok {
		t, w.adjustM = a.base, a.adjustM
	}
	if h, ok := t.(*Harmonic); ok && h.practice == continuous {
		w.curve = newCurve(h, from.Add(-windowPad), to.Add(windowPad))
	}
	return w
}

// holds says whether the closed interval lies inside the window and is known throughout.
func (w *Window) holds(from, to time.Time) bool {
	return w.solid && !from.Before(w.from) && !to.After(w.to)
}

// From is when the window begins.
func (w *Window) From() time.Time { return w.from }

// To is when the window ends.
func (w *Window) To() time.Time { return w.to }

// HeightM is that of the tide, to curveWithinM.
func (w *Window) HeightM(t time.Time) (float64, bool) {
	if w.curve != nil && !outside(t) {
		if h, ok := w.curve.heightM(hours(t)); ok {
			return h + w.adjustM, true
		}
	}
	return w.base.HeightM(t)
}

// Events are those of the tide. The caller must not change them.
func (w *Window) Events(from, to time.Time) []Event {
	from, to = ordered(from, to)
	if !w.holds(from, to) {
		return w.base.Events(from, to)
	}
	return inSpan(w.events, from, to)
}

// Least is that of the tide.
func (w *Window) Least(from, to time.Time) (float64, bool) {
	from, to = ordered(from, to)
	if !w.holds(from, to) {
		return w.base.Least(from, to)
	}
	return extreme(w, from, to, -1)
}

// Greatest is that of the tide.
func (w *Window) Greatest(from, to time.Time) (float64, bool) {
	from, to = ordered(from, to)
	if !w.holds(from, to) {
		return w.base.Greatest(from, to)
	}
	return extreme(w, from, to, +1)
}

// RangeM is that of the tide.
func (w *Window) RangeM(t time.Time) (float64, bool) {
	if w.holds(t, t) {
		if r, ok := rangeAbout(w.events, t); ok {
			return r, true
		}
	}
	return w.base.RangeM(t)
}

// Method is that of the tide.
func (w *Window) Method() Method { return w.base.Method() }

// Describe is that of the tide.
func (w *Window) Describe() string { return w.base.Describe() }

// Covers is that of the tide.
func (w *Window) Covers() (from, to time.Time, bounded bool) { return w.base.Covers() }
