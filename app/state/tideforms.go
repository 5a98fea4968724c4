package state

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"keelroom/app/entry"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// ReadTable reads the drafted tide table: nothing is guessed about its zone.
func (fm *Forms) ReadTable() (entry.Tides, error) {
	day, _ := planDay(fm.history.Plan)
	form := entry.TideForm{Day: day, Plan: fm.history.Plan.Zone}
	switch fm.Drafted("draft-tide-zone") {
	case "plan":
		form.Table = fm.history.Plan.Zone
	case "standard":
		if form.Day.Year == 0 { // the standard time of a zone has changed over the years
			return entry.Tides{}, errors.New("give the plan its day first: without it, standard time in its zone is not known")
		}
		form.Table = entry.StandardTime(fm.history.Plan.Zone, form.Day.Year)
	case "ut":
		form.Table = time.UTC
	default:
		return entry.Tides{}, errors.New("choose the zone that the times of the table are in: an hour's mistake is a metre of water")
	}
	return entry.TideTable(fm.Drafted("draft-tide"), form)
}

// useTable makes the drafted table the plan's tide.
func (fm *Forms) useTable() {
	tides, err := fm.ReadTable()
	if err == nil && len(tides.Events) < 2 {
		err = errors.New("two waters at least are wanted, a high and a low one")
	}
	datum := 0
	if err == nil {
		datum, err = chosenDatum(fm.Drafted("draft-tide-datum"))
	}
	fm.useTide("draft-tide-use", err, &plan.TideSource{Station: fm.Drafted("draft-tide-name"), Datum: datum, Events: tides.Events})
}

func chosenDatum(text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n == 0 {
		return 0, errors.New("choose what the heights are above; it stands at the head of the table")
	}
	return n, nil
}

func (fm *Forms) useLevel() {
	level, err := entry.Metres(fm.Drafted("draft-level"))
	datum := 0
	if err == nil {
		datum, err = chosenDatum(fm.Drafted("draft-level-datum"))
	}
	fm.useTide("draft-level-use", err, &plan.TideSource{Station: "Steady level", Datum: datum, LevelM: &level})
}

// useSecondary makes the plan's tide that of a secondary port of it.
func (fm *Forms) useSecondary() {
	if fm.history.Plan.Tide == nil {
		return
	}
	high, err := fm.correction("draft-hw")
	low, err2 := fm.correction("draft-lw")
	reference := *fm.history.Plan.Tide
	reference.AdjustM = 0
	source := &plan.TideSource{Station: fm.Drafted("draft-second-name"), Datum: fm.history.Plan.Tide.Datum, AdjustM: fm.history.Plan.Tide.AdjustM,
		Secondary: &plan.Secondary{Reference: &reference, High: high, Low: low}}
	fm.useTide("draft-second-use", errors.Join(err, err2), source)
}

func (fm *Forms) correction(id string) (*plan.Correction, error) {
	minutes, err := entry.Minutes(fm.Drafted(id + "-min"))
	if err != nil {
		return nil, err
	}
	metres, err := entry.Metres(fm.Drafted(id + "-m"))
	return &plan.Correction{Minutes: minutes, Metres: &metres}, err
}

// usable says in words why no check could use a tide.
func usable(source *plan.TideSource) error {
	_, err := hazards.NewTide(source)
	if err == nil {
		return nil
	}
	_, words, _ := strings.Cut(err.Error(), ": ") // the member's path says nothing here
	return errors.New(words)
}

// useTide puts a tide into the plan, or says beside the form what is wrong.
func (fm *Forms) useTide(form string, err error, source *plan.TideSource) {
	if err == nil {
		err = usable(source)
	}
	if err == nil {
		if old := fm.history.Plan.Tide; old != nil && source.AdjustM == 0 && source.LevelM == nil { // a gauge knows the weather already
			source.AdjustM = old.AdjustM
		}
		err = fm.history.change(func(p *plan.Plan) error { p.Tide = source; return nil })
	}
	fm.wrongAt(form, err)
	if err == nil {
		fm.clearDraft(strings.TrimSuffix(form, "use"))
		fm.notices.notify(false, "The tide is in use. "+TideLine(fm.history.Plan.Tide))
	}
}

// Forms holds what is typed: into fields of the plan, and into forms that are taken as a whole.
type Forms struct {
	history  *History
	notices  *Notices
	ports    *Ports
	stations *Stations

	Rejected map[string]rejected
	drafts   map[string]draft
}
