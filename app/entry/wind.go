package entry

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"keelroom/hazards/plan"
)

// WindTable reads a forecast, one time a line: time, direction it comes from, knots,
// and the gust where it is given: "09:00 SW 12 18", "0900 225 12 G18". A direction is
// a point of the compass or three figures, so that a line without one is noticed.
// A zero day is none: then every line needs a date, or one before it.
// Its error is a *[LineErrors]; the lines tell how each was read even then.
func WindTable(text string, day Day, zone *time.Location) ([]plan.Wind, []Line, error) {
	r := &rows{day: day, zone: zone}
	var winds []plan.Wind
	r.read(text, windHeading, func(found row) (read, wrong string) {
		w, err := wind(found)
		if err != nil {
			return "", err.Error()
		}
		if n := len(winds); n > 0 && !w.Time.After(winds[n-1].Time) {
			return "", r.early(w.Time, winds[n-1].Time)
		}
		winds = append(winds, w)
		return toldWind(w, zone), ""
	})
	return finished(r, winds)
}

// finished is a table that was read whole, or what is wrong with it.
func finished[T any](r *rows, read []T) ([]T, []Line, error) {
	if len(read) == 0 && len(r.wrong) == 0 {
		r.refuse(0, "", "there is no line with figures: type a time and what the forecast says of it")
	}
	if err := r.err(); err != nil {
		return nil, r.lines, err
	}
	return read, r.lines, nil
}

func windHeading(line string) string {
	lower := strings.ToLower(line)
	switch {
	case strings.Contains(lower, "m/s") || strings.Contains(lower, "km/h") || strings.Contains(lower, "mph"):
		return "this table is not in knots: type knots; 1 m/s is 1.94 kn, 1 km/h is 0.54 kn"
	case strings.Contains(lower, "bft") || strings.Contains(lower, "beaufort"):
		return beaufort
	}
	return ""
}

func toldWind(w plan.Wind, zone *time.Location) string {
	s := fmt.Sprintf("%s from %s° (%s), %s kn", clockOf(w.Time, zone), exact(w.FromDeg), Point(w.FromDeg), exact(w.Kn))
	if w.GustKn != nil {
		s += ", gusts " + exact(*w.GustKn) + " kn"
	}
	return s
}

const windExample = "type time, direction, knots and gust, as 09:00 SW 12 18"

func wind(found row) (plan.Wind, error) {
	w := plan.Wind{Time: found.at.UTC()}
	deg, rest, err := direction(found.tokens)
	if err != nil {
		return w, err
	}
	w.FromDeg = deg
	figures, err := knots(rest)
	switch {
	case err != nil:
		return w, err
	case len(figures) == 0:
		return w, fmt.Errorf("the speed is missing: %s", windExample)
	case len(figures) > 2:
		return w, fmt.Errorf("there are too many figures: %s", windExample)
	}
	if w.Kn = figures[0]; w.Kn > 150 {
		return w, fmt.Errorf("%s knots are more than is known of: %s", exact(w.Kn), windExample)
	}
	if len(figures) == 2 {
		gust := figures[1]
		switch {
		case gust < w.Kn:
			return w, fmt.Errorf("the gust of %s is below the mean of %s knots: %s", exact(gust), exact(w.Kn), windExample)
		case gust > 250:
			return w, fmt.Errorf("gusts of %s knots are more than is known of: %s", exact(gust), windExample)
		}
		w.GustKn = &gust
	}
	return w, nil
}

// direction takes the first token, a point of the compass or three figures.
func direction(tokens []string) (deg float64, rest []string, err error) {
	if len(tokens) == 0 {
		return 0, nil, fmt.Errorf("direction and speed are missing: type them, as SW 12")
	}
	first := tokens[0]
	number, unit := splitUnit(first)
	whole, _, _ := cutAny(number, ".,")
	switch {
	case strings.EqualFold(first, "VRB") || strings.EqualFold(first, "variable") || strings.EqualFold(first, "calm"):
		return 0, nil, fmt.Errorf("%s: a direction is needed to compute with; type the worst for where she lies, as SW 3", shown(first))
	case number != "" && unit == "" && len(whole) != 3:
		return 0, nil, fmt.Errorf("%s is no direction: type a point of the compass, as SW, or three figures, as 225", shown(first))
	}
	deg, err = Degrees(first)
	return deg, tokens[1:], err
}

// knots reads speeds, with G before a gust.
func knots(tokens []string) ([]float64, error) {
	var out []float64
	for i, token := range tokens {
		lower := strings.ToLower(token)
		switch lower {
		case "kn", "kt", "kts", "knots", "g", "gust", "gusts", "gusting":
			continue
		}
		number := strings.TrimPrefix(lower, "g")
		if isUnit(number) {
			return nil, otherUnit(tokens, i)
		}
		if number != "" && number != lower && len(out) == 0 {
			return nil, fmt.Errorf("the gust comes after the mean: %s", windExample)
		}
		if n := len(number); n > 1 && number[0] == 'f' || n > 1 && number[0] == 'b' && digits(number[1:]) {
			return nil, fmt.Errorf("%s: %s", shown(token), beaufort)
		}
		v, err := Knots(number)
		if err != nil {
			return nil, err
		}
		if mean, gust, ok := strings.Cut(number, ","); ok && atLeast(gust, mean) {
			return nil, fmt.Errorf("%s may be one figure or two: type %s.%s, or %s %s", shown(token), mean, gust, mean, gust)
		}
		out = append(out, v)
	}
	return out, nil
}

// atLeast says whether one figure is no less than another.
func atLeast(a, b string) bool {
	x, okX := decimal(a)
	y, okY := decimal(b)
	return okX && okY && x >= y
}

func isUnit(s string) bool {
	_, converted := speed.others[s]
	_, refused := speed.refused[s]
	return converted || refused
}

// otherUnit refuses a unit that stands alone behind its figure.
func otherUnit(tokens []string, i int) error {
	if i > 0 {
		if _, err := Knots(tokens[i-1] + " " + tokens[i]); err != nil {
			return err
		}
	}
	return fmt.Errorf("%s: %s", shown(tokens[i]), windExample)
}

// FormatWind writes a table that [WindTable] reads as the same, in that zone.
func FormatWind(winds []plan.Wind, zone *time.Location) string {
	var b strings.Builder
	for _, w := range winds {
		fmt.Fprintf(&b, "%s %s %s", stamp(w.Time, zone), bearing(w.FromDeg), exact(w.Kn))
		if w.GustKn != nil {
			b.WriteString(" G" + exact(*w.GustKn))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// stamp writes a time as date and clock, and with its offset where that alone would
// not name the instant.
func stamp(t time.Time, zone *time.Location) string {
	local := t.In(zone)
	day := DayOf(t, zone)
	if back, err := day.at(local.Hour(), local.Minute(), zone); err == nil && back.Equal(t) {
		return local.Format("2006-01-02 15:04")
	}
	return local.Format(time.RFC3339Nano)
}

// bearing writes a direction with three figures before the point.
func bearing(deg float64) string {
	s := exact(deg)
	whole, _, _ := strings.Cut(s, ".")
	return strings.Repeat("0", max(0, 3-len(whole))) + s + "°"
}

// exact spells a number with all the decimals it has, as far as a figure in a table
// has any use for them.
func exact(v float64) string {
	if s := strconv.FormatFloat(v, 'f', -1, 64); len(s) <= 28 {
		return s
	}
	return figure(v, 6)
}
