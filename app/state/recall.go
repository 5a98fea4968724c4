package state

import (
	"fmt"
	"strings"
	"time"

	"keelroom/hazards/plan"
)

// recalled is the day as the check that was last before the page was left gave it. It is
// shown at the start, marked as that, while the same plan is checked anew on the same
// charts by the same version.
type recalled struct {
	of    string // what it was worked out from
	texts map[string]string
}

// DayDocs are the documents of a check that are stored.
var DayDocs = []string{"report", "private", "day"}

const (
	// storeAfter is how long a checked day must stand before it is stored.
	storeAfter = 2 * time.Second
	// recallLasts is how long a day may stand that is being checked anew.
	recallLasts = 10 * time.Second
)

// Recalled says whether the day on the screen is that of the last time.
func (c *Checks) Recalled() bool { return c.recalled != nil }

// inputs names all that a check goes by: the version, the plan and the charts. It is ""
// where a day may not be recalled, as a chart is not stored or cannot be used.
func (c *Checks) inputs() string {
	charts, whole := c.charts.stored()
	if !whole || c.history.Open.Text == "" || len(c.aside.stops) > 0 {
		return ""
	}
	return strings.Join(append([]string{c.build, c.history.Open.ID, c.history.Open.Text}, charts...), "\x00")
}

// stored names the charts, and says whether every one of them will be the same at the
// next start.
func (cs *Charts) stored() (names []string, whole bool) {
	if len(cs.cells.Opening) > 0 {
		return nil, false
	}
	for _, s := range cs.Sets {
		switch {
		case s.demo:
			names = append(names, DemoSet)
		case !s.kept || s.unsaved || s.unsorted || s.Rev == "" || s.saving != nil || s.joining != nil || len(s.waiting) > 0:
			return nil, false
		default:
			names = append(names, fmt.Sprintf("%s %s", s.ID, s.Rev))
		}
		if s.Failed != "" {
			return nil, false
		}
	}
	return names, true
}

// recall shows the day of the last time, if it is of the same plan and charts.
func (c *Checks) recall() {
	of := c.inputs()
	if of == "" {
		return
	}
	c.ports.store.LastDay(of, func(docs map[string]Doc) {
		if docs == nil || c.Day.Report != nil || c.Checking.Failed != "" || len(c.Checking.Problems) > 0 || of != c.inputs() {
			return
		}
		texts := textsOfDay(docs)
		report, err := plan.DecodeReport([]byte(texts["report"]))
		if err != nil {
			return // it is checked anew all the same
		}
		c.recalled = &recalled{of, texts}
		c.showDay(report, docs)
		c.Checking.since, c.Checking.sinceChart = noPlan, noPlan
		c.ports.Device.After(recallLasts, c.forget)
		c.ports.redraw()
	})
}

func textsOfDay(docs map[string]Doc) map[string]string {
	texts := map[string]string{}
	for _, name := range DayDocs {
		if d := docs[name]; d != nil {
			texts[name] = d.String()
		}
	}
	return texts
}

// forget takes the day of the last time off the screen.
func (c *Checks) forget() {
	if c.recalled == nil {
		return
	}
	c.recalled = nil
	c.Day = Day{Plan: c.history.Plan}
	c.Shown++
	c.clearViews()
	c.ports.redraw()
}

// compareRecalled takes the day of the last time off the screen once it is not of what
// is open any more.
func (c *Checks) compareRecalled() {
	if c.recalled != nil && c.recalled.of != c.inputs() {
		c.forget()
	}
}

// confirms says whether a check has given what is on the screen from the last time: then
// it is not drawn again.
func (c *Checks) confirms(docs map[string]Doc) bool {
	if c.recalled == nil {
		return false
	}
	now := textsOfDay(docs)
	for _, name := range DayDocs {
		if now[name] != c.recalled.texts[name] {
			return false
		}
	}
	return true
}

// store stores the checked day for the next start, once it has stood for a while.
func (c *Checks) store(docs map[string]Doc) {
	shown := c.Shown
	c.ports.Device.After(storeAfter, func() {
		if shown != c.Shown || c.Stale() {
			return
		}
		if of := c.inputs(); of != "" {
			c.ports.store.StoreDay(of, docs)
		}
	})
}
