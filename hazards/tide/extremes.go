package tide

import (
	"math"
	"time"
)

// Turning points are the zeros of the height's derivative. The span is cut into cells of an hour.
// In each, the first two derivatives at its middle and the bound Σ Aω³ on the third prove either
// that the first has no zero there or that it is monotonic, hence has one at most; a cell for which
// neither can be proved is halved. So none is missed, whatever the constituents, except pairs between
// which the water moves less than stillM.
const (
	cellHours = 1.0
	stillM    = 1e-7
	// rootHours is how near a turning point is found, 4 ms: at its flat top the height is exact.
	rootHours = 1e-6
)

// scan walks a span and collects turning points.
type scan struct {
	events []Event
	slope  float64 // sign of the derivative so far: −1, 0 (none yet), +1
}

// Events are the high and low waters from from to to, within 1900 to 2099.
func (h *Harmonic) Events(from, to time.Time) []Event {
	from, to = ordered(from, to)
	if len(h.terms) == 0 || to.Before(firstTime) || !from.Before(lastTime) {
		return nil
	}
	from, to = clamp(from), clamp(to)
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
	case math.Abs(first) > (math.Abs(second)+s.bound3*half/2)*half:
		sc.reach(s, a, sign(first))
	case math.Abs(second) > s.bound3*half || s.still(b-a, first, second):
		sc.monotonic(s, a, b, first, second)
	default:
		mid := a + half
		for _, c := range [][2]float64{{a, mid}, {mid, b}} {
			f, g := s.slopes((c[0] + c[1]) / 2)
			sc.cell(s, c[0], c[1], f, g)
		}
	}
}

// still says whether the water moves less than stillM in a cell of that width.
func (s *segment) still(width, first, second float64) bool {
	return (math.Abs(first)+(math.Abs(second)/2+s.bound3*width/6)*width)*width < stillM
}

// monotonic handles a cell in which the derivative only rises (second above 0) or only falls, and
// is first at the middle: on one side of the middle its sign is then known, at the other end it is
// worked out.
func (sc *scan) monotonic(s *segment, a, b, first, second float64) {
	mid := (a + b) / 2
	guess := mid - first/second
	if sign(first) == sign(second) { // the zero, if any, lies before the middle
		atA, _ := s.slopes(a)
		sc.reach(s, a, sign(atA))
		if sign(atA)*sign(first) < 0 {
			sc.turn(s, zero(s, a, mid, guess, sign(atA)), sign(first))
		}
		return
	}
	sc.reach(s, a, -sign(second))
	atB, _ := s.slopes(b)
	if sign(atB) == sign(second) && atB != 0 {
		sc.turn(s, zero(s, mid, b, guess, -sign(second)), sign(atB))
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

// zero finds where the derivative is zero between a and b, where it has the sign before at a and
// the other one at b: Newton steps from x, kept inside the bracket by halving it. A step d leaves
// an error of no more than d²·Σ Aω³ / 2|h″|, and ends the search when that is below rootHours.
func zero(s *segment, a, b, x, before float64) float64 {
	if !(x > a && x < b) {
		x = (a + b) / 2
	}
	for i := 0; i < 60 && b-a > rootHours; i++ {
		first, second := s.slopes(x)
		if first == 0 {
			return x
		}
		if sign(first) == before {
			a = x
		} else {
			b = x
		}
		d := first / second
		if next := x - d; !(next > a && next < b) {
			x = (a + b) / 2
		} else if x = next; d*d*s.bound3 < 2*math.Abs(second)*rootHours {
			return x
		}
	}
	return x
}
