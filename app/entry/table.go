package entry

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
)

// The largest table that is read: a year of four waters a day, and some.
const (
	mostBytes = 256 << 10
	mostLines = 3000
)

// Line is how one line of a table was read, for a preview, or what is wrong with it.
type Line struct {
	Number int // from 1
	Text   string
	Read   string // "" for a line without figures, as a heading
	Wrong  string // what to type; "" where it was read
}

// LineErrors is all that is wrong with a table. Line 0 is the table as a whole.
type LineErrors struct{ Lines []Line }

// Error lists the lines.
func (e *LineErrors) Error() string {
	const most = 5
	var out []string
	for i, l := range e.Lines {
		if i == most {
			out = append(out, fmt.Sprintf("and %d more", len(e.Lines)-most))
			break
		}
		if l.Number == 0 {
			out = append(out, l.Wrong)
		} else {
			out = append(out, fmt.Sprintf("line %d: %s", l.Number, l.Wrong))
		}
	}
	return strings.Join(out, "\n")
}

// rows reads the lines of a table one by one.
type rows struct {
	day   Day
	zone  *time.Location
	lines []Line
	wrong []Line
}

// row is what is left of a line once its time has been read.
type row struct {
	at     time.Time
	tokens []string
}

// read goes through a table. Each row is given to take, which tells how it read it.
func (r *rows) read(text string, heading func(line string) string, take func(row) (read, wrong string)) {
	text = strings.TrimPrefix(text, "\ufeff")
	if len(text) > mostBytes {
		r.refuse(0, "", fmt.Sprintf("that is too much for a table: paste at most %d lines", mostLines))
		return
	}
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\n")
	if len(lines) > mostLines {
		r.refuse(0, "", fmt.Sprintf("%d lines are too many: paste at most %d", len(lines), mostLines))
		return
	}
	for i, line := range lines {
		r.line(i+1, line, heading, take)
	}
}

func (r *rows) line(number int, text string, heading func(line string) string, take func(row) (read, wrong string)) {
	line := tidy(strings.ReplaceAll(text, `"`, " "))
	if line == "" || line[0] == '#' {
		return
	}
	if !strings.ContainsAny(line, "0123456789") {
		if wrong := heading(line); wrong != "" {
			r.refuse(number, text, wrong)
		} else {
			r.lines = append(r.lines, Line{Number: number, Text: text})
		}
		return
	}
	tokens, err := tokensOf(line)
	var found row
	var dateOnly bool
	if err == nil {
		found, dateOnly, err = r.row(tokens)
	}
	switch {
	case err != nil:
		r.refuse(number, text, err.Error())
	case dateOnly:
		r.lines = append(r.lines, Line{Number: number, Text: text, Read: r.day.String()})
	default:
		if read, wrong := take(found); wrong != "" {
			r.refuse(number, text, wrong)
		} else {
			r.lines = append(r.lines, Line{Number: number, Text: text, Read: read})
		}
	}
}

func (r *rows) refuse(number int, text, wrong string) {
	l := Line{Number: number, Text: text, Wrong: wrong}
	r.wrong = append(r.wrong, l)
	r.lines = append(r.lines, l)
}

// err is all that was refused, or nil.
func (r *rows) err() error {
	if len(r.wrong) == 0 {
		return nil
	}
	return &LineErrors{r.wrong}
}

// row takes the date and the time out of a line. A date holds for the lines after
// it as well.
func (r *rows) row(tokens []string) (found row, dateOnly bool, err error) {
	var named []time.Weekday
	times := 0
	for _, token := range tokens {
		if at, ok, err := instant(token); ok {
			if err != nil {
				return found, false, err
			}
			found.at, r.day = at, DayOf(at, r.zone)
			times++
		} else if d, ok, err := dateIn(token); ok {
			if err != nil {
				return found, false, err
			}
			r.day = d
		} else if weekday, ok := weekdayIn(token); ok {
			named = append(named, weekday)
		} else if looksLikeClock(token) {
			hour, minute, err := clock(token)
			if err != nil {
				return found, false, err
			}
			if r.day == (Day{}) {
				return found, false, errNoDay
			}
			if found.at, err = r.day.at(hour, minute, r.zone); err != nil {
				return found, false, inTable(err)
			}
			times++
		} else {
			found.tokens = append(found.tokens, token)
		}
	}
	for _, weekday := range named {
		if is := r.day.weekday(); is != weekday {
			return found, false, fmt.Errorf("%s is a %s: check the date", r.day, is)
		}
	}
	switch {
	case times == 0 && len(found.tokens) == 0:
		return found, true, nil
	case times == 0:
		return found, false, fmt.Errorf("no time is found: begin the line with one, as 03:12")
	case times > 1:
		return found, false, fmt.Errorf("there are two times: put each on a line of its own")
	}
	return found, false, nil
}

// errNoDay is said of a clock time where neither the line nor the plan has a date: a
// day that was only guessed would pass for the skipper's.
var errNoDay = errors.New("the day is not known: give the plan its day first, or begin the line with a date, as 2026-07-18 09:00")

// looksLikeClock takes four digits, or hours and minutes with a colon or an h, as a
// time. A point does not make one: 3.12 is a height.
func looksLikeClock(s string) bool {
	if digits(s) {
		return len(s) == 4
	}
	h, m, ok := cutAny(s, ":hH")
	return ok && digits(h) && (digits(m) || strings.Contains(m, ":"))
}

// instant reads a time with date and offset, which is the same in every zone.
func instant(s string) (at time.Time, ok bool, err error) {
	if len(s) < 16 || s[4] != '-' || s[10] != 'T' && s[10] != 't' {
		return time.Time{}, false, nil
	}
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04Z07:00"} {
		if at, err := time.Parse(layout, s); err == nil {
			if y := at.UTC().Year(); y < 1975 || y > 2199 {
				return at, true, fmt.Errorf("%s: the year lies from 1975 to 2199", shown(s))
			}
			return at.UTC(), true, nil
		}
	}
	return time.Time{}, true, fmt.Errorf("%s is no time with date and offset: type it as 2026-07-18T03:12+01:00, or as 2026-07-18 03:12", shown(s))
}

func dateIn(s string) (d Day, ok bool, err error) {
	if strings.Count(s, "/") == 2 {
		_, err := Date(s)
		return Day{}, true, err
	}
	return date(s)
}

// weekdayIn reads the name of a day of the week, or its first three letters.
func weekdayIn(s string) (time.Weekday, bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if name := d.String(); strings.EqualFold(s, name) || strings.EqualFold(s, name[:3]) {
			return d, true
		}
	}
	return 0, false
}

// inTable is how to tell a repeated time apart in a table.
func inTable(err error) error {
	if twice, ok := err.(*Ambiguous); ok {
		return fmt.Errorf("%s occurs twice on %s, as the clocks go back: type %s or %s, or choose the zone of the table", twice.Clock, twice.Day,
			twice.First.Format("2006-01-02T15:04Z07:00"), twice.Second.Format("2006-01-02T15:04Z07:00"))
	}
	return err
}

// tokensOf divides a line at spaces, semicolons, bars and commas. A comma between
// two digits is a decimal comma where the figure before it has at most two digits
// and nothing else in the line has a decimal point.
func tokensOf(line string) ([]string, error) {
	point := hasDecimalPoint(line)
	var out []string
	for _, part := range strings.FieldsFunc(line, func(r rune) bool { return unicode.IsSpace(r) || r == ';' || r == '|' }) {
		if _, ok := decimal(part); ok && commaNumber(part) {
			if point {
				return nil, fmt.Errorf("%s has a comma and another figure a point: type all decimals with a point", shown(part))
			}
			out = append(out, part)
			continue
		}
		for _, piece := range strings.Split(part, ",") {
			if piece != "" {
				out = append(out, piece)
			}
		}
	}
	return out, nil
}

func commaNumber(s string) bool {
	whole, _, ok := strings.Cut(strings.TrimLeft(s, "+-"), ",")
	return ok && len(whole) <= 2
}

// hasDecimalPoint says whether a figure of the line, other than a date, has one.
func hasDecimalPoint(line string) bool {
	for part := range strings.FieldsSeq(line) {
		if _, ok, _ := date(part); ok {
			continue
		}
		for i := 1; i+1 < len(part); i++ {
			if part[i] == '.' && isDigit(part[i-1]) && isDigit(part[i+1]) {
				return true
			}
		}
	}
	return false
}

// splitUnit takes a figure and the letters behind it apart, as 3.1m.
func splitUnit(token string) (number, unit string) {
	i := strings.LastIndexAny(token, "0123456789") + 1
	return token[:i], strings.ToLower(token[i:])
}
