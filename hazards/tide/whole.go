package tide

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"
	"time"
)

// A tide table must be whole. A table that lacks a water is joined by half cosines across the gap,
// and gives metres of water where there are none. What is asked of a table is the plan-file
// contract's, "A tide table must be whole"; the figures are common practice or judgement.
const (
	doubleWithin = 5 * time.Hour  // two like waters that stand double lie no further apart
	longSpan     = 13 * time.Hour // from one water to the next, where there are two tides a day
	longestSpan  = 20 * time.Hour // anywhere
	likeWaters   = 34 * time.Hour // from one high water to the next, or low to low, anywhere
	twoTides     = 8 * time.Hour  // a median span under this is that of two tides a day
	fewWaters    = 4              // fewer do not say what is usual there
	fewSpan      = 9 * time.Hour
	oddSpan      = 1.6  // of the median of the others
	faintRange   = 0.25 // of the median
)

// Where the tide is mixed, a high and a low water grow faint from day to day until they are gone,
// and a true table then has spans of 13 to 20 hours among short ones. It is told from a table that
// lacks two waters by its heights: elsewhere in it two waters are faint beside those about them,
// and a lunar day before and after the span there are none either, or faint ones. (Tried on 180 days of
// 370 stations of the built-in list: cut into weeks, 591 of 5 750 true tables have such a span, and 12
// of them are refused; of the same tables with two waters taken out, 98 % are.)
const (
	lunarDay   = 24*time.Hour + 50*time.Minute
	besideDay  = 90 * time.Minute // by how much waters a lunar day apart may come earlier or later
	mixedSpan  = 17 * time.Hour   // beyond this the days before and after must both be known
	aboutDay   = 37 * time.Hour   // what lies within this stands beside a water
	aboutSpans = 8                // and no more spans than these, either way
	dayBeside  = 0.4              // of the greatest range about: more than this is no faint pair
	dayAlone   = 0.2              // the same, where only the day before or after is in the table
	daysBeside = 0.15             // the same, for spans over mixedSpan
	smallTide  = 1.0              // metres of range: no more can be wrong than a skipper of such waters reckons with
	faintPair  = 0.15             // metres: half the usual margin of a height of tide covers it
)

// TableError is what is wrong with a tide table.
type TableError struct {
	Index int // the water that it is about; of two the later
	// Ask is true where the table may be right, and saying of each of its waters whether it is
	// high or low tells.
	Ask  bool
	Text string
}

func (e *TableError) Error() string { return fmt.Sprintf("events[%d]: %s", e.Index, e.Said()) }

// Said is what is wrong and what is wanted, without the place.
func (e *TableError) Said() string {
	if e.Ask {
		return e.Text + "; say of each water whether it is high or low (kind HW or LW)"
	}
	return e.Text
}

func wrongAt(i int, format string, args ...any) *TableError {
	return &TableError{Index: i, Text: fmt.Sprintf(format, args...)}
}

func askAt(i int, format string, args ...any) *TableError {
	return &TableError{Index: i, Ask: true, Text: fmt.Sprintf(format, args...)}
}

// kindsStated says whether every water is said to be high or low.
func kindsStated(waters []Water) bool {
	return !slices.ContainsFunc(waters, func(w Water) bool { return w.Kind == "" })
}

// whole checks a table whose kinds are stated.
func whole(events []Event) *TableError {
	for i := range events {
		if err := turns(events, i); err != nil {
			return err
		}
	}
	spans := spansOf(events)
	if len(spans) == 0 {
		return wrongAt(0, "%s only; a tide table needs at least one high and one low water", kindName(events[0])+"s")
	}
	return gap(events, spans)
}

// turns checks that water i takes its turn after the one before.
func turns(events []Event, i int) *TableError {
	e := events[i]
	if e.Double && 0 < i && i < len(events)-1 && !pair(events, i) && !pair(events, i+1) {
		return wrongAt(i, "the %s at %s is marked double, and the other of the two is not beside it; a water seems to be missing", kindName(e), stamp(e.Time))
	}
	if i == 0 {
		return nil
	}
	switch prev := events[i-1]; {
	case e.High == prev.High && (!pair(events, i) || pair(events, i-1)):
		return wrongAt(i, "two %ss run: %s; two that stand double are both marked double and lie under %.0f hours apart",
			kindName(e), missingBetween(prev.Time, e.Time), doubleWithin.Hours())
	case e.High != prev.High && (e.HeightM > prev.HeightM) != e.High && e.HeightM != prev.HeightM:
		return wrongAt(i, "the %s of %.2f m at %s lies on the wrong side of the %s of %.2f m before it", kindName(e), e.HeightM, stamp(e.Time), kindName(prev), prev.HeightM)
	}
	return nil
}

// pair says whether events i−1 and i are the two of a water that stands double.
func pair(events []Event, i int) bool {
	if i <= 0 || i >= len(events) {
		return false
	}
	a, b := events[i-1], events[i]
	return a.Double && b.Double && a.High == b.High && b.Time.Sub(a.Time) < doubleWithin
}

func kindName(e Event) string {
	if e.High {
		return "high water"
	}
	return "low water"
}

// missingBetween says that a water seems to be missing, by the clock of the times' own zone.
func missingBetween(a, b time.Time) string {
	clock, day := "15:04", "2 Jan 2006"
	if a.Format(time.DateOnly) != b.Format(time.DateOnly) {
		clock, day = "15:04 on 2 Jan", "2006"
	}
	zone := b.Format("MST")
	if strings.HasPrefix(zone, "+") || strings.HasPrefix(zone, "-") { // a zone without a name of its own
		zone = "UTC" + zone
	}
	return fmt.Sprintf("between %s and %s a water seems to be missing (%s, %s)", a.Format(clock), b.Format(clock), b.Format(day), zone)
}

// riseOrFall is the time from a water to the next one of the other kind.
type riseOrFall struct {
	to       int // index of the later water
	from     time.Time
	end      time.Time
	rangeM   float64
	duration time.Duration
}

// spansOf are the spans of a table. What lies between the two of a double water is none.
func spansOf(events []Event) []riseOrFall {
	var out []riseOrFall
	for i := 1; i < len(events); i++ {
		a, b := events[i-1], events[i]
		if a.High == b.High {
			continue
		}
		out = append(out, riseOrFall{i, a.Time, b.Time, max(a.HeightM-b.HeightM, b.HeightM-a.HeightM), b.Time.Sub(a.Time)})
	}
	return out
}

// gap looks for a span in which two waters seem to be missing, the kinds being in turn.
func gap(events []Event, spans []riseOrFall) *TableError {
	others := newOthers(spans)
	for k, s := range spans {
		if k > 0 && s.from.Equal(spans[k-1].end) && s.end.Sub(spans[k-1].from) > likeWaters {
			return wrongAt(s.to, "%s: %.1f hours between two like waters; give every water of two days or more", missingBetween(spans[k-1].from, s.end), s.end.Sub(spans[k-1].from).Hours())
		}
		if s.duration <= longSpan {
			continue
		}
		usual, known := others.median(s.duration)
		quick := !known || usual < twoTides // one span alone does not say that there is one tide a day
		if s.duration > longestSpan || quick && !vanished(spans, k) {
			return wrongAt(s.to, "%s: %.1f hours; give every water of two days or more", missingBetween(s.from, s.end), s.duration.Hours())
		}
	}
	return nil
}

// others gives medians of all spans but one.
type others []time.Duration // in order of length

func newOthers(spans []riseOrFall) others {
	out := make(others, len(spans))
	for i, s := range spans {
		out[i] = s.duration
	}
	slices.Sort(out)
	return out
}

// median is that of all but one of length d. known is false where there is no other.
func (o others) median(d time.Duration) (median time.Duration, known bool) {
	n := len(o) - 1
	if n < 1 {
		return 0, false
	}
	left, _ := slices.BinarySearch(o, d)
	at := func(i int) time.Duration {
		if i >= left {
			i++
		}
		return o[i]
	}
	return (at((n-1)/2) + at(n/2)) / 2, true
}

// vanished says whether the waters that a long span lacks may have grown faint and gone.
func vanished(spans []riseOrFall, k int) bool {
	if !slices.ContainsFunc(spans, func(s riseOrFall) bool { return faint(spans, s) }) {
		return false
	}
	s := spans[k]
	before, okBefore := beside(spans, s, -lunarDay)
	after, okAfter := beside(spans, s, lunarDay)
	most := max(faintPair, dayBeside*greatestAbout(spans, s))
	if s.duration > mixedSpan {
		return okBefore && okAfter && max(before, after) < daysBeside*greatestAbout(spans, s)
	}
	if okBefore && okAfter {
		return min(before, after) <= most
	}
	// Beside the end of a table less is known, and a pair must be fainter, or the tide small.
	few := max(faintPair, dayAlone*greatestAbout(spans, s))
	return okBefore && before <= few || okAfter && after <= few || !okBefore && !okAfter && greatestAbout(spans, s) <= smallTide
}

// faint says whether a span's range is small beside those about it.
func faint(spans []riseOrFall, s riseOrFall) bool {
	return s.rangeM < faintRange*greatestAbout(spans, s)
}

// greatestAbout is the greatest range about a span, its own included.
func greatestAbout(spans []riseOrFall, s riseOrFall) float64 {
	i, _ := slices.BinarySearchFunc(spans, s.from, func(o riseOrFall, t time.Time) int { return o.from.Compare(t) })
	most := 0.0
	for _, o := range spans[max(0, i-aboutSpans):min(len(spans), i+aboutSpans+1)] {
		if o.end.After(s.from.Add(-aboutDay)) && o.from.Before(s.end.Add(aboutDay)) {
			most = max(most, o.rangeM)
		}
	}
	return most
}

// beside is the greatest range of the waters inside a span moved by a lunar day; 0 where there are
// no two. ok is false where the table does not reach over all of that.
func beside(spans []riseOrFall, s riseOrFall, by time.Duration) (rangeM float64, ok bool) {
	from, end := s.from.Add(by), s.end.Add(by)
	first, last := spans[0], spans[len(spans)-1]
	if from.Before(first.from.Add(-time.Hour)) || end.After(last.end.Add(time.Hour)) {
		return 0, false
	}
	i := sort.Search(len(spans), func(i int) bool { return spans[i].from.After(from.Add(besideDay)) })
	for ; i < len(spans) && spans[i].end.Before(end.Add(-besideDay)); i++ {
		rangeM = max(rangeM, spans[i].rangeM)
	}
	return rangeM, true
}

// wholeByHeights checks a table that does not state all kinds, and sets them from the heights. It
// guesses nothing: where the table is not plain, the kinds are asked for.
func wholeByHeights(waters []Water, events []Event) *TableError {
	for i, w := range waters {
		above, below := neighbours(events, i)
		switch {
		case w.Double:
			return askAt(i, "the water at %s is marked double, which needs all kinds stated", stamp(w.Time))
		case above == below: // neither, or one neighbour on each side of it
			return askAt(i, "%.2f m at %s is neither a high nor a low water between its neighbours; a tide table alternates, or a water is missing", w.HeightM, stamp(w.Time))
		case w.Kind != "" && above != (w.Kind == HighWater):
			return wrongAt(i, "%.2f m at %s is said to be %s, and its neighbours say otherwise", w.HeightM, stamp(w.Time), w.Kind)
		}
		events[i].High = above
	}
	return plainly(events, spansOf(events))
}

// plainly asks for the kinds where a table is not plainly whole.
func plainly(events []Event, spans []riseOrFall) *TableError {
	others, usual := newOthers(spans), medianRange(spans)
	for k, s := range spans {
		median, known := others.median(s.duration)
		switch {
		case k > 0 && s.end.Sub(spans[k-1].from) > likeWaters:
			return askAt(s.to, "%s: %.1f hours between two like waters", missingBetween(spans[k-1].from, s.end), s.end.Sub(spans[k-1].from).Hours())
		case s.rangeM < faintRange*usual:
			return askAt(s.to, "the water moves only %.2f m between %s and %s; one may be missing there", s.rangeM, stamp(s.from), stamp(s.end))
		case known && float64(s.duration) > oddSpan*float64(median),
			len(events) < fewWaters && s.duration > fewSpan:
			return askAt(s.to, "%s: %.1f hours", missingBetween(s.from, s.end), s.duration.Hours())
		}
	}
	return nil
}

// medianRange is the median of what the water rises or falls.
func medianRange(spans []riseOrFall) float64 {
	if len(spans) == 0 {
		return 0
	}
	sorted := slices.SortedFunc(slices.Values(spans), func(a, b riseOrFall) int { return cmp.Compare(a.rangeM, b.rangeM) })
	n := len(sorted)
	return (sorted[(n-1)/2].rangeM + sorted[n/2].rangeM) / 2
}
