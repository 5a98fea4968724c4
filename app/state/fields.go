package state

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// Field is one thing of a plan that the skipper types or chooses.
type Field struct {
	ID, Label, Unit, Help string
	Kind                  string
	Options               [][2]string
	Get                   func(p *plan.Plan) string
	set                   func(p *plan.Plan, text string) error
}

// Enter takes what was typed into a field: an edit, or a sentence beside it.
func (r *Room) Enter(id, text string) {
	if id == "palette" { // needs no plan
		r.Do("palette", text)
		return
	}
	if r.Watch.enter(id, text) {
		return
	}
	r.Startup.whenStarted(func() { r.Forms.enter(id, text) })
}

func (fm *Forms) enter(id, text string) {
	defer fm.ports.redraw()
	if id == "station-search" {
		fm.stations.find(text)
		return
	}
	if form := fm.formOf(id); form != nil {
		(*form)[id] = text
		return
	}
	f, ok := fm.FieldOf(id)
	if !ok {
		return
	}
	err := fm.history.change(func(p *plan.Plan) error { return f.set(p, text) })
	if err == nil {
		delete(fm.Rejected, id)
		if id == DepartDayField.ID {
			fm.offerSeries()
		}
		return
	}
	fm.Rejected[id] = rejected{Text: text, Wrong: phrase.Capital(plain(err)) + ".", Choices: fm.choicesOf(err)}
}

// plain is an error without the name of the member of the file, which the field
// that it stands beside names already.
func plain(err error) string {
	var wrong *plan.Errors
	if !errors.As(err, &wrong) || len(wrong.List) == 0 {
		return strings.TrimSuffix(err.Error(), ".")
	}
	text := wrong.List[0].Error()
	if _, after, found := strings.Cut(text, ": "); found {
		text = after
	}
	return strings.TrimSuffix(text, ".")
}

// choicesOf are the answers to a clock time that occurs twice.
func (fm *Forms) choicesOf(err error) []choice {
	var twice *entry.Ambiguous
	if !errors.As(err, &twice) {
		return nil
	}
	var list []choice
	for _, t := range []time.Time{twice.First, twice.Second} {
		list = append(list, choice{t.In(fm.history.Plan.Zone).Format("15:04 (UTC-07:00)"), t.Format(time.RFC3339)})
	}
	return list
}

// FieldOf finds a field by its id.
func (fm *Forms) FieldOf(id string) (Field, bool) {
	for _, list := range [][]Field{DayFields, BoatFields, MarginFields, ChartFields, fm.stayFields(), fm.routeFields(), TideFields, WeatherFields} {
		if i := slices.IndexFunc(list, func(f Field) bool { return f.ID == id }); i >= 0 {
			return list[i], true
		}
	}
	return Field{}, false
}

// spell writes a number as it is typed: no more decimals than it has.
func spell(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func spelled(v *float64) string {
	if v == nil {
		return ""
	}
	return spell(*v)
}

// measure is a field of a number that is always there.
func measure(id, label, unit, help string, at func(p *plan.Plan) *float64) Field {
	return Field{ID: id, Label: label, Unit: unit, Help: help,
		Get: func(p *plan.Plan) string {
			if v := *at(p); v != 0 || !needsValue[id] {
				return spell(v)
			}
			return ""
		},
		set: func(p *plan.Plan, text string) error {
			v, err := quantity(unit, text)
			if err == nil {
				*at(p) = v
			}
			return err
		},
	}
}

// needsValue are the fields where a zero stands for nothing typed yet.
var needsValue = map[string]bool{"draught": true, "cruise": true}

// maybe is a field of a number that may be unknown: empty is unknown.
func maybe(id, label, unit, help string, at func(p *plan.Plan, make bool) **float64) Field {
	return Field{ID: id, Label: label, Unit: unit, Help: help,
		Get: func(p *plan.Plan) string {
			v := at(p, false)
			if v == nil {
				return ""
			}
			return spelled(*v)
		},
		set: func(p *plan.Plan, text string) error {
			if strings.TrimSpace(text) == "" {
				if v := at(p, false); v != nil {
					*v = nil
				}
				return nil
			}
			n, err := quantity(unit, text)
			if err == nil {
				*at(p, true) = &n
			}
			return err
		},
	}
}

// own is a maybe of a pointer that the plan always holds.
func own(at func(p *plan.Plan) **float64) func(*plan.Plan, bool) **float64 {
	return func(p *plan.Plan, _ bool) **float64 { return at(p) }
}

// quantity reads a number in a unit.
func quantity(unit, text string) (float64, error) {
	switch unit {
	case "m":
		return entry.Metres(text)
	case "kn":
		return entry.Knots(text)
	case "°":
		return entry.Degrees(text)
	case "l":
		return entry.Litres(text)
	case "min":
		return entry.Minutes(text)
	}
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil {
		want := "a number is wanted"
		if unit != "" {
			want = "a number in " + unit + " is wanted, without the unit"
		}
		return 0, fmt.Errorf("%q is no number; %s", text, want)
	}
	return v, nil
}

// textField is a field of a text.
func textField(id, label, help string, at func(p *plan.Plan) *string) Field {
	return Field{ID: id, Label: label, Help: help,
		Get: func(p *plan.Plan) string { return *at(p) },
		set: func(p *plan.Plan, text string) error { *at(p) = strings.TrimSpace(text); return nil },
	}
}

// tick is a field of yes or no.
func tick(id, label, help string, at func(p *plan.Plan) *bool) Field {
	return Field{ID: id, Label: label, Help: help, Kind: BoxCheck,
		Get: func(p *plan.Plan) string {
			if *at(p) {
				return "yes"
			}
			return "no"
		},
		set: func(p *plan.Plan, text string) error { *at(p) = text == "yes"; return nil },
	}
}

// The kinds of a box.
const (
	BoxText   = ""
	BoxArea   = "area"
	BoxCheck  = "check"
	BoxSelect = "select"
)
