package tide

import "math"

// stepper gives both derivatives of a segment at evenly spaced times. Each constituent's phasor is
// turned by a constant angle from one time to the next instead of working out its cosine afresh;
// over the few hundred steps of a segment that loses some 1e-13 of the amplitude.
type stepper struct {
	s       *segment
	x       float64 // hours since the segment began
	step    float64
	phasors []phasor
}

type phasor struct{ cos, sin, turnCos, turnSin float64 }

// newStepper starts at x hours since epoch1900.
func newStepper(s *segment, x, step float64) *stepper {
	st := &stepper{s: s, x: x - s.from, step: step, phasors: make([]phasor, len(s.waves))}
	for i, w := range s.waves {
		p := &st.phasors[i]
		p.sin, p.cos = math.Sincos(w.arg + w.argRate*st.x)
		p.turnSin, p.turnCos = math.Sincos(w.argRate * step)
	}
	return st
}

// next gives the derivatives by hours at the present time and moves on.
func (st *stepper) next() (first, second float64) {
	for i := range st.phasors {
		p, w := &st.phasors[i], &st.s.waves[i]
		a := w.amp + w.ampRate*st.x
		first += w.ampRate*p.cos - a*w.argRate*p.sin
		second -= 2*w.ampRate*w.argRate*p.sin + a*w.argRate*w.argRate*p.cos
		p.cos, p.sin = p.cos*p.turnCos-p.sin*p.turnSin, p.sin*p.turnCos+p.cos*p.turnSin
	}
	st.x += st.step
	return first, second
}
