package entry

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

// TideForm is what a tide table does not say itself.
type TideForm struct {
	Day   Day            // of lines without a date
	Table *time.Location // what the table's clock times are in: the plan's zone, [StandardTime], UTC, a fixed offset
	Plan  *time.Location // in which the preview is written
}

// Tides is a tide table as it was read.
type Tides struct {
	Events []plan.TideEvent
	Lines  []Line
	Doubts []string // what to look at again, though it may be right
}

// Heights of tide that are taken, and how far apart two waters may be. The greatest
// range of tide anywhere is about 16 m (Bay of Fundy).
const (
	lowestTideM    = -6
	highestTideM   = 18
	greatestRangeM = 17
	closestWaters  = 30 * time.Minute
	widestWaters   = 26 * time.Hour
	usualWaters    = 13 * time.Hour // more is usual only where there is one tide a day
)

// TideTable reads high and low waters, one a line, in metres: "2026-07-18 03:12 0.4",
// "03:12 HW 3.1 m", "LW 0415 0,6", "17:05 HW 4.4 double", or comma-separated with a
// heading. Times must increase, and the table must be whole, as [tide.NewTable] says:
// where that is not plain, HW or LW is asked for on every line. Its error is a
// *[LineErrors]; Lines tells how each line was read even then.
func TideTable(text string, form TideForm) (Tides, error) {
	r := &rows{day: form.Day, zone: form.Table}
	t := &tideReader{rows: r, form: form}
	r.read(text, tideHeading, t.take)
	t.check()
	out := Tides{Lines: r.lines, Doubts: t.doubts}
	if err := r.err(); err != nil {
		return out, err
	}
	for _, w := range t.waters {
		w.Kind = kinds[w.named]
		out.Events = append(out.Events, w.TideEvent)
	}
	return out, nil
}

// kinds are what the words of a line stand for in a plan.
var kinds = map[string]string{"high": plan.HighWater, "low": plan.LowWater}

type tideReader struct {
	*rows
	stated bool // every line says whether its water is high or low
	form   TideForm
	waters []water
	doubts []string
}

// water is one line of the table.
type water struct {
	plan.TideEvent
	named string // "high", "low" or ""
	line  int    // its index in lines
}

func tideHeading(line string) string {
	for word := range strings.FieldsFuncSeq(strings.ToLower(line), func(r rune) bool { return r < 'a' || r > 'z' }) {
		switch word {
		case "ft", "feet", "foot":
			return "this table is in feet: metres are wanted; 1 ft is 0.3048 m"
		case "cm", "centimetres", "centimeters":
			return "this table is in centimetres: metres are wanted"
		}
	}
	return ""
}

func (t *tideReader) take(found row) (read, wrong string) {
	w := water{TideEvent: plan.TideEvent{Time: found.at.UTC()}, line: len(t.lines)}
	heights := 0
	for _, token := range found.tokens {
		switch lower := strings.ToLower(token); lower {
		case "hw", "h", "high":
			w.named += "high"
		case "lw", "l", "low":
			w.named += "low"
		case "double":
			w.Double = true
		case "water", "m", "metres", "meters":
		default:
			height, err := tideHeight(token)
			if err != nil {
				return "", err.Error()
			}
			w.HeightM = height
			heights++
		}
	}
	switch {
	case heights == 0:
		return "", "the height is missing: type time and metres, as 03:12 0.4"
	case heights > 1:
		return "", "there are two figures for the height: type decimals with a point, and one high or low water a line"
	case w.named != "" && w.named != "high" && w.named != "low":
		return "", "this is both a high and a low water: put each on a line of its own"
	}
	if n := len(t.waters); n > 0 && !w.Time.After(t.waters[n-1].Time) {
		return "", t.early(w.Time, t.waters[n-1].Time)
	}
	t.waters = append(t.waters, w)
	return "-", "" // written once its neighbours are known
}

func tideHeight(token string) (float64, error) {
	_, unit := splitUnit(token)
	v, err := Metres(token)
	switch {
	case err != nil && (unit == "ft" || unit == "'"):
		return 0, fmt.Errorf("%s: heights in feet are not read; type metres; 1 ft is 0.3048 m", shown(token))
	case err != nil && !strings.ContainsAny(token, "0123456789"):
		return 0, fmt.Errorf("%s is not read here: type time, HW or LW, and metres, as 03:12 LW 0.4", shown(token))
	case err != nil:
		return 0, err
	case v < lowestTideM || v > highestTideM:
		return 0, fmt.Errorf("%s m is no height of tide: metres above the datum are wanted", figure(v, 2))
	}
	return v, nil
}

// early says that a line lies before the one above it.
func (r *rows) early(t, before time.Time) string {
	return fmt.Sprintf("%s is not after %s: times must increase; where a new day begins, begin the line with its date",
		clockOf(t, r.zone), clockOf(before, r.zone))
}

func clockOf(t time.Time, zone *time.Location) string { return t.In(zone).Format("2006-01-02 15:04") }

// check holds the waters against their neighbours, once each by itself is right.
func (t *tideReader) check() {
	if len(t.wrong) > 0 {
		t.readAlone()
		return
	}
	if len(t.waters) < 2 {
		t.refuse(0, "", "a tide table needs at least one high and one low water")
		t.readAlone()
		return
	}
	t.stated = !slices.ContainsFunc(t.waters, func(w water) bool { return w.named == "" })
	for i, w := range t.waters {
		if wrong := t.beside(i); wrong != "" {
			t.refuseWater(i, wrong)
			continue
		}
		t.lines[w.line].Read = t.reading(i)
	}
	if len(t.wrong) == 0 {
		t.lastWord()
	}
}

// refuseWater says what is wrong with the line of a water.
func (t *tideReader) refuseWater(i int, wrong string) {
	l := &t.lines[t.waters[i].line]
	l.Wrong, l.Read = wrong, ""
	t.wrong = append(t.wrong, *l)
}

// readAlone is for lines that are right by themselves in a table that is not.
func (t *tideReader) readAlone() {
	for _, w := range t.waters {
		t.lines[w.line].Read = fmt.Sprintf("%s m at %s", figure(w.HeightM, 3), clockOf(w.Time, t.form.Plan))
	}
}

// lastWord asks the package that computes with the table.
func (t *tideReader) lastWord() {
	waters := make([]tide.Water, len(t.waters))
	for i, w := range t.waters {
		waters[i] = tide.Water{Time: w.Time.In(t.form.Table), HeightM: w.HeightM, Kind: kinds[w.named], Double: w.Double}
	}
	_, err := tide.NewTable(waters)
	var at *tide.TableError
	switch {
	case errors.As(err, &at) && at.Ask:
		t.refuseWater(at.Index, at.Text+": type HW or LW on every line, as the table means it, so that nothing is guessed")
	case errors.As(err, &at):
		t.refuseWater(at.Index, at.Text)
	case err != nil:
		t.refuse(0, "", err.Error())
	}
}

// beside says what is wrong with a water between its neighbours.
func (t *tideReader) beside(i int) string {
	w := t.waters[i]
	high := t.high(i)
	for _, j := range []int{i - 1, i + 1} {
		if j < 0 || j >= len(t.waters) {
			continue
		}
		o := t.waters[j]
		switch {
		case t.stated && w.named == o.named && w.Double && o.Double:
		case t.stated && w.named != o.named && o.HeightM == w.HeightM: // a faint tide, to the table's decimals
		case o.HeightM == w.HeightM:
			return fmt.Sprintf("%s m is as high as the water beside it: high and low waters take turns", figure(w.HeightM, 3))
		case w.named == "high" && o.named != "high" && w.HeightM < o.HeightM:
			return fmt.Sprintf("this high water of %s m is below the water beside it, of %s m", figure(w.HeightM, 3), figure(o.HeightM, 3))
		case w.named == "low" && o.named != "low" && w.HeightM > o.HeightM:
			return fmt.Sprintf("this low water of %s m is above the water beside it, of %s m", figure(w.HeightM, 3), figure(o.HeightM, 3))
		case (w.HeightM > o.HeightM) != high:
			return fmt.Sprintf("%s m is neither above nor below both waters beside it: a line is missing, or a figure is wrong", figure(w.HeightM, 3))
		case w.named == "high" && !high:
			return fmt.Sprintf("this high water of %s m is below the water beside it, of %s m", figure(w.HeightM, 3), figure(o.HeightM, 3))
		case w.named == "low" && high:
			return fmt.Sprintf("this low water of %s m is above the water beside it, of %s m", figure(w.HeightM, 3), figure(o.HeightM, 3))
		case math.Abs(w.HeightM-o.HeightM) > greatestRangeM:
			return "no tide on earth has a range of more than 17 m: are these metres?"
		}
	}
	return t.gap(i)
}

// high says whether a water is said to be high, or else stands above the one after
// it, or, at the end, before. Of two like waters running one is wrong, unless they
// stand double.
func (t *tideReader) high(i int) bool {
	if t.stated && t.inTurn(i) {
		return t.waters[i].named == "high"
	}
	if i+1 < len(t.waters) {
		return t.waters[i].HeightM > t.waters[i+1].HeightM
	}
	return t.waters[i].HeightM > t.waters[i-1].HeightM
}

// inTurn says whether the waters beside one are of the other kind, or stand double
// with it.
func (t *tideReader) inTurn(i int) bool {
	w := t.waters[i]
	for _, j := range []int{i - 1, i + 1} {
		if j >= 0 && j < len(t.waters) && t.waters[j].named == w.named && !(w.Double && t.waters[j].Double) {
			return false
		}
	}
	return true
}

func (t *tideReader) gap(i int) string {
	if i == 0 {
		return ""
	}
	w := t.waters[i]
	since := w.Time.Sub(t.waters[i-1].Time)
	switch {
	case since < closestWaters && t.stated:
		t.doubts = append(t.doubts, fmt.Sprintf("line %d: only %.0f minutes after the water before it; check both times", t.lines[w.line].Number, since.Minutes()))
	case since < closestWaters:
		return fmt.Sprintf("only %.0f minutes after the water before it: check both times", since.Minutes())
	case since > widestWaters && !t.stated:
		return fmt.Sprintf("%.0f hours after the water before it: type the waters between as well", since.Hours())
	case since > usualWaters:
		t.doubts = append(t.doubts, fmt.Sprintf("line %d: %.0f hours after the water before it; is one missing between them?", t.lines[w.line].Number, since.Hours()))
	}
	return ""
}

func (t *tideReader) reading(i int) string {
	kind := "low water"
	if t.high(i) {
		kind = "high water"
	}
	w := t.waters[i]
	return fmt.Sprintf("%s %s m at %s", kind, figure(w.HeightM, 3), clockOf(w.Time, t.form.Plan))
}
