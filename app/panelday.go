package app

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/app/entry"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

var dayFields = []field{
	wordsField("title", "Title", "Names the plan in the list and on the sheet.", func(p *plan.Plan) *string { return &p.Title }),
	{id: "zone", label: "Time zone", help: "An IANA name such as Europe/London. Every clock time is in it; instants stay what they are when you change it.",
		get: func(p *plan.Plan) string { return p.ZoneName },
		set: func(p *plan.Plan, text string) error { return p.SetZone(strings.TrimSpace(text)) }},
	{id: "persons", label: "Aboard", unit: "persons", help: "For the sheet that stays ashore.", get: personsText, set: setPersons},
	wordsField("contact", "Contact ashore", "Who knows of the day.", func(p *plan.Plan) *string { return &p.ContactAshore }),
	{id: "back-by", label: "Back by", help: "The clock time by which she must be back; later is not clear. Empty: none. With a day before it where it is another one, as 2026-07-19 10:00; it does not move along with the day.", get: backText, set: setBack},
	{id: "notes", label: "Notes", kind: boxArea, help: "Only for you and on the sheet.",
		get: func(p *plan.Plan) string { return p.Notes },
		set: func(p *plan.Plan, text string) error { p.Notes = text; return nil }},
}

func personsText(p *plan.Plan) string {
	if p.Persons == 0 {
		return ""
	}
	return strconv.Itoa(p.Persons)
}

func setPersons(p *plan.Plan, text string) error {
	text = strings.TrimSpace(text)
	if text == "" {
		p.Persons = 0
		return nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		return fmt.Errorf("%q; a whole number of persons is wanted", text)
	}
	p.Persons = n
	return nil
}

func backText(p *plan.Plan) string {
	if p.BackBy == nil {
		return ""
	}
	return dayClock(p, *p.BackBy)
}

func setBack(p *plan.Plan, text string) error {
	if strings.TrimSpace(text) == "" {
		p.BackBy = nil
		return nil
	}
	at, err := readDayClock(p, text)
	if err == nil {
		p.BackBy = &at
	}
	return err
}

// tideFields are those of a tide that is there.
var tideFields = []field{
	{id: "adjust", label: "Adjust heights by", unit: "m", help: "Added to every height: negative when water stands low, about −0.01 m for each hPa above 1013. From a surge forecast or a gauge, never from an echo sounding.",
		get: func(p *plan.Plan) string {
			if p.Tide == nil {
				return "0"
			}
			return spell(p.Tide.AdjustM)
		},
		set: func(p *plan.Plan, text string) error {
			if p.Tide == nil {
				return fmt.Errorf("there is no tide yet; give one first")
			}
			v, err := entry.Metres(text)
			if err == nil {
				p.Tide.AdjustM = v
			}
			return err
		}},
	maybe("height-datum", "Datum of charted heights", "m", "How far the level that the chart's bridges are charted above, mean high water springs for instance, lies above the datum of this tide. Empty: as the tide's station says, if it does; else nothing is added, and the report says so.",
		func(p *plan.Plan, make bool) **float64 {
			if p.Tide == nil {
				if !make {
					return nil
				}
				p.Tide = &plan.TideSource{}
			}
			return &p.Tide.HeightDatumM
		}),
}

// dayPanel is the day: what it is called, its tide, wind and swell.
func dayPanel(r *Room) ui.UI {
	return ui.Div().Body(
		form(r, "The day", append([]field{departDayField, departField}, dayFields...)),
		tidePanel(r),
		weatherPanel(r),
	)
}

// tidePanel is the tide in use, and the ways to give another.
func tidePanel(r *Room) ui.UI {
	body := []ui.UI{ui.Legend().Text("Tide"), ui.P().ID("tide-line").Text(tideLine(r.history.plan.Tide)), ui.P().ID("tide-method").Class("hint").Text(tideMethod(r.history.plan.Tide))}
	if r.history.plan.Tide != nil {
		for _, f := range tideFields {
			body = append(body, fieldBox(r, f))
		}
	}
	body = append(body, stationForm(r), tableForm(r), secondaryForm(r), levelForm(r))
	return ui.FieldSet().Class("form").Body(body...)
}

// tideMethod says how far the heights are to be trusted, or why they cannot be used.
func tideMethod(t *plan.TideSource) string {
	if t == nil || t.Form() == "" {
		return ""
	}
	heights, err := hazards.NewTide(t)
	if err != nil {
		_, words, _ := strings.Cut(err.Error(), ": ")
		return "This tide cannot be used: " + words + "."
	}
	return capital(heights.Describe()) + "."
}

// tideLine says what the heights come from.
func tideLine(t *plan.TideSource) string {
	if t == nil {
		return "No tide is given: the clearance under the keel is not known."
	}
	name := t.Station
	if name == "" {
		name = "a place without a name"
	}
	datum := "a datum that is not named"
	if n, ok := tide.VERDATName(t.DatumOf()); ok {
		datum = n
	}
	switch t.Form() {
	case plan.Harmonic:
		return fmt.Sprintf("%s: %s, heights above %s.", name, counted(len(t.Constituents), "harmonic constituent", "harmonic constituents"), datum)
	case plan.Table:
		return fmt.Sprintf("%s: a table of %s, heights above %s. Between them the height is estimated; the margin grows for it.", name, counted(len(t.Events), "high or low water", "high and low waters"), datum)
	case plan.SecondaryPort:
		return fmt.Sprintf("%s: a secondary port, heights above %s.", name, datum)
	case plan.Tideless:
		return fmt.Sprintf("%s: no tide, a steady level of %s m above %s.", name, spelled(t.LevelM), datum)
	}
	return "The tide is not complete."
}

func stationForm(r *Room) ui.UI {
	rows := make([]ui.UI, len(r.stations.search.found))
	for i, s := range r.stations.search.found {
		line := s.Name
		if s.Country != "" {
			line += ", " + s.Country
		}
		if s.Km != nil {
			line += ", " + number(*s.Km, 0, "km")
		}
		line += ", above " + s.Datum
		rows[i] = ui.Li().Body(&press{Room: r, Label: line, Do: "station", Arg: s.ID, Class: "wide"})
	}
	state := r.stations.search.failed
	if r.stations.search.busy {
		state = "Searching."
	}
	return ui.Details().Class("way").Body(
		ui.Summary().Text("From a station of the list"),
		&box{Room: r, ID: "station-search", Label: "Name of a port", Help: "Empty: the nearest to the middle of the chart.", Text: r.stations.search.text},
		button(r, "Search", "stations", ""),
		ui.P().Class("hint").Aria("live", "polite").Text(state),
		ui.Ul().Class("stations").Body(rows...),
	)
}

// datumOptions are the vertical datums that tide lists use (IHO S-57, VERDAT).
func datumOptions() [][2]string {
	list := [][2]string{{"", "choose"}}
	for n := 1; n < 60; n++ {
		if name, ok := tide.VERDATName(n); ok {
			list = append(list, [2]string{strconv.Itoa(n), name})
		}
	}
	return list
}

const datumHelp = "The level that heights are above, as the table says it. It must be the chart's, or the difference must be given under Charts."

func tableForm(r *Room) ui.UI {
	text := draftBox(r, "draft-tide", "High and low waters", "", "One line each: date, clock, metres, such as 2026-07-18 03:12 0.4. Copy them as they stand in the table, every one, with HW or LW where it says so: 03:12 LW 0.4. Two that stand double: 16:50 HW 4.0 double.")
	text.Kind = boxArea
	text.Rows = 8
	return ui.Details().Class("way").Body(
		ui.Summary().Text("From a tide table"),
		draftBox(r, "draft-tide-name", "Port", "", "As the table names it."),
		draftSelect(r, "draft-tide-zone", "Times are in", "Tables are often in the zone's winter time or in Universal Time all year. Look at the head of the table.", tableZones),
		draftSelect(r, "draft-tide-datum", "Heights are above", datumHelp, datumOptions()),
		text,
		ui.P().Class("wrong").Role("alert").Text(r.forms.typed["draft-tide-use"].wrong),
		ui.Ul().Class("readings").Body(tablePreview(r)...),
		&press{Room: r, Label: "Use this table", Do: "tide-table", Class: "chief"},
	)
}

// tableZones are the zones that a tide table may be in.
var tableZones = [][2]string{{"", "choose"}, {"plan", "the plan's zone, with its summer time"}, {"standard", "the plan's zone without summer time"}, {"ut", "Universal Time (UT)"}}

func levelForm(r *Room) ui.UI {
	return ui.Details().Class("way").Body(
		ui.Summary().Text("No tide: a steady level"),
		draftBox(r, "draft-level", "Level", "m", "Above the datum, as a gauge or a notice says."),
		draftSelect(r, "draft-level-datum", "Above", datumHelp, datumOptions()),
		ui.P().Class("wrong").Role("alert").Text(r.forms.typed["draft-level-use"].wrong),
		button(r, "Use this level", "tide-level", ""),
	)
}

func secondaryForm(r *Room) ui.UI {
	if r.history.plan.Tide == nil || r.history.plan.Tide.Form() == plan.SecondaryPort || r.history.plan.Tide.Form() == plan.Tideless {
		return ui.Div()
	}
	return ui.Details().Class("way").Body(
		ui.Summary().Text("A secondary port of "+r.history.plan.Tide.Station),
		draftBox(r, "draft-second-name", "Secondary port", "", "As the table names it."),
		draftBox(r, "draft-hw-min", "High water later by", "min", "Negative for earlier."),
		draftBox(r, "draft-hw-m", "High water higher by", "m", "Negative for lower."),
		draftBox(r, "draft-lw-min", "Low water later by", "min", "Negative for earlier."),
		draftBox(r, "draft-lw-m", "Low water higher by", "m", "Negative for lower."),
		ui.P().Class("wrong").Role("alert").Text(r.forms.typed["draft-second-use"].wrong),
		button(r, "Use the secondary port", "tide-secondary", ""),
	)
}

// useStation puts a station's tide into the plan.
func (s *stations) use(body json.RawMessage) {
	var answer engine.StationBody
	if err := json.Unmarshal(body, &answer); err != nil {
		s.notices.notify(true, "The station cannot be read: "+err.Error())
		return
	}
	source, err := decodeTide(answer.Tide)
	if err != nil {
		s.notices.notify(true, "The station cannot be used: "+plain(err))
		return
	}
	if s.history.try(func(p *plan.Plan) error {
		if p.Tide != nil {
			source.AdjustM = p.Tide.AdjustM
		}
		p.Tide = source
		return nil
	}) {
		s.notices.notify(false, "Heights of tide are those of "+answer.Name+", above "+answer.DatumName+". "+answer.Attribution)
		for _, note := range answer.Notes { // what is doubtful about its datum or its record
			s.notices.notify(true, answer.Name+": "+note)
		}
		s.search.found = nil
	}
}

// decodeTide reads a plan's tide member.
func decodeTide(member []byte) (*plan.TideSource, error) {
	p, err := plan.DecodeDraft([]byte(`{"type":"FeatureCollection","features":[],"plan":{"version":1,"tide":` + string(member) + `}}`))
	if err != nil {
		return nil, err
	}
	return p.Tide, nil
}
