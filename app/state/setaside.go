package state

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

	"keelroom/app/engine"
)

// Aside knows the inputs that the engine stopped on.
type Aside struct {
	settings *Settings

	stops []stop
}

// An input that the engine stopped on is tried once more; when it stopped on it
// twice, it is set aside: the rest of the app goes on without it, and says so. What
// is known of such inputs is kept, so that a reload does not begin anew.

// Asked is what identifies the input of a request.
type Asked struct {
	Kind, Plan, Set, Name string
	Files                 []string // names and sizes
}

// AskedOf is what identifies the input of a request; it holds no file.
func AskedOf(q engine.Request) Asked {
	a := Asked{Kind: q.Kind, Plan: q.Plan, Set: q.Set, Name: q.Name}
	for _, f := range q.Files {
		a.Files = append(a.Files, fmt.Sprintf("%s %d", f.Name, len(f.Data)))
	}
	return a
}

// AskedOfFile is the same of a request about a file.
func AskedOfFile(q engine.Request, f File) Asked {
	return Asked{Kind: q.Kind, Files: []string{fmt.Sprintf("%s %d", f.Name, f.Data.Size())}}
}

// key is a short name of the input, "" for none that could be set aside.
func (a *Asked) key() string {
	var parts []string
	switch a.Kind {
	case engine.CheckPlan, engine.Ribbon, engine.AskPlace: // that one can be answered says nothing of the others
		parts = []string{"plan", a.Kind, a.Plan}
	case engine.PutSet:
		parts = append([]string{"chart", a.Set}, a.Files...)
	case engine.SortFiles, engine.OpenFile:
		parts = append([]string{"files", a.Kind}, a.Files...)
	default:
		return ""
	}
	b, _ := json.Marshal(parts) // texts only: does not fail
	sum := sha256.Sum256(b)
	return parts[0] + " " + hex.EncodeToString(sum[:12])
}

// CanBeSetAside reports whether a request that the engine stops on is left out in the end.
func (a *Asked) CanBeSetAside() bool { return a.key() != "" }

// stop is an input that the engine stopped on, and how often.
type stop struct {
	Key   string `json:"key"`
	Times int    `json:"times"`
}

const (
	enoughStops = 2
	mostStops   = 50 // are remembered; the oldest is forgotten first
)

// read brings back what was kept of the inputs that the engine stopped on.
func (as *Aside) read() {
	if err := json.Unmarshal([]byte(as.settings.Values[settingStops]), &as.stops); err != nil {
		as.stops = nil // none, or written by something else
	}
}

// EngineStoppedOn takes note that the engine stopped while it worked on a request, and
// was started again.
func (r *Room) EngineStoppedOn(why string, a Asked) {
	if key := a.key(); key != "" {
		r.aside.count(key)
	}
	r.EngineLost(why)
}

func (as *Aside) count(key string) {
	i := slices.IndexFunc(as.stops, func(s stop) bool { return s.Key == key })
	if i < 0 {
		if len(as.stops) >= mostStops {
			as.stops = slices.Delete(as.stops, 0, 1)
		}
		i, as.stops = len(as.stops), append(as.stops, stop{Key: key})
	}
	as.stops[i].Times++
	as.keep()
}

func (as *Aside) keep() {
	b, _ := json.Marshal(as.stops) // plain data: does not fail
	as.settings.set(settingStops, string(b))
}

// has reports whether an input is one that the engine has stopped on too often.
func (as *Aside) has(a Asked) bool {
	if len(as.stops) == 0 {
		return false
	}
	key := a.key()
	return slices.ContainsFunc(as.stops, func(s stop) bool { return s.Key == key && s.Times >= enoughStops })
}

// answered forgets that the engine ever stopped on an input, once it has worked it out.
func (as *Aside) answered(a Asked, reply engine.Reply) {
	if len(as.stops) == 0 || reply.State != engine.Done && reply.State != engine.Failed {
		return
	}
	key, n := a.key(), len(as.stops)
	as.stops = slices.DeleteFunc(as.stops, func(s stop) bool { return s.Key == key })
	if len(as.stops) != n {
		as.keep()
	}
}

// TryAgain gives what was set aside to the engine once more.
func (r *Room) TryAgain() {
	r.aside.stops = nil
	r.aside.keep()
	r.Checks.Checking.Aside = false
	for _, s := range slices.Clone(r.Charts.Sets) {
		switch {
		case s.unsorted:
			r.Cells.sortAgain(s)
		case s.aside:
			s.aside = false
			r.Charts.send(s, nil)
		}
	}
	r.Checks.recheck()
}

// planAside shows that the plan is set aside, and no verdict.
func (c *Checks) planAside() {
	c.Checking.Aside = true
	c.nothingKnown(fmt.Sprintf("Twice the part that checks has stopped at this plan, %q, so it is set aside and not checked. Undo the last change, or open another plan; what you entered is kept.", c.history.Plan.Title))
}

// unusedChart says which chart is kept and not used, and why, "" for none: what is
// checked without it is not what the skipper asked for.
func (cs *Charts) unusedChart() string {
	for _, s := range cs.Sets {
		switch {
		case s.unsorted:
			return fmt.Sprintf("The chart %s is kept on this device and cannot be opened: %s", s.Name, s.Failed)
		case s.aside && s.kept:
			return fmt.Sprintf("The chart %s is set aside, as the part that checks has stopped at it twice.", s.Name)
		}
	}
	return ""
}

// setAside shows that there are no departures to choose from.
func (d *Departures) setAside() {
	d.ports.strip.SetRibbon(`{"step_min":10,"slots":[],"busy":false}`)
	d.notices.add(Notice{Grave: true, Text: "The other departures of this day are not worked out: twice the part that checks has stopped at them, so they are set aside.",
		Do: "try-again", label: "Try once more"})
}

const asideWords = "twice the part that checks has stopped at it, so it is set aside and nothing of it is used. Remove it, or try it once more."

// nothingKnown takes every answer off the screen and says why there is none.
func (c *Checks) nothingKnown(why string) {
	c.Checking.Failed, c.Checking.Problems = why, nil
	c.Checking.since, c.Checking.sinceChart = c.history.rev, c.charts.rev
	c.recalled = nil
	c.Day = Day{Plan: c.history.Plan}
	c.Shown++
	c.view.Progress = ""
	c.clearViews()
	c.ports.redraw()
}
