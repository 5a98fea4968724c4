package plan

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"keelroom/geo/geojson"
)

// MaxListed is how many problems an [*Errors] lists; the rest is counted.
const MaxListed = 20

// Problem is one thing wrong with a plan. Line and Column are 0 where the plan
// was not read from a file.
type Problem struct {
	geojson.Place
	Msg string // what was found; what is wanted
	// Question: what is there may be meant, but is more likely a slip.
	Question bool
}

// Error names the place and the problem.
func (p Problem) Error() string {
	path := p.Path
	if path == "" {
		path = "the plan file"
	}
	if p.Line > 0 {
		path = fmt.Sprintf("%s (line %d, column %d)", path, p.Line, p.Column)
	}
	return path + ": " + p.Msg
}

func problem(path, msg string) Problem {
	return Problem{Place: geojson.Place{Path: path}, Msg: msg}
}

// Errors is all that is wrong with a plan, by place in the file.
type Errors struct {
	List  []Problem // never empty
	More  int       // problems beyond those listed
	cause error     // what made the file unreadable, if anything did
}

// Error lists the problems, one a line.
func (e *Errors) Error() string {
	lines := make([]string, 0, len(e.List)+1)
	for _, p := range e.List {
		lines = append(lines, p.Error())
	}
	if e.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", e.More))
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the [*geojson.SyntaxError] or [*geojson.LimitError] that made
// the file unreadable, or nil.
func (e *Errors) Unwrap() error { return e.cause }

// fatal is the error of a file that could not be read to its end.
func fatal(err error) *Errors {
	var syntax *geojson.SyntaxError
	var limit *geojson.LimitError
	switch {
	case errors.As(err, &syntax):
		return &Errors{List: []Problem{{Place: syntax.Place, Msg: syntax.Msg}}, cause: err}
	case errors.As(err, &limit):
		return &Errors{List: []Problem{{Place: limit.Place, Msg: limit.Msg}}, cause: err}
	}
	return &Errors{List: []Problem{problem("", err.Error())}, cause: err}
}

// listed sorts problems by place and returns the first of them as an error, and
// nil where there is none.
func listed(problems []Problem, more int) error {
	if len(problems) == 0 {
		return nil
	}
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Offset, b.Offset), cmp.Compare(a.Path, b.Path))
	})
	cut := min(len(problems), MaxListed)
	return &Errors{List: problems[:cut:cut], More: more + len(problems) - cut}
}

// said spells a number for a message.
func said(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// quoted quotes a text from a file for a message, shortened.
func quoted(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}
