package screen

import (
	"fmt"
	"math"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
	"keelroom/hazards/watch"
)

// anchorWatch is the part of the sheet about the anchor watch: how to start one, else how it
// stands.
func anchorWatch(r *state.Room) ui.UI {
	body := startWatch(r)
	if r.Watch.Running() {
		body = runningWatch(r)
	}
	return part("Anchor watch", ui.Div().Class("anchorwatch").Body(body...), false, "")
}

// watchLimits is what a browser cannot promise.
var watchLimits = []string{
	"A browser can be stopped by the device at any time, and then it watches nothing. Keep an anchor watch of your own.",
	"Keep this page in front and the device on its charger. When you switch to another app or page nobody watches, and the page tries to sound the alarm at once; many phones let no page sound once the screen is dark. Never lock it.",
	"Turn the volume up and the silent switch off, and unplug headphones. Then press “Sound the alarm now”, and hear whether it wakes you where you sleep.",
	"It knows only what the receiver tells. A position is often 5 to 10 m out, below deck more.",
	"Wind, depth and other boats are not watched.",
}

func startWatch(r *state.Room) []ui.UI {
	a := r.Watch
	line, wrong := a.RadiusLine()
	if a.Form.Wrong != "" {
		wrong = a.Form.Wrong
	}
	body := []ui.UI{
		ui.P().Text("Sounds an alarm when the boat leaves the circle that her anchor allows, and when she can no longer be seen."),
		cautionList(watchLimits),
		ui.Div().Class("row").Body(button(r, "Sound the alarm now", "watch-attempt", "")),
		watchBox(r, state.WatchRodeField, "Rode laid", "Chain and rope together, from the bow roller to the anchor.", a.RodeText()),
		watchBox(r, state.WatchDepthField, "Least water over the anchor", "Below the surface, at the lowest water while she lies there. The checks fill it in where they know it.", a.DepthText()),
		ui.P().Class("hint").Text(plannedLine(a)),
		ui.P().Class("hint").Text(line),
		ui.P().Class("wrong").Role("alert").Text(wrong),
		ui.P().Text("Press the button as the anchor touches the ground. The browser then asks whether this page may know where the device is: the watch is kept by that alone. " +
			"The position stays on this device, and is in no file that you export. The anchor's place is taken from the fixes of the next minute: hold her over it as long."),
		ui.P().Class("hint").Text("Positions want a page that came over https, or from this device itself (localhost)."),
		&press{Room: r, Label: "Anchor is down here", Do: "watch-drop", Class: "chief big"},
	}
	if a.Elsewhere {
		body = append([]ui.UI{ui.P().Class("wrong").Role("alert").Text("The anchor watch is kept in another tab or window of this browser. Go there, or close it and load this page again.")}, body...)
	}
	return body
}

// plannedLine says where figures come from that nobody has typed.
func plannedLine(a *state.AnchorWatch) string {
	if stay := a.Stay(); stay != nil && a.Planned() {
		return "Filled in as planned for " + stay.Name + ": type what is true here."
	}
	return ""
}

func watchBox(r *state.Room, id, label, help, text string) ui.UI {
	return &box{Room: r, ID: id, Label: label, Unit: "m", Help: help, Text: text}
}

func runningWatch(r *state.Room) []ui.UI {
	a := r.Watch
	s := a.Status()
	return []ui.UI{
		ui.P().ID("watch-state").Class("watchstate").TabIndex(-1).Text(watchWords(a, s)),
		ui.P().Class("heard").Aria("live", "polite").Text(heardWords(s)),
		resumedLine(a),
		ui.Dl().Class("facts").Body(watchFacts(r, s)...),
		ui.Ul().Class("cautions").Body(deviceLines(a)...),
		soundButton(r),
		ui.Div().Class("row").Body(
			button(r, "Show on the chart", "watch-go", ""), button(r, "Sound the alarm now", "watch-attempt", ""),
		),
		endButtons(r),
		moveForm(r),
		relayForm(r),
		intoPlan(r),
		part("What happened", watchLog(r), false, ""),
		cautionList(watchLimits[:3]),
	}
}

// endButtons end the watch at the second press, as one may be a slip of the finger.
func endButtons(r *state.Room) ui.UI {
	if !r.Watch.EndAsked {
		return ui.Div().Class("row").Body(button(r, "Anchor is up: end the watch", "watch-end", ""))
	}
	return ui.Div().Class("row").Body(
		ui.P().Text("Nobody watches once it has ended."),
		button(r, "Go on watching", "watch-keep-on", ""), button(r, "End the watch now", "watch-end-now", ""),
	)
}

func resumedLine(a *state.AnchorWatch) ui.UI {
	blind, known, ok := a.Resumes()
	switch {
	case !ok:
		return ui.P().Text("")
	case !known:
		return ui.P().Class("wrong").Text("The page was loaded again with the watch running, and the device's clock was set back: nobody knows for how long she was not seen.")
	}
	return ui.P().Class("wrong").Text(fmt.Sprintf("The page was loaded again with the watch running: she was not seen for %s.", lastingSeconds(blind)))
}

func watchFacts(r *state.Room, s watch.Status) []ui.UI {
	a := r.Watch
	list := []ui.UI{fact("Circle", fmt.Sprintf("%.0f\u00a0m, %.0f\u00a0m of rode", a.Watch.RadiusM, a.Watch.Laid.RodeM))}
	if s.Known {
		list = append(list, fact("From the anchor", fmt.Sprintf("%.0f\u00a0m, %s", s.DistanceM, bearing(&s.BearingDeg))))
	}
	switch {
	case a.Watch.Last.Time.IsZero():
	case s.Untimed:
		list = append(list, fact("Last position", "not known when"))
	default:
		list = append(list, fact("Last position", fmt.Sprintf("%s ago, good to %.0f\u00a0m", lastingSeconds(s.BlindFor), math.Ceil(a.Watch.Last.AccuracyM))))
	}
	if a.Watch.Phase == watch.Watching {
		list = append(list, fact("Anchor down", a.Watch.Started.In(r.Watch.Zone()).Format("15:04")))
	}
	return append(list, waterFacts(r)...)
}

// waterFacts are what the checks say of where she lies: the least water to come and the room to leeward.
func waterFacts(r *state.Room) []ui.UI {
	result, metres := r.Watch.Checked()
	if result == nil {
		return []ui.UI{wide("Water to come, room to leeward", "Not known: the plan has no stay at this place and hour, so nothing was checked here.")}
	}
	c := clocksOf(&r.Checks.Day)
	list := []ui.UI{fact("Least under the keel", down(result.ClearanceLeastM, "m"))}
	if low := nextLow(r, r.Watch.Now); low != nil {
		list = append(list, fact("Next low water", c.at(&low.Time)+", "+number(low.HeightM, 1, "m")))
	}
	lee := notKnown
	if room := result.LeeRoomM; room != nil {
		lee = fmt.Sprintf("%.0f\u00a0m: %.0f\u00a0min at 1\u00a0kn", math.Floor(*room), math.Floor(watch.LeeMinutes(*room, 1)))
	}
	return append(list, fact("Room to leeward", lee),
		wide("Checked for", fmt.Sprintf("%s of the plan, %.0f\u00a0m from this anchor", result.Name, math.Ceil(metres))))
}

func nextLow(r *state.Room, now time.Time) *plan.HighOrLow {
	t := r.Checks.Day.Report.Tide
	if t == nil {
		return nil
	}
	for i := range t.Events {
		if e := &t.Events[i]; e.Kind == plan.LowWater && e.Time.After(now) {
			return e
		}
	}
	return nil
}

// deviceLines are what of the device is not as a watch wants it.
func deviceLines(a *state.AnchorWatch) []ui.UI {
	var list []string
	if !a.ScreenOn {
		list = append(list, map[bool]string{
			true:  "The screen may go dark: the device did not agree to keep it on.",
			false: "This browser cannot keep the screen on. Set the device's screen to stay on.",
		}[a.ScreenAble])
	}
	switch b := &a.Battery; {
	case !b.Watched:
		list = append(list, "The battery is not watched: this browser does not tell of it.")
	case b.Low():
		list = append(list, fmt.Sprintf("The battery is down to %.0f %%. Charge the device.", math.Floor(100*b.Level)))
	}
	if a.NoPosition != "" {
		list = append(list, "The device says: "+a.NoPosition)
	}
	if a.Watch.Drop.BowM > 0 && !a.Watch.Drop.HeadingKnown {
		list = append(list, fmt.Sprintf("The plan has no wind for this hour, so the anchor's place is that of the device, not of the bow %.0f m ahead of it. Move the circle if that matters.", a.Watch.Drop.BowM))
	}
	items := make([]ui.UI, len(list))
	for i, text := range list {
		items[i] = ui.Li().Text(text)
	}
	return items
}

// soundButton is there while the browser holds the sound back.
func soundButton(r *state.Room) ui.UI {
	if r.Watch.SoundOn {
		return ui.Div()
	}
	return ui.Div().Class("row").Body(
		ui.P().Class("wrong").Role("alert").Text("No alarm can be heard: the browser holds the sound back until you touch the page."),
		&press{Room: r, Label: "Turn the sound on", Do: "watch-sound", Class: "chief big"},
	)
}

// intoPlan is the one way by which the anchor's place gets into a file.
func intoPlan(r *state.Room) ui.UI {
	if r.Watch.Watch.Phase != watch.Watching || r.Watch.Stay() == nil {
		return ui.Div()
	}
	return ui.Details().Class("way").Body(
		ui.Summary().Text("Keep the anchor's place in the plan"),
		ui.P().Class("hint").Text("Otherwise it stays in this watch, and is gone with it. Once in the plan it is in every file of the plan that you export or share, and after you take it out again it stays among the plan's earlier states."),
		ui.Div().Class("row").Body(button(r, "Write it into "+r.Watch.Stay().Name, "watch-plan", "")),
	)
}

func moveForm(r *state.Room) ui.UI {
	a := r.Watch
	return ui.Details().Class("way").Body(
		ui.Summary().Text("Move the circle"),
		&box{Room: r, ID: state.WatchBearingField, Label: "Bearing of the anchor from the boat", Unit: "°", Help: "Degrees true.", Text: a.Form.Bearing},
		&box{Room: r, ID: state.WatchDistanceField, Label: "Distance to the anchor", Unit: "m", Help: "From the device.", Text: a.Form.Distance},
		ui.P().Class("wrong").Role("alert").Text(a.Form.MoveWrong),
		ui.Div().Class("row").Body(button(r, "Set the anchor there", "watch-move", ""), button(r, a.AimedAt(), "watch-aimed", "")),
	)
}

func relayForm(r *state.Room) ui.UI {
	a := r.Watch
	return ui.Details().Class("way").Body(
		ui.Summary().Text("More or less rode is laid"),
		watchBox(r, state.WatchRodeField, "Rode laid", "Chain and rope together, from the bow roller to the anchor.", a.RodeText()),
		watchBox(r, state.WatchDepthField, "Least water over the anchor", "Below the surface, at the lowest water while she lies there.", a.DepthText()),
		ui.P().Class("wrong").Role("alert").Text(a.Form.RelayWrong),
		ui.Div().Class("row").Body(button(r, "Use this circle", "watch-relay", "")),
	)
}

// watchEvents word what happened.
var watchEvents = map[watch.Event]string{
	watch.Began: "Anchor down", watch.Set: "The anchor's place is known", watch.Drags: "The anchor drags",
	watch.Holds: "In the circle again", watch.Moved: "The circle was moved", watch.Relaid: "The rode was changed",
	watch.Blinded: "Not seen", watch.Ended: "Anchor up",
}

// watchLog is what happened, the newest first.
func watchLog(r *state.Room) ui.UI {
	var items []ui.UI
	zone := r.Watch.Zone()
	for i := len(r.Watch.Watch.Log) - 1; i >= 0; i-- {
		e := r.Watch.Watch.Log[i]
		text := e.From.In(zone).Format("15:04:05") + " " + watchEvents[e.What]
		if e.What == watch.Blinded {
			text += " for " + loggedFor(&e) + ": " + pastCauses[e.Cause]
		}
		items = append(items, ui.Li().Text(text))
	}
	return ui.Ul().Class("cautions").Body(items...)
}

// loggedFor is how long something lasted.
func loggedFor(e *watch.Entry) string {
	if e.Cause == watch.ClockSetBack {
		return "a time that nobody knows"
	}
	return lastingSeconds(e.To.Sub(e.From))
}

// pastCauses say why she was not seen.
var pastCauses = map[watch.Cause]string{
	watch.NoFix: "no position came", watch.PoorAccuracy: "the positions were too poor", watch.NotPermitted: "positions were not allowed",
	watch.PageHidden: "the page was not in front", watch.NoReceiver: "there was no receiver", watch.ProgramHalted: "the page was closed or stopped",
	watch.NoAccuracy: "the positions had no accuracy", watch.ClockSetBack: "the clock was set back",
}
