package state

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"keelroom/app/edit"
	"keelroom/app/entry"
	"keelroom/hazards/plan"
)

// routeFields are those of the routes and their waypoints, by their places.
func (fm *Forms) routeFields() []Field {
	list := []Field{DepartField, DepartDayField}
	for part := range fm.history.Plan.Parts {
		route := fm.history.Plan.Parts[part].Route
		if route == nil {
			continue
		}
		list = append(list, NameField(part))
		for vertex := range route.Points {
			list = append(list, PositionField(part, vertex))
			if vertex > 0 {
				list = append(list, SpeedField(part, vertex-1))
			}
		}
	}
	return list
}

func NameField(part int) Field {
	return Field{ID: fmt.Sprintf("name-%d", part), Label: "Name",
		Get: func(p *plan.Plan) string {
			switch {
			case part >= len(p.Parts):
				return ""
			case p.Parts[part].Route != nil:
				return p.Parts[part].Route.Name
			}
			return p.Parts[part].Stay.Name
		},
		set: func(p *plan.Plan, text string) error {
			return edit.RenamePart(p, part, strings.TrimSpace(text))
		},
	}
}

// PositionField is a waypoint typed: for who cannot drag.
func PositionField(part, vertex int) Field {
	return Field{ID: fmt.Sprintf("at-%d-%d", part, vertex), Label: fmt.Sprintf("Waypoint %d", vertex+1),
		Help: "Degrees and decimal minutes with hemisphere letters, such as 43°01.25'N 036°02.10'W, or decimal degrees, latitude first.",
		Get: func(p *plan.Plan) string {
			if part >= len(p.Parts) || p.Parts[part].Route == nil || vertex >= len(p.Parts[part].Route.Points) {
				return ""
			}
			return entry.FormatPosition(p.Parts[part].Route.Points[vertex])
		},
		set: func(p *plan.Plan, text string) error {
			at, err := entry.Position(text)
			if err != nil {
				return err
			}
			return edit.MoveVertex(p, part, vertex, at.At)
		},
	}
}

func SpeedField(part, leg int) Field {
	return Field{ID: fmt.Sprintf("kn-%d-%d", part, leg), Label: fmt.Sprintf("Speed to waypoint %d", leg+2), Unit: "kn",
		Help: "Empty: cruising speed. Limits, warm-up and rough water hold it down in any case.",
		Get: func(p *plan.Plan) string {
			if part >= len(p.Parts) || p.Parts[part].Route == nil {
				return ""
			}
			if kn, ok := p.Parts[part].Route.SpeedKn(leg); ok {
				return spell(kn)
			}
			return ""
		},
		set: func(p *plan.Plan, text string) error {
			if strings.TrimSpace(text) == "" {
				return edit.SetSpeed(p, part, leg, nil)
			}
			kn, err := entry.Knots(text)
			if err != nil {
				return err
			}
			return edit.SetSpeed(p, part, leg, &kn)
		},
	}
}

// departure is when the day begins, nil without a route.
func departure(p *plan.Plan) *time.Time {
	if routes := p.Routes(); len(routes) > 0 {
		return routes[0].Depart
	}
	return nil
}

var DepartField = Field{ID: "depart", Label: "Leave at", Help: "The clock time in the plan's zone. The whole day moves along with it.",
	Get: func(p *plan.Plan) string {
		if t := departure(p); t != nil {
			return t.In(p.Zone).Format("15:04")
		}
		return ""
	},
	set: func(p *plan.Plan, text string) error {
		t := departure(p)
		if t == nil {
			return fmt.Errorf("there is no route yet; sketch one first")
		}
		at, err := clockOn(*t, p, text)
		if err != nil {
			return err
		}
		return edit.DepartAt(p, at)
	},
}

// clockOn reads a clock time on the local day of t, or an instant that answers
// which of two equal clock times is meant.
func clockOn(t time.Time, p *plan.Plan, text string) (time.Time, error) {
	if at, err := time.Parse(time.RFC3339, text); err == nil {
		return at, nil
	}
	return entry.Clock(text, entry.DayOf(t, p.Zone), p.Zone)
}

var DepartDayField = Field{ID: "depart-day", Label: "Day", Help: "As 2026-07-18; it can be given before there is a route. Stays and the time to be back move along by the clock. Wind, swell and streams keep their times until you move them; tide tables always do.",
	Get: func(p *plan.Plan) string {
		if date, ok := p.Date(); ok {
			return date.Format(time.DateOnly)
		}
		return ""
	},
	set: func(p *plan.Plan, text string) error {
		t := departure(p)
		if at, err := time.Parse(time.RFC3339, text); err == nil && t != nil { // answers which of two equal clock times
			return edit.SetDay(p, midnightOf(at.In(p.Zone)), at)
		}
		day, err := entry.Date(text)
		if err != nil {
			return err
		}
		var at time.Time
		if t != nil {
			if at, err = entry.Clock(t.In(p.Zone).Format("15:04"), day, p.Zone); err != nil {
				return err
			}
		}
		return edit.SetDay(p, time.Date(day.Year, day.Month, day.Day, 0, 0, 0, 0, time.UTC), at)
	},
}

// midnightOf is the date of a time, as plan.Plan.Date gives it.
func midnightOf(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// stayFields are those of the stays.
func (fm *Forms) stayFields() []Field {
	var list []Field
	for part := range fm.history.Plan.Parts {
		if fm.history.Plan.Parts[part].Stay != nil {
			list = append(list, NameField(part), StayKind(part), StayUntilField(part), StayPosition(part), SoundingField(part),
				maybe(fmt.Sprintf("rode-%d", part), "Rode to lay", "m", "What you mean to lay. Empty: what the checks work out.", ofStay(part, func(s *plan.Stay) **float64 { return &s.RodeM })))
		}
	}
	return list
}

func stayOf(p *plan.Plan, part int) *plan.Stay {
	if part < len(p.Parts) && p.Parts[part].Stay != nil {
		return p.Parts[part].Stay
	}
	return &plan.Stay{}
}

func ofStay(part int, at func(s *plan.Stay) **float64) func(*plan.Plan, bool) **float64 {
	return func(p *plan.Plan, _ bool) **float64 { return at(stayOf(p, part)) }
}

func StayKind(part int) Field {
	return Field{ID: fmt.Sprintf("kind-%d", part), Label: "Kind", Kind: BoxSelect,
		Options: [][2]string{{plan.AtAnchor, "At anchor"}, {plan.AtMooring, "On a mooring"}, {plan.AtBerth, "At a berth"}},
		Get:     func(p *plan.Plan) string { return stayOf(p, part).Kind },
		set:     func(p *plan.Plan, text string) error { stayOf(p, part).Kind = text; return nil },
	}
}

func StayPosition(part int) Field {
	return Field{ID: fmt.Sprintf("at-%d", part), Label: "Place",
		Help: "Degrees and decimal minutes with hemisphere letters, or decimal degrees, latitude first.",
		Get:  func(p *plan.Plan) string { return entry.FormatPosition(stayOf(p, part).At) },
		set: func(p *plan.Plan, text string) error {
			at, err := entry.Position(text)
			if err != nil {
				return err
			}
			return edit.MoveStay(p, part, at.At)
		},
	}
}

func StayUntilField(part int) Field {
	return Field{ID: fmt.Sprintf("until-%d", part), Label: "Leave at", Help: "The clock time in the plan's zone; with a day before it where it is another one, such as 2026-07-19 08:00.",
		Get: func(p *plan.Plan) string { return dayClock(p, stayOf(p, part).Until) },
		set: func(p *plan.Plan, text string) error {
			at, err := readDayClock(p, text)
			if err != nil {
				return err
			}
			return edit.SetUntil(p, part, at)
		},
	}
}

// SoundingField is what the echo sounder read at a stay, and when.
func SoundingField(part int) Field {
	return Field{ID: fmt.Sprintf("sounded-%d", part), Label: "Echo sounder reads", Unit: "m",
		Help: "Where the anchor lies: metres below the surface, then the clock time, such as 6.4 12:10. Add the depth of the transducer where the sounder reads from there.",
		Get: func(p *plan.Plan) string {
			s := stayOf(p, part)
			if s.SoundedM == nil || s.SoundedAt == nil {
				return ""
			}
			return spell(*s.SoundedM) + " " + dayClock(p, *s.SoundedAt)
		},
		set: func(p *plan.Plan, text string) error {
			s := stayOf(p, part)
			if strings.TrimSpace(text) == "" {
				s.SoundedM, s.SoundedAt = nil, nil
				return nil
			}
			read, err := entry.ReadSounding(text, func(clock string) (time.Time, error) { return readDayClock(p, clock) })
			if err == nil {
				s.SoundedM, s.SoundedAt = &read.M, &read.At
			}
			return err
		},
	}
}

// dayClock writes a time as a clock, with its day where that is not the plan's.
func dayClock(p *plan.Plan, at time.Time) string {
	local := at.In(p.Zone)
	if date, ok := p.Date(); ok && date.Equal(midnightOf(local)) {
		return local.Format("15:04")
	}
	return local.Format("2006-01-02 15:04")
}

// readDayClock reads it. Without a day it is that of the plan, which must have one.
func readDayClock(p *plan.Plan, text string) (time.Time, error) {
	text = strings.TrimSpace(text)
	if at, err := time.Parse(time.RFC3339, text); err == nil { // answers which of two equal clock times
		return at, nil
	}
	date, clock, found := strings.Cut(text, " ")
	if found && len(date) == len(time.DateOnly) {
		d, err := entry.Date(date)
		if err != nil {
			return time.Time{}, err
		}
		return entry.Clock(clock, d, p.Zone)
	}
	day, ok := planDay(p)
	if !ok {
		return time.Time{}, errors.New("the day is not known: give the plan its day first, or put a date before the time, as 2026-07-18 18:00")
	}
	return entry.Clock(text, day, p.Zone)
}

// planDay is the day of the plan; ok is false where it has none yet.
func planDay(p *plan.Plan) (day entry.Day, ok bool) {
	date, ok := p.Date()
	if !ok {
		return day, false
	}
	return entry.DayOf(date, time.UTC), true
}
