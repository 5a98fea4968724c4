package app

import (
	"strings"
	"time"

	"keelroom/app/edit"
	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// weatherFields are the wind, swell and streams as tables.
var weatherFields = []field{
	{id: edit.Wind, label: "Wind", kind: boxArea, help: "One line a time: clock, direction it comes from, knots, gusts: 09:00 SW 12 18. The day is the plan's; put a date before the clock for another. Knots only.",
		get: func(p *plan.Plan) string { return entry.FormatWind(p.Wind, p.Zone) },
		set: tableInto(entry.WindTable, func(p *plan.Plan) *[]plan.Wind { return &p.Wind })},
	{id: edit.Swell, label: "Swell", kind: boxArea, help: "One line a time: clock, direction it comes from, height in metres, period in seconds: 09:00 W 0.4 7.",
		get: func(p *plan.Plan) string { return entry.FormatSwell(p.Swell, p.Zone) },
		set: tableInto(entry.SwellTable, func(p *plan.Plan) *[]plan.Swell { return &p.Swell })},
	{id: edit.Stream, label: "Streams", kind: boxArea, help: "One line a time: clock, direction it runs TOWARD, knots: 09:00 NE 1.2. Without streams all speeds are over the ground.",
		get: func(p *plan.Plan) string { return entry.FormatStream(p.Stream, p.Zone) },
		set: tableInto(entry.StreamTable, func(p *plan.Plan) *[]plan.Stream { return &p.Stream })},
}

// tableInto reads a table into a series of the plan; nothing typed is none. A line
// without a date means the plan's day.
func tableInto[T any](read func(string, entry.Day, *time.Location) ([]T, []entry.Line, error), at func(p *plan.Plan) *[]T) func(*plan.Plan, string) error {
	return func(p *plan.Plan, text string) error {
		if strings.TrimSpace(text) == "" {
			*at(p) = nil
			return nil
		}
		day, _ := planDay(p) // without one the table says that it is missing
		list, _, err := read(text, day, p.Zone)
		if err == nil {
			*at(p) = list
		}
		return err
	}
}

func dateWords(t time.Time) string { return t.Format("Monday 2 January 2006") }

// seriesLeft are the tables that were left behind on another day.
func (fm *forms) seriesLeft() (ids, names []string) {
	for _, f := range weatherFields {
		if days, _ := edit.SeriesOff(fm.history.plan, f.id); days != 0 {
			ids, names = append(ids, f.id), append(names, strings.ToLower(f.label))
		}
	}
	return ids, names
}

// offerSeries asks, once the plan has another day, whether what was typed for the
// old one is to come along.
func (fm *forms) offerSeries() {
	ids, names := fm.seriesLeft()
	if len(ids) == 0 {
		return
	}
	day, _ := fm.history.plan.Date()
	fm.notices.add(notice{text: phrase.Capital(phrase.Joined(names)) + " stay on the day they were given for. For the plan's day none is given now.",
		do: "series-move", arg: strings.Join(ids, " "), label: "Move to " + dateWords(day)})
}

// moveSeries brings tables to the plan's day, in one step.
func moveSeries(r *Room, ids string) {
	r.history.try(func(p *plan.Plan) error {
		for _, id := range strings.Fields(ids) {
			if err := edit.MoveSeries(p, id); err != nil {
				return err
			}
		}
		return nil
	})
}
