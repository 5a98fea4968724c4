package app

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"keelroom/app/entry"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// readTable reads the drafted tide table: nothing is guessed about its zone.
func (fm *forms) readTable() (entry.Tides, error) {
	day, _ := planDay(fm.history.plan)
	form := entry.TideForm{Day: day, Plan: fm.history.plan.Zone}
	switch fm.drafted("draft-tide-zone") {
	case "plan":
		form.Table = fm.history.plan.Zone
	case "standard":
		if form.Day.Year == 0 { // the standard time of a zone has changed over the years
			return entry.Tides{}, errors.New("give the plan its day first: without it, standard time in its zone is not known")
		}
		form.Table = entry.StandardTime(fm.history.plan.Zone, form.Day.Year)
	case "ut":
		form.Table = time.UTC
	default:
		return entry.Tides{}, errors.New("choose the zone that the times of the table are in: an hour's mistake is a metre of water")
	}
	return entry.TideTable(fm.drafted("draft-tide"), form)
}

// useTable makes the drafted table the plan's tide.
func (fm *forms) useTable() {
	tides, err := fm.readTable()
	if err == nil && len(tides.Events) < 2 {
		err = errors.New("two waters at least are wanted, a high and a low one")
	}
	datum := 0
	if err == nil {
		datum, err = chosenDatum(fm.drafted("draft-tide-datum"))
	}
	fm.useTide("draft-tide-use", err, &plan.TideSource{Station: fm.drafted("draft-tide-name"), Datum: datum, Events: tides.Events})
}

func chosenDatum(text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n == 0 {
		return 0, errors.New("choose what the heights are above; it stands at the head of the table")
	}
	return n, nil
}

func (fm *forms) useLevel() {
	level, err := entry.Metres(fm.drafted("draft-level"))
	datum := 0
	if err == nil {
		datum, err = chosenDatum(fm.drafted("draft-level-datum"))
	}
	fm.useTide("draft-level-use", err, &plan.TideSource{Station: "Steady level", Datum: datum, LevelM: &level})
}

// useSecondary makes the plan's tide that of a secondary port of it.
func (fm *forms) useSecondary() {
	if fm.history.plan.Tide == nil {
		return
	}
	high, err := fm.correction("draft-hw")
	low, err2 := fm.correction("draft-lw")
	reference := *fm.history.plan.Tide
	reference.AdjustM = 0
	source := &plan.TideSource{Station: fm.drafted("draft-second-name"), Datum: fm.history.plan.Tide.Datum, AdjustM: fm.history.plan.Tide.AdjustM,
		Secondary: &plan.Secondary{Reference: &reference, High: high, Low: low}}
	fm.useTide("draft-second-use", errors.Join(err, err2), source)
}

func (fm *forms) correction(id string) (*plan.Correction, error) {
	minutes, err := entry.Minutes(fm.drafted(id + "-min"))
	if err != nil {
		return nil, err
	}
	metres, err := entry.Metres(fm.drafted(id + "-m"))
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
func (fm *forms) useTide(form string, err error, source *plan.TideSource) {
	if err == nil {
		err = usable(source)
	}
	if err == nil {
		if old := fm.history.plan.Tide; old != nil && source.AdjustM == 0 && source.LevelM == nil { // a gauge knows the weather already
			source.AdjustM = old.AdjustM
		}
		err = fm.history.change(func(p *plan.Plan) error { p.Tide = source; return nil })
	}
	fm.wrongAt(form, err)
	if err == nil {
		fm.clearDraft(strings.TrimSuffix(form, "use"))
		fm.notices.notify(false, "The tide is in use. "+tideLine(fm.history.plan.Tide))
	}
}

// forms holds what is typed: into fields of the plan, and into forms that are taken as a whole.
type forms struct {
	history  *history
	notices  *notices
	ports    *ports
	stations *stations

	typed  map[string]typing
	drafts map[string]draft
}
