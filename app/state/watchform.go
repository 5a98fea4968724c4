package state

import (
	"fmt"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/geo"
	"keelroom/hazards/plan"
	"keelroom/hazards/watch"
)

// watchForm is what is typed for a watch.
type watchForm struct {
	Rode, Depth       string // as typed; "" is what the plan and the report have
	Bearing, Distance string
	Wrong             string
	MoveWrong         string
	RelayWrong        string
	typedRode         bool
	typedDepth        bool
}

// The fields of the watch.
const (
	WatchRodeField     = "watch-rode"
	WatchDepthField    = "watch-depth"
	WatchBearingField  = "watch-bearing"
	WatchDistanceField = "watch-distance"
)

// enter takes what was typed into a field of the watch; it says whether the field is one.
func (a *AnchorWatch) enter(id, text string) bool {
	text = strings.TrimSpace(text)
	switch id {
	case WatchRodeField:
		a.Form.Rode, a.Form.typedRode = text, true
	case WatchDepthField:
		a.Form.Depth, a.Form.typedDepth = text, true
	case WatchBearingField:
		a.Form.Bearing = text
	case WatchDistanceField:
		a.Form.Distance = text
	default:
		return false
	}
	a.Form.Wrong, a.Form.MoveWrong, a.Form.RelayWrong = "", "", ""
	a.ports.redraw()
	return true
}

// Stay is the stay at anchor that the watch is about: the one of this hour, else the first. nil
// where the plan has none.
func (a *AnchorWatch) Stay() *plan.Stay {
	var first *plan.Stay
	now := a.ports.Device.Now()
	for _, s := range a.history.Plan.Stays() {
		if s.Kind != plan.AtAnchor {
			continue
		}
		if first == nil {
			first = s
		}
		if r := a.resultOf(s); r != nil && r.Arrive != nil && !now.Before(*r.Arrive) && now.Before(s.Until) {
			return s
		}
	}
	return first
}

// Result is what the report says of that stay, nil where it says nothing.
func (a *AnchorWatch) Result() *plan.StayResult { return a.resultOf(a.Stay()) }

func (a *AnchorWatch) resultOf(s *plan.Stay) *plan.StayResult {
	d := a.report()
	if s == nil || d == nil || d.Report == nil {
		return nil
	}
	for i := range d.Report.Stays {
		if r := &d.Report.Stays[i]; r.Name == s.Name && r.At == s.At {
			return r
		}
	}
	return nil
}

// Checked is what the report says of the water where she lies now: of the stay of this hour, where
// its anchor lies in the circle of the watch, and the report is of the plan as it is. metres is how far the two anchors are apart. nil where the
// checks were of another place or time: they say nothing of this one.
func (a *AnchorWatch) Checked() (r *plan.StayResult, metres float64) {
	r = a.Result()
	if r == nil || a.old() || a.Watch.Phase != watch.Watching || r.Arrive == nil || r.Until == nil || a.Now.Before(*r.Arrive) || !a.Now.Before(*r.Until) {
		return nil, 0
	}
	if metres = geo.DistanceM(r.At, a.Watch.Anchor); metres > a.Watch.RadiusM {
		return nil, 0
	}
	return r, metres
}

// RodeText is the rode that is laid, as typed or as planned.
func (a *AnchorWatch) RodeText() string {
	if a.Form.typedRode {
		return a.Form.Rode
	}
	if a.Running() {
		return spell(a.Watch.Laid.RodeM)
	}
	if s := a.Stay(); s != nil && s.RodeM != nil {
		return spell(*s.RodeM)
	}
	if r := a.Result(); r != nil && r.RodeM != nil {
		return spell(*r.RodeM)
	}
	return ""
}

// Planned says whether a figure of the form is the plan's, and not typed.
func (a *AnchorWatch) Planned() bool {
	return !a.Form.typedRode && a.RodeText() != "" || !a.Form.typedDepth && a.DepthText() != ""
}

// DepthText is the least water over the anchor, as typed or as the report has it.
func (a *AnchorWatch) DepthText() string {
	if a.Form.typedDepth {
		return a.Form.Depth
	}
	if a.Running() {
		return spell(a.Watch.Laid.DepthM)
	}
	if r := a.Result(); r != nil && r.DepthLeastM != nil {
		return spell(*r.DepthLeastM)
	}
	return ""
}

// typed is what is laid, from the form and the boat.
func (a *AnchorWatch) typed() (laid watch.Laid, name string, err error) {
	b := &a.history.Plan.Boat
	laid = watch.Laid{PositionM: a.history.Plan.Margins.PositionM}
	if b.LengthM != nil {
		laid.LengthM = *b.LengthM
	}
	if a.RodeText() == "" {
		return laid, "", fmt.Errorf("how much rode is laid is not given; type its metres, counted from the bow roller to the anchor")
	}
	if laid.RodeM, err = entry.Metres(a.RodeText()); err != nil {
		return laid, "", err
	}
	laid.ChainM = laid.RodeM
	if r := b.Rode; r != nil {
		laid.BowRollerM = r.BowRollerM
		if r.ChainM != nil && r.RopeM > 0 {
			laid.ChainM = *r.ChainM
		}
	}
	if a.DepthText() != "" {
		if laid.DepthM, err = entry.Metres(a.DepthText()); err != nil {
			return laid, "", err
		}
	}
	if s := a.Stay(); s != nil {
		name = s.Name
	}
	return laid, name, nil
}

// RadiusLine says how large the circle will be, and of what; wrong is why there is none.
func (a *AnchorWatch) RadiusLine() (line, wrong string) {
	laid, _, err := a.typed()
	var radius float64
	if err == nil {
		radius, err = laid.RadiusM()
	}
	if err != nil {
		return "", sentenceOf(err)
	}
	flat := radius - laid.LengthM - laid.PositionM
	line = fmt.Sprintf("The circle will be %.0f m: %.0f m of rode stretched flat, %.0f m of boat, %.0f m for the place of the anchor.", radius, flat, laid.LengthM, laid.PositionM)
	if a.DepthText() == "" {
		line += " The water is not given, so the circle is a little larger than it has to be."
	}
	if laid.LengthM == 0 {
		line += " The boat's length is not given; it is under Boat."
	}
	return line, ""
}

// bow is how far the bow lies from the device, and which way: into the wind that the report has
// for the stay of this hour.
func (a *AnchorWatch) bow() watch.Drop {
	d := watch.Drop{BowM: a.history.Plan.Boat.DeviceFromBowM}
	now, r := a.ports.Device.Now(), a.Result()
	if r != nil && r.WindFromDeg != nil && r.Arrive != nil && r.Until != nil && !now.Before(*r.Arrive) && now.Before(*r.Until) {
		d.HeadingDeg, d.HeadingKnown = *r.WindFromDeg, true
	}
	return d
}

// moveBy sets the anchor's place by bearing and distance from the boat.
func (a *AnchorWatch) moveBy() {
	if !a.Running() {
		return
	}
	bearing, err := entry.Degrees(a.Form.Bearing)
	metres := 0.0
	if err == nil {
		metres, err = entry.Metres(a.Form.Distance)
	}
	var at orb.Point
	if err == nil {
		at, err = a.Watch.PlaceFrom(a.ports.Device.Now(), bearing, metres)
	}
	if err != nil {
		a.Form.MoveWrong = sentenceOf(err)
		return
	}
	a.place(at)
}

// AimedAt says in words which place of the chart moveToAimed takes.
func (a *AnchorWatch) AimedAt() string {
	if _, tapped, _ := a.aimed(); tapped {
		return "Set it at the tapped place"
	}
	return "Set it at the middle of the chart"
}

// moveToAimed sets the anchor's place on the chart.
func (a *AnchorWatch) moveToAimed() {
	if at, _, ok := a.aimed(); ok && a.Running() {
		a.place(at)
	}
}

func (a *AnchorWatch) place(at orb.Point) {
	a.Now = a.ports.Device.Now()
	a.Watch.Place(a.Now, at)
	a.Form.Bearing, a.Form.Distance = "", ""
	a.keep()
	a.follow()
}

// relay takes in that more or less rode is laid.
func (a *AnchorWatch) relay() {
	if !a.Running() {
		return
	}
	laid, _, err := a.typed()
	if err == nil {
		a.Now = a.ports.Device.Now()
		err = a.Watch.Relay(a.Now, laid)
	}
	if err != nil {
		a.Form.RelayWrong = sentenceOf(err)
		return
	}
	a.Form.typedRode, a.Form.typedDepth = false, false
	a.keep()
	a.follow()
}

// intoPlan writes the anchor's place into the stay of the plan, because the skipper says so: it is
// then in what is exported.
func (a *AnchorWatch) intoPlan(try func(func(*plan.Plan) error) bool) {
	stay := a.Stay()
	if !a.Running() || a.Watch.Phase != watch.Watching || stay == nil {
		return
	}
	for i, s := range a.history.Plan.Stays() {
		if s == stay {
			try(func(p *plan.Plan) error {
				at := a.Watch.Started.Truncate(time.Second)
				p.Stays()[i].Dropped = &plan.Dropped{Time: at, At: a.Watch.Anchor}
				return nil
			})
			return
		}
	}
}

// sentenceOf is an error as a sentence.
func sentenceOf(err error) string { return phrase.Capital(plain(err)) + "." }

// LackWords says why no position can be had.
func LackWords(why string) string {
	switch why {
	case "insecure":
		return "this page came over a connection that browsers give no position to; open it over https, or as localhost on this device"
	case "none":
		return "this device or browser gives no position; keep the watch on one that does"
	}
	return ""
}
