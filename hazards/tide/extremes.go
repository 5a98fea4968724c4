package tide

import (
	"math"
	"time"
)

// Turning points are the zeros of the height's derivative. The span is cut into cells of an hour.
// In each, Taylor bounds from the sums Σ Aω² and Σ Aω³ prove either that the derivative has no
// zero there or that it is monotonic, hence has one at most; a cell for which neither can be
// proved is halved. So none is missed, whatever the constituents, except a pair less than
// finestHours apart, between which the water moves less than a micrometre.
const (
	cellHours   = 1.0
	finestHours = 1.0 / 3600
	// rootHours is how near a turning point is found: at its flat top the height is then exact.
	rootHours = 1e-7
)

// scan walks a span and collects turning points.
type scan struct {
	events []Event
	slope  float64 // sign of the derivative so far: −1, 0 (none yet), +1
}

// Events are the high and low waters from from to to, within 1900 to 2099.
func (h *Harmonic) Events(from, to time.Time) []Event {
	from, to = ordered(from, to)
	if from.Before(firstTime) {
		from = firstTime
	}
	if !to.Before(lastTime) {
		to = lastTime.Add(-time.Nanosecond)
	}
	if to.Before(from) {
		return nil
	}
	var sc scan
	end := hours(to)
	for x := hours(from); x <= end; {
		s := h.segmentAt(x)
		stop := math.Min(end, s.to)
		sc.segment(s, x, stop)
		if stop == end {
			break
		}
		x = stop
	}
	return inSpan(sc.events, from, to)
}

// segment walks the part of s from a to b.
func (sc *scan) segment(s *segment, a, b float64) {
	cells := int(math.Ceil((b - a) / cellHours))
	if cells < 1 {
		cells = 1
	}
	width := (b - a) / float64(cells)
	st := newStepper(s, a+width/2, width)
	for i := 0; i < cells; i++ {
		from := a + float64(i)*width
		first, second := st.next()
		sc.cell(s, from, from+width, first, second)
	}
}

// cell looks for turning points between a and b, given both derivatives at the middle.
func (sc *scan) cell(s *segment, a, b, first, second float64) {
	half := (b - a) / 2
	switch {
	case math.Abs(first) > s.bound[2]*half:
		sc.reach(s, a, math.Copysign(1, first))
	case math.Abs(second) > s.bound[3]*half || b-a < finestHours:
		sc.monotonic(s, a, b)
	default:
		mid := a + half
		for _, c := range [][2]float64{{a, mid}, {mid, b}} {
			f, g := s.slopes((c[0] + c[1]) / 2)
			sc.cell(s, c[0], c[1], f, g)
		}
	}
}

// monotonic handles a cell in which the derivative only rises or only falls.
func (sc *scan) monotonic(s *segment, a, b float64) {
	atA, _ := s.slopes(a)
	atB, _ := s.slopes(b)
	sc.reach(s, a, sign(atA))
	if sign(atA)*sign(atB) < 0 {
		x := zero(s, a, b, atA)
		sc.turn(s, x, sign(atB))
	}
}

// reach notes the derivative's sign at x. Where it differs from the one before, the water turned
// at x itself: on the seam of two segments, whose slopes differ in the ninth digit.
func (sc *scan) reach(s *segment, x, slope float64) {
	if slope != 0 && sc.slope != 0 && slope != sc.slope {
		sc.turn(s, x, slope)
		return
	}
	if slope != 0 {
		sc.slope = slope
	}
}

// turn adds a turning point at x, after which the derivative has the sign slope.
func (sc *scan) turn(s *segment, x, slope float64) {
	sc.events = append(sc.events, Event{Time: atHour(x), High: slope < 0, HeightM: s.height(x)})
	sc.slope = slope
}

func sign(v float64) float64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// zero finds where the derivative, which is atA at a and of the other sign at b, is zero: Newton
// steps, kept inside the bracket by halving it.
func zero(s *segment, a, b, atA float64) float64 {
	x := (a + b) / 2
	for i := 0; i < 60 && b-a > rootHours; i++ {
		first, second := s.slopes(x)
		if first == 0 {
			return x
		}
		if sign(first) == sign(atA) {
			a = x
		} else {
			b = x
		}
		next := x - first/second
		if !(next > a && next < b) {
			next = (a + b) / 2
		}
		if math.Abs(next-x) < rootHours {
			return next
		}
		x = next
	}
	return x
}
