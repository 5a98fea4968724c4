package tide

import (
	"fmt"
	"math"
	"time"
)

// Difference is what a tide table gives for a secondary port: minutes added to the time of the
// reference port's high (or low) water, and either metres added to its height or a factor by which
// it is multiplied. A factor of 0 stands for none.
type Difference struct {
	Minutes float64
	Metres  float64
	Factor  float64
}

// Bounds of what a difference can sensibly be.
const (
	mostMinutes = 24 * 60
	mostFactor  = 20
)

// Secondary is a port given by differences on another, its reference.
//
// Its high and low waters are the reference's with the differences applied, and are joined by half
// cosines. Where differences bring the waters out of order (a low water not after the high water
// before it), where a high water comes out no higher than the low water beside it, or where the
// reference is unknown, the height is unknown.
type Secondary struct {
	ref       Tide
	high, low Difference
}

// NewSecondary makes the port with the differences high and low on ref. Minutes are within a day,
// metres within 20 m, a factor is not negative, and only one of metres and factor is given.
func NewSecondary(ref Tide, high, low Difference) (*Secondary, error) {
	if ref == nil {
		return nil, fmt.Errorf("reference: none given; a secondary port needs one")
	}
	for _, d := range []struct {
		name string
		Difference
	}{{"high", high}, {"low", low}} {
		if err := d.check(d.name); err != nil {
			return nil, err
		}
	}
	return &Secondary{ref, high, low}, nil
}

func (d Difference) check(name string) error {
	switch {
	case math.IsNaN(d.Minutes) || math.Abs(d.Minutes) > mostMinutes:
		return fmt.Errorf("%s.minutes: %g; wanted minutes within a day", name, d.Minutes)
	case math.IsNaN(d.Metres) || math.Abs(d.Metres) > highestM:
		return fmt.Errorf("%s.metres: %g; wanted metres between %d and %d", name, d.Metres, lowestM, highestM)
	case math.IsNaN(d.Factor) || d.Factor < 0 || d.Factor > mostFactor:
		return fmt.Errorf("%s.factor: %g; wanted a number above 0 and at most %d, or none", name, d.Factor, mostFactor)
	case d.Factor != 0 && d.Metres != 0:
		return fmt.Errorf("%s: both metres (%g) and factor (%g) given; wanted one of them", name, d.Metres, d.Factor)
	}
	return nil
}

// apply moves one water of the reference to the secondary port.
func (s *Secondary) apply(e Event) Event {
	d := s.low
	if e.High {
		d = s.high
	}
	if d.Factor != 0 {
		e.HeightM *= d.Factor
	}
	e.HeightM += d.Metres
	e.Time = e.Time.Add(time.Duration(d.Minutes * float64(time.Minute)))
	return e
}

// reach is how far from an instant the reference is looked at: the largest shift, plus a day and a
// half so that a water is found on both sides also where the tide is diurnal.
func (s *Secondary) reach() time.Duration {
	shift := max(math.Abs(s.high.Minutes), math.Abs(s.low.Minutes))
	return 36*time.Hour + time.Duration(shift*float64(time.Minute))
}

// waters are the port's waters about the interval from from to to, in the reference's order: at
// least one before and one after, where known.
func (s *Secondary) waters(from, to time.Time) []Event {
	ref := s.ref.Events(from.Add(-s.reach()), to.Add(s.reach()))
	out := make([]Event, len(ref))
	for i, e := range ref {
		out[i] = s.apply(e)
	}
	return out
}

// sound says whether the water at b may follow the one at a: later, of the other kind, and on the
// right side of it.
func sound(a, b Event) bool {
	return b.Time.After(a.Time) && a.High != b.High && (a.HeightM > b.HeightM) == a.High && a.HeightM != b.HeightM
}

// around gives the two waters that t lies between. ok is false where there is no such pair, or
// more than one because the differences cross.
func around(waters []Event, t time.Time) (a, b Event, ok bool) {
	found := 0
	for i := 0; i+1 < len(waters); i++ {
		p, q := waters[i], waters[i+1]
		if t.Before(earlier(p, q)) || t.After(later(p, q)) {
			continue
		}
		if !sound(p, q) {
			return Event{}, Event{}, false
		}
		if t.Equal(q.Time) && i+2 < len(waters) && sound(q, waters[i+2]) {
			continue // the pair that begins here says the same
		}
		a, b = p, q
		found++
	}
	return a, b, found == 1
}

func earlier(p, q Event) time.Time {
	if q.Time.Before(p.Time) {
		return q.Time
	}
	return p.Time
}

func later(p, q Event) time.Time {
	if q.Time.After(p.Time) {
		return q.Time
	}
	return p.Time
}

// HeightM follows the half cosine between the port's waters about t.
func (s *Secondary) HeightM(t time.Time) (float64, bool) {
	a, b, ok := around(s.waters(t, t), t)
	if !ok {
		return 0, false
	}
	return between(a, b, t), true
}

// Events are the port's waters from from to to; those out of order are left out.
func (s *Secondary) Events(from, to time.Time) []Event {
	from, to = ordered(from, to)
	waters := s.waters(from, to)
	var out []Event
	for i, e := range waters {
		if e.Time.Before(from) || e.Time.After(to) {
			continue
		}
		if i > 0 && !sound(waters[i-1], e) || i+1 < len(waters) && !sound(e, waters[i+1]) {
			continue
		}
		out = append(out, e)
	}
	return out
}

// Least is the least height from from to to; ok is false if any part is unknown or out of order.
func (s *Secondary) Least(from, to time.Time) (float64, bool) { return s.extreme(from, to, -1) }

// Greatest is the greatest height from from to to; ok is false if any part is unknown or out of
// order.
func (s *Secondary) Greatest(from, to time.Time) (float64, bool) { return s.extreme(from, to, +1) }

func (s *Secondary) extreme(from, to time.Time, sign float64) (float64, bool) {
	from, to = ordered(from, to)
	waters := s.waters(from, to)
	for i := 0; i+1 < len(waters); i++ {
		p, q := waters[i], waters[i+1]
		apart := later(p, q).Before(from) || earlier(p, q).After(to)
		if !apart && !sound(p, q) {
			return 0, false
		}
	}
	return extreme(s, from, to, sign)
}

// RangeM is the difference between the port's waters on either side of t.
func (s *Secondary) RangeM(t time.Time) (float64, bool) {
	a, b, ok := around(s.waters(t, t), t)
	return math.Abs(a.HeightM - b.HeightM), ok
}

// Method is MethodSecondary.
func (s *Secondary) Method() Method { return MethodSecondary }

// Describe says what it is and how far to trust it.
func (s *Secondary) Describe() string {
	return fmt.Sprintf("secondary port: HW %s, LW %s on its reference (%s), joined by half cosines; differences are averages: a decimetre and ten minutes either way is usual, more where shallow water distorts the tide",
		s.high, s.low, s.ref.Method())
}

// String writes the difference as tables do.
func (d Difference) String() string {
	if d.Factor != 0 {
		return fmt.Sprintf("%+g min × %g", d.Minutes, d.Factor)
	}
	return fmt.Sprintf("%+g min %+g m", d.Minutes, d.Metres)
}

// Covers is where the reference's own waters allow a height here: from the first one moved to the
// last one moved.
func (s *Secondary) Covers() (from, to time.Time, bounded bool) {
	from, to, bounded = s.ref.Covers()
	if !bounded {
		return from, to, false
	}
	waters := s.waters(from, to)
	if len(waters) < 2 {
		return from, from, true
	}
	return waters[0].Time, waters[len(waters)-1].Time, true
}
