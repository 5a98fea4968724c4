package state

import (
	"fmt"
	"strconv"
	"strings"

	"keelroom/hazards/plan"
)

var DayFields = []Field{
	textField("title", "Title", "Names the plan in the list and on the sheet.", func(p *plan.Plan) *string { return &p.Title }),
	{ID: "zone", Label: "Time zone", Help: "An IANA name such as Europe/London. Every clock time is in it; instants stay what they are when you change it.",
		Get: func(p *plan.Plan) string { return p.ZoneName },
		set: func(p *plan.Plan, text string) error { return p.SetZone(strings.TrimSpace(text)) }},
	{ID: "persons", Label: "Aboard", Unit: "persons", Help: "For the sheet that stays ashore.", Get: personsText, set: setPersons},
	textField("contact", "Contact ashore", "Who knows of the day.", func(p *plan.Plan) *string { return &p.ContactAshore }),
	{ID: "back-by", Label: "Back by", Help: "The clock time by which she must be back; later is not clear. Empty: none. With a day before it where it is another one, as 2026-07-19 10:00; it does not move along with the day.", Get: backText, set: setBack},
	{ID: "notes", Label: "Notes", Kind: BoxArea, Help: "Only for you and on the sheet.",
		Get: func(p *plan.Plan) string { return p.Notes },
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
