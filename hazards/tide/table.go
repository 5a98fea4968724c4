package tide

import (
	"fmt"
	"math"
	"sort"
	"time"
)

// Heights above a datum outside these are taken for a slip of the pen. The greatest range of tide
// anywhere is about 16 m (Bay of Fundy).
const (
	lowestM  = -20
	highestM = 20
)

// Kinds of water as tables print them.
const (
	HighWater = "HW"
	LowWater  = "LW"
)

// Water is a line of a tide table as it is printed.
type Water struct {
	Time    time.Time
	HeightM float64
	Kind    string // HighWater, LowWater, or "" where the table does not say
	// Double marks both of two like waters running, where a high (or low) water stands
	// double: the water between them, which moves little, is in no table.
	Double bool
}

// Table is a tide table: high and low waters joined by half cosines.
//
// Its error against published curves is about 5 cm rms where the tide is nearly a cosine and 30 cm
// rms, up to 1.7 m, where shallow water distorts it; hence the tenth of the range that the checks
// take as margin.
type Table struct{ events []Event }

// NewTable makes a table of high and low waters in order of time. Times must rise strictly, heights
// be finite and within 20 m of the datum; there must be two waters or more, and the table must be
// whole: none may be missing between its first and its last (see whole.go). What is wrong with one
// water, or between two, is a *TableError.
func NewTable(waters []Water) (*Table, error) {
	if len(waters) < 2 {
		return nil, fmt.Errorf("events: %d given; a tide table needs at least one high and one low water", len(waters))
	}
	for i := range waters {
		if err := checkWater(waters, i); err != nil {
			return nil, err
		}
	}
	events := make([]Event, len(waters))
	for i, w := range waters {
		events[i] = Event{Time: w.Time, High: w.Kind == HighWater, Double: w.Double, HeightM: w.HeightM}
	}
	check := whole
	if !kindsStated(waters) {
		check = func(events []Event) *TableError { return wholeByHeights(waters, events) }
	}
	if err := check(events); err != nil {
		return nil, err
	}
	return &Table{events}, nil
}

// checkWater checks water i by itself and against the one before.
func checkWater(waters []Water, i int) error {
	w := waters[i]
	if math.IsNaN(w.HeightM) || w.HeightM < lowestM || w.HeightM > highestM {
		return wrongAt(i, "height %g m; wanted metres above the datum between %d and %d", w.HeightM, lowestM, highestM)
	}
	if w.Kind != "" && w.Kind != HighWater && w.Kind != LowWater {
		return wrongAt(i, "kind %q; wanted HW or LW", w.Kind)
	}
	if i == 0 {
		return nil
	}
	if prev := waters[i-1]; !w.Time.After(prev.Time) {
		return wrongAt(i, "%s is not after events[%d] at %s; events go in order of time", stamp(w.Time), i-1, stamp(prev.Time))
	}
	return nil
}

// neighbours says whether event i stands above all its neighbours, and whether below them.
func neighbours(events []Event, i int) (above, below bool) {
	above, below = true, true
	for _, j := range []int{i - 1, i + 1} {
		if j < 0 || j == len(events) {
			continue
		}
		above = above && events[i].HeightM > events[j].HeightM
		below = below && events[i].HeightM < events[j].HeightM
	}
	return above, below
}

func stamp(t time.Time) string { return t.Format(time.RFC3339) }

// HeightM follows the half cosine between the two events about t: h = (h1+h2)/2 + (h1−h2)/2 ·
// cos(π (t−t1)/(t2−t1)) (U.S. Tide Tables, Table 3; N. Bowditch, The American Practical
// Navigator, tide chapter). ok is false before the first event and after the last.
func (tb *Table) HeightM(t time.Time) (float64, bool) { return halfCosine(tb.events, t) }

func halfCosine(events []Event, t time.Time) (float64, bool) {
	i := sort.Search(len(events), func(i int) bool { return !events[i].Time.Before(t) })
	if i == len(events) {
		return 0, false
	}
	if events[i].Time.Equal(t) {
		return events[i].HeightM, true
	}
	if i == 0 {
		return 0, false
	}
	return between(events[i-1], events[i], t), true
}

// between is the half cosine from a to b at t.
func between(a, b Event, t time.Time) float64 {
	x := float64(t.Sub(a.Time)) / float64(b.Time.Sub(a.Time))
	return (a.HeightM+b.HeightM)/2 + (a.HeightM-b.HeightM)/2*math.Cos(math.Pi*x)
}

// Events are those of the table. The caller must not change them.
func (tb *Table) Events(from, to time.Time) []Event { return inSpan(tb.events, from, to) }

// Least is the least height from from to to; ok is false unless the table holds all of that.
func (tb *Table) Least(from, to time.Time) (float64, bool) { return extreme(tb, from, to, -1) }

// Greatest is the greatest height from from to to; ok is false unless the table holds all of that.
func (tb *Table) Greatest(from, to time.Time) (float64, bool) { return extreme(tb, from, to, +1) }

// RangeM is the difference between the events on either side of t.
func (tb *Table) RangeM(t time.Time) (float64, bool) { return rangeAbout(tb.events, t) }

// Method is MethodTable.
func (tb *Table) Method() Method { return MethodTable }

// Describe says what it is and how far to trust it.
func (tb *Table) Describe() string {
	return fmt.Sprintf("tide table, %d high and low waters joined by half cosines; between them some 5 cm rms where the tide is regular, 30 cm rms and up to 1.7 m where shallow water distorts it", len(tb.events))
}

// Covers is from the first event to the last.
func (tb *Table) Covers() (from, to time.Time, bounded bool) {
	return tb.events[0].Time, tb.events[len(tb.events)-1].Time, true
}
