package plan

import (
	"errors"
	"fmt"
	"time"

	"keelroom/hazards/tide"
)

// tideField is a tide source that may be missing, with the check that it says in
// exactly one way where its heights come from.
func tideField(key string, p **TideSource, zone func() *time.Location) field {
	f := nested(key, p, func() TideSource { return TideSource{} })
	items := f.check
	f.check = func(c *checker) {
		items(c)
		if *p != nil {
			outer := c.path
			c.path = join(outer, key)
			(*p).checkForm(c, zone())
			c.path = outer
		}
	}
	return f
}

func (t *TideSource) checkForm(c *checker, zone *time.Location) {
	switch t.Form() {
	case Harmonic:
		if t.Z0M == nil {
			c.wrong("z0_m", "missing; with constituents the mean level above the datum is wanted")
		}
	case SecondaryPort:
		t.Secondary.check(c, zone)
	case Table:
		t.checkTable(c, "events", zone)
	case "":
		c.wrong("", "none or several of constituents, events, reference, level_m; one of them is wanted")
	}
}

// checkTable asks whether a tide table is whole. One that is not, or does not say
// so plainly, keeps the plan from being checked; it opens all the same, so that
// the table can be mended.
func (t *TideSource) checkTable(c *checker, path string, zone *time.Location) {
	if _, wrong := increasing(len(t.Events), func(i int) time.Time { return t.Events[i].Time }); wrong != "" {
		return // said elsewhere
	}
	_, err := tide.NewTable(t.Waters(zone))
	var at *tide.TableError
	switch {
	case errors.As(err, &at):
		c.incomplete(fmt.Sprintf("%s[%d]", path, at.Index), at.Said())
	case err != nil:
		c.incomplete(path, "a table of one line; at least one high and one low water are wanted")
	}
}

func (s *Secondary) check(c *checker, zone *time.Location) {
	switch {
	case s.Reference == nil:
		c.wrong("reference", "missing; the tide of the reference port is wanted")
	case s.Reference.Form() != Harmonic && s.Reference.Form() != Table:
		c.wrong("reference", "not a port with constituents or a table; one of the two is wanted")
	case s.Reference.Form() == Harmonic && s.Reference.Z0M == nil:
		c.wrong("reference.z0_m", "missing; with constituents the mean level above the datum is wanted")
	case s.Reference.Form() == Table:
		s.Reference.checkTable(c, "reference.events", zone)
	}
	s.High.check(c, "high")
	s.Low.check(c, "low")
}

func (k *Correction) check(c *checker, key string) {
	switch {
	case k == nil:
		c.wrong(key, "missing; minutes and metres or factor are wanted")
	case (k.Metres == nil) == (k.Factor == nil):
		c.wrong(key, "both or neither of metres and factor; one of them is wanted")
	}
}
