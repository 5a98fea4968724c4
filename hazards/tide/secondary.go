package tide

import (
	"fmt"
	"math"
	"sort"
	"sync/atomic"
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
// cosines. Turns of less than 3 cm in a predicted reference, stands rather than waters, are passed
// over. Where differences bring the waters out of order (a low water not after the high water
// before it), where a high water comes out no higher than the low water beside it, or where the
// reference is unknown, the height is unknown.
type Secondary struct {
	ref       Tide
	high, low Difference
	cache     [blocksKept]atomic.Pointer[block]
}

// blocksKept blocks of 8 days are some four months.
const blocksKept = 16

// NewSecondary makes the port with the differences high and low on ref. Minutes are within a day,
// metres within 20 m, a factor is not negative, and only one of metres and factor is given. They
// must not turn the port's tide upside down.
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
	s := &Secondary{ref: ref, high: high, low: low}
	if err := s.upsideDown(); err != nil {
		return nil, err
	}
	return s, nil
}

// usualDays is a stretch of a predicted reference that shows what differences make of its waters:
// any will do, and with spring or neap tides no differences of use turn most of them over.
var usualDays = [2]time.Time{time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2026, 1, 9, 0, 0, 0, 0, time.UTC)}

// upsideDown is an error where the differences bring more than half of the high waters below the
// low waters beside them: a slip of the pen. Where they do so to fewer, at a faint tide, the height
// is unknown there.
func (s *Secondary) upsideDown() error {
	from, to, bounded := s.ref.Covers()
	if !bounded {
		from, to = usualDays[0], usualDays[1]
	}
	waters := s.ref.Events(from, to)
	pairs, over, first := 0, 0, -1
	for i := 1; i < len(waters); i++ {
		a, b := waters[i-1], waters[i]
		if a.High == b.High {
			continue
		}
		pairs++
		if x, y := s.apply(a), s.apply(b); (x.HeightM > y.HeightM) != a.High || x.HeightM == y.HeightM {
			over++
			if first < 0 {
				first = i
			}
		}
	}
	if 2*over <= pairs {
		return nil
	}
	high, low := waters[first], waters[first-1]
	if !high.High {
		high, low = low, high
	}
	return fmt.Errorf("high and low: the differences make the high water of %.2f m one of %.2f m, and the low water of %.2f m beside it one of %.2f m: a high water cannot lie below its low water",
		high.HeightM, s.apply(high).HeightM, low.HeightM, s.apply(low).HeightM)
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

// blockHours is for how long waters are worked out at a time.
const blockHours = 8 * hoursPerDay

// block holds the port's waters about one stretch of time, in the reference's order, with enough
// before and after it that every instant of the stretch lies between two. It is not changed once
// made.
type block struct {
	index  int
	waters []Event
}

// reach is how far beyond a block the reference is looked at: the largest shift, and three days
// for the faint turns of a diurnal tide.
func (s *Secondary) reach() time.Duration {
	shift := max(math.Abs(s.high.Minutes), math.Abs(s.low.Minutes))
	return 72*time.Hour + time.Duration(shift*float64(time.Minute))
}

func blockIndex(t time.Time) int { return int(math.Floor(hours(t) / blockHours)) }

// blockAt gives a block, from the cache if it is there.
func (s *Secondary) blockAt(index int) *block {
	slot := &s.cache[((index%blocksKept)+blocksKept)%blocksKept]
	if b := slot.Load(); b != nil && b.index == index {
		return b
	}
	from := atHour(float64(index) * blockHours)
	ref := s.ref.Events(from.Add(-s.reach()), from.Add(blockHours*time.Hour+s.reach()))
	if s.ref.Method() == MethodHarmonic {
		ref = withoutFaint(ref)
	}
	b := &block{index, make([]Event, len(ref))}
	for i, e := range ref {
		b.waters[i] = s.apply(e)
	}
	slot.Store(b)
	return b
}

// faintM is the range below which a high and a low water of a predicted curve are no tide of their
// own but a stand in one: differences are not meant for them.
const faintM = 0.03

// withoutFaint takes neighbouring waters of less than faintM range out in pairs, the faintest pair
// first. The ends stay.
func withoutFaint(waters []Event) []Event {
	out := append([]Event(nil), waters...)
	for len(out) > 3 {
		at, least := 0, faintM
		for i := 1; i+2 < len(out); i++ {
			if r, _ := rangeBetween(out, i); r < least {
				at, least = i, r
			}
		}
		if at == 0 {
			break
		}
		out = append(out[:at], out[at+2:]...)
	}
	return out
}

// sound says whether the water at b may follow the one at a: later, of the other kind, and on the
// right side of it; or the second of a double water.
func sound(a, b Event) bool {
	if a.Double && b.Double && a.High == b.High {
		return b.Time.After(a.Time)
	}
	return b.Time.After(a.Time) && a.High != b.High && (a.HeightM > b.HeightM) == a.High && a.HeightM != b.HeightM
}

// around gives the two waters that t lies between. ok is false where there is no such pair, or
// where the differences bring them out of order.
func (s *Secondary) around(t time.Time) (a, b Event, ok bool) {
	waters := s.blockAt(blockIndex(t)).waters
	for i := 0; i+1 < len(waters); i++ {
		p, q := waters[i], waters[i+1]
		if t.Before(earlier(p, q)) || t.After(later(p, q)) {
			continue
		}
		if !sound(p, q) {
			return Event{}, Event{}, false
		}
		if !ok { // at a water itself, the pair before it says the same as the one after
			a, b, ok = p, q, true
		} else if !q.Time.After(b.Time) || p.Time.Before(b.Time) {
			return Event{}, Event{}, false
		}
	}
	return a, b, ok
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
	if outside(t) {
		return 0, false
	}
	a, b, ok := s.around(t)
	if !ok {
		return 0, false
	}
	return between(a, b, t), true
}

// Events are the port's waters from from to to; those out of order are left out.
func (s *Secondary) Events(from, to time.Time) []Event {
	var out []Event
	s.walk(from, to, func(waters []Event, i int) {
		if i > 0 && !sound(waters[i-1], waters[i]) || i+1 < len(waters) && !sound(waters[i], waters[i+1]) {
			return
		}
		out = append(out, waters[i])
	})
	sort.SliceStable(out, func(i, j int) bool { return out[i].Time.Before(out[j].Time) })
	return inSpan(out, from, to)
}

// walk calls visit for every water of the blocks that hold from to to, each water in the block
// that its own time is in.
func (s *Secondary) walk(from, to time.Time, visit func(waters []Event, i int)) {
	from, to = ordered(from, to)
	from, to = clamp(from), clamp(to)
	for index := blockIndex(from); index <= blockIndex(to); index++ {
		b := s.blockAt(index)
		for i := range b.waters {
			if blockIndex(b.waters[i].Time) == index {
				visit(b.waters, i)
			}
		}
	}
}

// outside says whether t is beyond the ends of the astronomy.
func outside(t time.Time) bool { return t.Before(firstTime) || !t.Before(lastTime) }

// clamp brings t within the ends of the astronomy.
func clamp(t time.Time) time.Time {
	switch {
	case t.Before(firstTime):
		return firstTime
	case !t.Before(lastTime):
		return lastTime.Add(-time.Nanosecond)
	}
	return t
}

// Least is the least height from from to to; ok is false if any part is unknown or out of order.
func (s *Secondary) Least(from, to time.Time) (float64, bool) { return s.extreme(from, to, -1) }

// Greatest is the greatest height from from to to; ok is false if any part is unknown or out of
// order.
func (s *Secondary) Greatest(from, to time.Time) (float64, bool) { return s.extreme(from, to, +1) }

func (s *Secondary) extreme(from, to time.Time, sign float64) (float64, bool) {
	from, to = ordered(from, to)
	if outside(from) || outside(to) {
		return 0, false
	}
	for index := blockIndex(from); index <= blockIndex(to); index++ {
		if !orderly(s.blockAt(index).waters, from, to) {
			return 0, false
		}
	}
	return extreme(s, from, to, sign)
}

// orderly says whether no pair of waters that touches from to to is out of order.
func orderly(waters []Event, from, to time.Time) bool {
	for i := 0; i+1 < len(waters); i++ {
		p, q := waters[i], waters[i+1]
		apart := later(p, q).Before(from) || earlier(p, q).After(to)
		if !apart && !sound(p, q) {
			return false
		}
	}
	return true
}

// RangeM is the difference between the port's waters on either side of t, at a water the larger of
// the two.
func (s *Secondary) RangeM(t time.Time) (float64, bool) {
	if outside(t) {
		return 0, false
	}
	a, b, ok := s.around(t)
	r := math.Abs(a.HeightM - b.HeightM)
	if ok && t.Equal(b.Time) {
		r = max(r, s.rangeAround(b.Time.Add(time.Nanosecond)))
	}
	if ok && a.High == b.High { // a double water: the range is that of the tide beside it
		r = max(s.rangeAround(a.Time.Add(-time.Nanosecond)), s.rangeAround(b.Time.Add(time.Nanosecond)))
		ok = r > 0
	}
	return r, ok
}

// rangeAround is the difference between the waters about t, 0 where they are not known.
func (s *Secondary) rangeAround(t time.Time) float64 {
	a, b, ok := s.around(t)
	if !ok {
		return 0
	}
	return math.Abs(a.HeightM - b.HeightM)
}

// Method is MethodSecondary.
func (s *Secondary) Method() Method { return MethodSecondary }

// Describe says what it is and how far to trust it (common practice, no source).
func (s *Secondary) Describe() string {
	return fmt.Sprintf("secondary port: HW %s, LW %s, joined by half cosines; differences are averages: a decimetre and ten minutes either way is usual, more where shallow water distorts the tide; its reference: %s",
		s.high, s.low, s.ref.Describe())
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
	waters := s.ref.Events(from, to)
	if len(waters) < 2 {
		return from, from, true
	}
	return s.apply(waters[0]).Time, s.apply(waters[len(waters)-1]).Time, true
}
