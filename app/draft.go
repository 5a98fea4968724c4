package app

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/entry"
	"keelroom/hazards/plan"
)

// draft holds what is typed into forms that are taken as a whole: a sketched
// zone, a tide table, a secondary port, a wind table.
type draft map[string]string

// formOf finds the draft that a field belongs to, nil for a field of the plan.
func (fm *forms) formOf(id string) *draft {
	if strings.HasPrefix(id, "draft-") {
		form := formName(id)
		if fm.drafts == nil {
			fm.drafts = map[string]draft{}
		}
		if fm.drafts[form] == nil {
			fm.drafts[form] = draft{}
		}
		d := fm.drafts[form]
		return &d
	}
	return nil
}

// formName is the form that a drafted field belongs to.
func formName(id string) string {
	for _, form := range []string{"draft-tide", "draft-level", "draft-second", "draft-hw", "draft-lw"} {
		if strings.HasPrefix(id, form) {
			switch form {
			case "draft-hw", "draft-lw":
				return "draft-second"
			}
			return form
		}
	}
	return "draft-sketch"
}

// drafted is what was typed into a field of a draft.
func (fm *forms) drafted(id string) string { return fm.drafts[formName(id)][id] }

// clearDraft empties the form that a field belongs to.
func (fm *forms) clearDraft(id string) { delete(fm.drafts, formName(id)) }

// draftBox is a field of a draft.
func draftBox(r *Room, id, label, unit, help string) *box {
	return &box{Room: r, ID: id, Label: label, Unit: unit, Help: help, Text: r.forms.drafted(id), Wrong: r.forms.typed[id].wrong}
}

func draftSelect(r *Room, id, label, help string, options [][2]string) *box {
	b := draftBox(r, id, label, "", help)
	b.Kind, b.Options = boxSelect, options
	return b
}

// wrongAt says beside a field of a draft what is wrong.
func (fm *forms) wrongAt(id string, err error) {
	delete(fm.typed, id)
	if err != nil {
		fm.typed[id] = typing{wrong: capital(plain(err)) + "."}
	}
}

// sketchFormView is the form of the zone or danger just drawn.
func sketchFormView(r *Room) ui.UI {
	f := r.sketch.form
	if f == nil {
		return ui.Div()
	}
	title := "The zone you sketched"
	var fields []ui.UI
	if f.mode == modeZone {
		fields = []ui.UI{
			draftBox(r, "draft-name", "Name", "", "What you call it."),
			draftBox(r, "draft-limit", "Speed limit", "kn", "Empty where there is none."),
			draftSelect(r, "draft-rule", "Rule", "What is forbidden in it.", zoneRules),
			draftBox(r, "draft-from", "In force from", "", "Month and day, as 05-01. Empty: all year."),
			draftBox(r, "draft-to", "In force to", "", "Month and day, as 09-30."),
		}
	} else {
		title = "The danger you sketched"
		fields = []ui.UI{
			draftBox(r, "draft-name", "Name", "", "What you call it."),
			draftSelect(r, "draft-kind", "Kind", "What it is.", dangerKinds),
			draftBox(r, "draft-depth", "Depth over it", "m", "Below chart datum, drying heights with a minus. Empty: not known, and then she keeps off."),
		}
	}
	fields = append(fields,
		ui.P().Class("wrong").Role("alert").Text(f.wrong),
		ui.Div().Class("row").Body(&press{Room: r, Label: "Keep it", Do: "sketch-keep", Class: "chief"}, button(r, "Drop it", "sketch-drop", "")))
	return ui.FieldSet().Class("form").Body(append([]ui.UI{ui.Legend().Text(title)}, fields...)...)
}

// zoneRules are RESTRN values of IHO S-57 that a skipper meets.
var zoneRules = [][2]string{{"", "None but the limit"}, {"7", "No entry"}, {"8", "Entry restricted"}, {"1", "No anchoring"}, {"2", "Anchoring restricted"}}

// dangerKinds are S-57 classes.
var dangerKinds = [][2]string{{"UWTROC", "Rock"}, {"WRECKS", "Wreck"}, {"OBSTRN", "Obstruction"}}

// keepSketch makes the sketch part of the plan.
func (s *sketch) keep() {
	f := s.form
	if f == nil {
		return
	}
	add := s.addDanger
	if f.mode == modeZone {
		add = s.addZone
	}
	if err := s.history.change(add); err != nil {
		f.wrong = capital(plain(err)) + "."
		return
	}
	s.form = nil
	s.forms.clearDraft("draft-name")
}

func (s *sketch) addDanger(p *plan.Plan) error {
	depth, err := optionalMetres(s.forms.drafted("draft-depth"))
	if err != nil {
		return err
	}
	kind := s.forms.drafted("draft-kind")
	if kind == "" {
		kind = dangerKinds[0][0]
	}
	if err := edit.AddHazard(p, s.form.points, s.forms.drafted("draft-name"), depth, kind); err != nil || depth == nil {
		return err
	}
	// The depth was given below chart datum: it is that of the charts there.
	datum := s.charts.datumAt(s.form.points[0])
	if datum == 0 {
		return nil
	}
	return addProperties(&p.Private[len(p.Private)-1], map[string]string{"VERDAT": strconv.Itoa(datum)})
}

// datumAt is the sounding datum (VERDAT) that all open charts about a place have, 0
// where they differ or one does not state it.
func (r *charts) datumAt(at orb.Point) (datum int) {
	for _, s := range r.sets {
		b := s.info.Bounds
		if s.reading {
			return 0 // it may have another
		}
		if s.failed != "" || b == nil || at[0] < b[0] || at[1] < b[1] || at[0] > b[2] || at[1] > b[3] {
			continue
		}
		if s.info.Datum == 0 || datum != 0 && s.info.Datum != datum {
			return 0
		}
		datum = s.info.Datum
	}
	return datum
}

func optionalMetres(text string) (*float64, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	v, err := entry.Metres(text)
	return &v, err
}

func (s *sketch) addZone(p *plan.Plan) error {
	var limit *float64
	if text := strings.TrimSpace(s.forms.drafted("draft-limit")); text != "" {
		kn, err := entry.Knots(text)
		if err != nil {
			return err
		}
		limit = &kn
	}
	var rules []int
	if n, err := strconv.Atoi(s.forms.drafted("draft-rule")); err == nil {
		rules = append(rules, n)
	}
	if limit == nil && len(rules) == 0 {
		return fmt.Errorf("a zone without a limit and without a rule would warn of nothing; give it one of them")
	}
	season, err := seasonOf(s.forms.drafted("draft-from"), s.forms.drafted("draft-to"))
	if err != nil {
		return err
	}
	if err := edit.AddZone(p, s.form.points, s.forms.drafted("draft-name"), limit, rules...); err != nil {
		return err
	}
	return addProperties(&p.Private[len(p.Private)-1], season)
}

// seasonOf is the months and days between which a zone is in force, as S-57
// writes them (PERSTA and PEREND, --MMDD); none for all year.
func seasonOf(from, to string) (map[string]string, error) {
	from, to = strings.TrimSpace(from), strings.TrimSpace(to)
	if from == "" && to == "" {
		return nil, nil
	}
	season := map[string]string{}
	for name, text := range map[string]string{"PERSTA": from, "PEREND": to} {
		// 2024 had a 29th of February.
		if _, err := time.Parse(time.DateOnly, "2024-"+text); err != nil {
			return nil, fmt.Errorf("%q is no month and day; both ends of the season are wanted, as 05-01 and 09-30", text)
		}
		season[name] = "--" + strings.ReplaceAll(text, "-", "")
	}
	return season, nil
}

// addProperties adds properties to a feature of the plan's own layer.
func addProperties(f *plan.PrivateFeature, more map[string]string) error {
	if len(more) == 0 {
		return nil
	}
	var feature map[string]any
	if err := json.Unmarshal(f.Feature, &feature); err != nil {
		return err
	}
	properties, _ := feature["properties"].(map[string]any)
	for name, text := range more {
		properties[name] = text
	}
	b, err := json.Marshal(feature)
	f.Feature = b
	return err
}

// privateName is the name of a zone or danger of the plan.
func privateName(f *plan.PrivateFeature) string {
	var feature struct {
		Properties map[string]any `json:"properties"`
	}
	_ = json.Unmarshal(f.Feature, &feature) // it was read as a feature before
	for _, key := range []string{"name", "OBJNAM"} {
		if s, ok := feature.Properties[key].(string); ok && s != "" {
			return s
		}
	}
	if f.Role == plan.RoleZone {
		return "A zone without a name"
	}
	return "A danger without a name"
}
