package screen

import (
	"fmt"
	"math"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/watch"
)

// watchBar stands on the chart while a watch runs, whatever the sheet shows.
func watchBar(r *state.Room) ui.UI {
	a := r.Watch
	if a.Elsewhere {
		return ui.Div().Class("watchbar watchbar-doubt").Body(ui.P().Text("The anchor watch is kept in another tab or window, and not in this one."))
	}
	if !a.Running() {
		return ui.Div().Class("watchbar gone")
	}
	s := a.Status()
	words := "Anchor watch. " + watchWords(a, s)
	if !a.SoundOn {
		words += " Its sound is off."
	}
	if !a.ScreenOn {
		words += " The screen may go dark."
	}
	return ui.Div().Class("watchbar " + watchColour(a, s)).Body(ui.P().Text(words))
}

// watchColour is the class of the bar: only a boat that is seen in her circle looks well.
func watchColour(a *state.AnchorWatch, s watch.Status) string {
	switch {
	case s.Dragging || s.Blind != watch.Sees || s.Unplaced || a.Sounding():
		return "watchbar-alarm"
	case s.Phase != watch.Watching || !s.Known || s.BeyondM > 0 || !a.SoundOn:
		return "watchbar-doubt"
	}
	return ""
}

// watchAlarm covers the screen while an alarm is to be heard, and while none could be.
func watchAlarm(r *state.Room) ui.UI {
	a := r.Watch
	switch {
	case a.Sounding():
	case a.Silent():
		return silentCover(r)
	default:
		return ui.Div().Class("alarm gone")
	}
	title, words := alarmWords(a, a.Status())
	hint := "It is silent for two minutes then, and sounds again if nothing has changed."
	if a.Status().Alarm == watch.NoAlarm {
		hint = "It is silent then, and sounds again at 10 and at 5 %."
	}
	return ui.Div().Class("alarm").Role("alertdialog").Aria("modal", "true").Aria("labelledby", "alarm-title").Aria("describedby", "alarm-words").Body(
		ui.Div().Class("card").Body(
			ui.H2().ID("alarm-title").Text(title),
			ui.P().ID("alarm-words").Text(words),
			ui.P().Text(silentLine(a)),
			&alarmButton{Room: r},
			ui.P().Class("hint").Text(hint),
		))
}

// alarmWords are those of the alarm that is heard, which is the one that the button silences.
func alarmWords(a *state.AnchorWatch, s watch.Status) (title, words string) {
	switch s.Alarm {
	case watch.DragAlarm:
		return "Anchor dragging", watchWords(a, s)
	case watch.SightAlarm:
		return "Nobody is watching", blindWords(s)
	case watch.PlaceAlarm:
		return "The anchor has no place", unplacedWords
	}
	return "Low battery", fmt.Sprintf("The battery is down to %.0f %%: the watch ends with it. Charge the device.", math.Floor(100*a.Battery.Level))
}

// silentCover asks for the touch that browsers want before a page may sound.
func silentCover(r *state.Room) ui.UI {
	return ui.Div().Class("alarm").Role("alertdialog").Aria("modal", "true").Aria("labelledby", "silent-title").Aria("describedby", "silent-words").Body(
		ui.Div().Class("card").Body(
			ui.H2().ID("silent-title").Text("No alarm can be heard"),
			ui.P().ID("silent-words").Text("The anchor watch is running, and the browser holds its sound back until you touch the page. "+watchWords(r.Watch, r.Watch.Status())),
			&press{Room: r, Label: "Touch to go on watching", Do: "watch-sound", Class: "chief huge"},
		))
}

func silentLine(a *state.AnchorWatch) string {
	if a.SoundOn {
		return ""
	}
	return "The browser holds the sound back: touch the page to hear the alarm."
}

// alarmButton is the button that silences the alarm; it takes the focus.
type alarmButton struct {
	ui.Compo
	Room  *state.Room
	since time.Time // it is there
}

// keysFrom is how long keys do nothing to the button: what was being typed as the alarm came was
// not meant for it.
const keysFrom = time.Second

// Render draws the button.
func (b *alarmButton) Render() ui.UI {
	return ui.Button().Type("button").ID("watch-acknowledge").Class("press chief huge").Text("I have seen it").OnClick(b.onClick)
}

// OnMount gives the button the focus: a key is enough then.
func (b *alarmButton) OnMount(ctx ui.Context) {
	b.since = time.Now()
	ctx.Defer(func(ui.Context) {
		if b.Mounted() {
			b.JSValue().Call("focus")
		}
	})
}

func (b *alarmButton) onClick(_ ui.Context, e ui.Event) {
	if byKey := e.Get("detail").Int() == 0; byKey && time.Since(b.since) < keysFrom {
		return
	}
	b.Room.Do("watch-ack", "")
}
