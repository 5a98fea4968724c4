package state

import (
	"strings"
	"time"

	"keelroom/app/edit"
	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// WeatherFields are the wind, swell and streams as tables.
var WeatherFields = []Field{
	{ID: edit.Wind, Label: "Wind", Kind: BoxArea, Help: "One line a time: clock, direction it comes from, knots, gusts: 09:00 SW 12 18. The day is the plan's; put a date before the clock for another. Knots only.",
		Get: func(p *plan.Plan) string { return entry.FormatWind(p.Wind, p.Zone) },
		set: tableInto(entry.WindTable, func(p *plan.Plan) *[]plan.Wind { return &p.Wind })},
	{ID: edit.Swell, Label: "Swell", Kind: BoxArea, Help: "One line a time: clock, direction it comes from, height in metres, period in seconds: 09:00 W 0.4 7.",
		Get: func(p *plan.Plan) string { return entry.FormatSwell(p.Swell, p.Zone) },
		set: tableInto(entry.SwellTable, func(p *plan.Plan) *[]plan.Swell { return &p.Swell })},
	{ID: edit.Stream, Label: "Streams", Kind: BoxArea, Help: "One line a time: clock, direction it runs TOWARD, knots: 09:00 NE 1.2. Without streams all speeds are over the ground.",
		Get: func(p *plan.Plan) string { return entry.FormatStream(p.Stream, p.Zone) },
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

func DateWords(t time.Time) string { return t.Format("Monday 2 January 2006") }

// seriesLeft are the tables that were left behind on another day.
func (fm *Forms) seriesLeft() (ids, names []string) {
	for _, f := range WeatherFields {
		if days, _ := edit.SeriesOff(fm.history.Plan, f.ID); days != 0 {
			ids, names = append(ids, f.ID), append(names, strings.ToLower(f.Label))
		}
	}
	return ids, names
}

// offerSeries asks, once the plan has another day, whether what was typed for the
// old one is to come along.
func (fm *Forms) offerSeries() {
	ids, names := fm.seriesLeft()
	if len(ids) == 0 {
		return
	}
	day, _ := fm.history.Plan.Date()
	fm.notices.add(Notice{Text: phrase.Capital(phrase.Joined(names)) + " stay on the day they were given for. For the plan's day none is given now.",
		Do: "series-move", arg: strings.Join(ids, " "), label: "Move to " + DateWords(day)})
}

// moveSeries brings tables to the plan's day, in one step.
func moveSeries(r *Room, ids string) {
	r.History.try(func(p *plan.Plan) error {
		for _, id := range strings.Fields(ids) {
			if err := edit.MoveSeries(p, id); err != nil {
				return err
			}
		}
		return nil
	})
}
