package state

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// Sketch is what is being drawn on the chart.
type Sketch struct {
	charts  *Charts
	forms   *Forms
	history *History
	ports   *Ports
	view    *View

	Mode   string
	Points int
	Form   *sketchForm
}

// sketchForm is the form of a zone or danger that was drawn.
type sketchForm struct {
	Mode   string
	points []orb.Point
	Wrong  string
}

// ZoneRules are RESTRN values of IHO S-57 that a skipper meets.
var ZoneRules = [][2]string{{"", "None but the limit"}, {"7", "No entry"}, {"8", "Entry restricted"}, {"1", "No anchoring"}, {"2", "Anchoring restricted"}}

// DangerKinds are S-57 classes.
var DangerKinds = [][2]string{{"UWTROC", "Rock"}, {"WRECKS", "Wreck"}, {"OBSTRN", "Obstruction"}}

// keep makes the sketch part of the plan.
func (s *Sketch) keep() {
	f := s.Form
	if f == nil {
		return
	}
	add := s.addDanger
	if f.Mode == ModeZone {
		add = s.addZone
	}
	if err := s.history.change(add); err != nil {
		f.Wrong = phrase.Capital(plain(err)) + "."
		return
	}
	s.Form = nil
	s.forms.clearDraft("draft-name")
}

func (s *Sketch) addDanger(p *plan.Plan) error {
	depth, err := optionalMetres(s.forms.Drafted("draft-depth"))
	if err != nil {
		return err
	}
	kind := s.forms.Drafted("draft-kind")
	if kind == "" {
		kind = DangerKinds[0][0]
	}
	if err := edit.AddHazard(p, s.Form.points, s.forms.Drafted("draft-name"), depth, kind); err != nil || depth == nil {
		return err
	}
	// The depth was given below chart datum: it is that of the charts there.
	datum := s.charts.datumAt(s.Form.points[0])
	if datum == 0 {
		return nil
	}
	return addProperties(&p.Private[len(p.Private)-1], map[string]string{"VERDAT": strconv.Itoa(datum)})
}

func optionalMetres(text string) (*float64, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	v, err := entry.Metres(text)
	return &v, err
}

func (s *Sketch) addZone(p *plan.Plan) error {
	var limit *float64
	if text := strings.TrimSpace(s.forms.Drafted("draft-limit")); text != "" {
		kn, err := entry.Knots(text)
		if err != nil {
			return err
		}
		limit = &kn
	}
	var rules []int
	if n, err := strconv.Atoi(s.forms.Drafted("draft-rule")); err == nil {
		rules = append(rules, n)
	}
	if limit == nil && len(rules) == 0 {
		return fmt.Errorf("a zone without a limit and without a rule would warn of nothing; give it one of them")
	}
	season, err := seasonOf(s.forms.Drafted("draft-from"), s.forms.Drafted("draft-to"))
	if err != nil {
		return err
	}
	if err := edit.AddZone(p, s.Form.points, s.forms.Drafted("draft-name"), limit, rules...); err != nil {
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

// PrivateName is the name of a zone or danger of the plan.
func PrivateName(f *plan.PrivateFeature) string {
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

// The modes of the chart.
const (
	ModeLook   = "look"
	ModeRoute  = "route"
	ModeZone   = "zone"
	ModeDanger = "danger"
)

// setMode changes what a tap on the chart does.
func (s *Sketch) setMode(mode string) {
	s.Mode, s.Points, s.Form = mode, 0, nil
	s.ports.chart.SetMode(mode)
	s.ports.redraw()
}

// finish takes a finished sketch.
func (s *Sketch) finish(g *gesture) {
	mode := g.Mode
	s.Mode, s.Points = ModeLook, 0
	s.ports.chart.SetMode(ModeLook)
	switch mode {
	case ModeRoute:
		s.sketchRoute(g.Coordinates)
	case ModeZone, ModeDanger:
		s.forms.clearDraft("draft-name")
		s.Form = &sketchForm{Mode: mode, points: g.Coordinates}
		s.view.Tab = TabCharts
	}
}

// sketchRoute adds a route.
func (s *Sketch) sketchRoute(points []orb.Point) {
	if s.history.try(func(p *plan.Plan) error { return edit.AddRoute(p, points, s.firstHour()) }) {
		s.view.Tab = TabRoute
	}
}

// firstHour is when a new day leaves until the skipper says otherwise: at the next
// whole hour of the clock, on the plan's day.
func (s *Sketch) firstHour() time.Time {
	next := s.ports.Device.Now().Truncate(time.Hour).Add(time.Hour)
	date, ok := s.history.Plan.Date()
	if !ok {
		return next
	}
	local := next.In(s.history.Plan.Zone)
	hour := local.Hour()
	if hour == 0 { // after 23:00 the next hour is tomorrow's
		hour = 23
	}
	return time.Date(date.Year(), date.Month(), date.Day(), hour, local.Minute(), 0, 0, s.history.Plan.Zone)
}
