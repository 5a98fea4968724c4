package screen

import (
	"fmt"
	"math"
	"strings"
	"time"

	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// notKnown stands for every figure that the report does not have.
const notKnown = "not known"

// clocks writes times of day in one zone.
// day is the departure: a time of another local day is written with its date.
type clocks struct {
	zone *time.Location
	day  *time.Time
}

// clocksOf are those of a checked day.
func clocksOf(d *state.Day) clocks {
	c := clocks{zone: d.Plan.Zone}
	if d.Report != nil {
		c.day = d.Report.Depart
	}
	return c
}

func (c clocks) at(t *time.Time) string {
	if t == nil {
		return notKnown
	}
	local := t.In(c.zone)
	if c.day != nil && local.Format(time.DateOnly) != c.day.In(c.zone).Format(time.DateOnly) {
		return local.Format("Mon 2 Jan 15:04")
	}
	return local.Format("15:04")
}

// span is a time, or from when until when where the two differ by the clock.
func (c clocks) span(from, to *time.Time) string {
	if from == nil {
		return "the whole day"
	}
	a := c.at(from)
	if to == nil || c.at(to) == a {
		return a
	}
	return a + " – " + c.at(to)
}

// down writes what must not look more than it is, up what must not look less:
// metres in hundredths, as the words of a finding give them, so that one figure
// is never read as two; the rest in tenths of the unit. A millionth off a tenth
// is that tenth.
func down(v *float64, unit string) string {
	if unit == "m" {
		return metres(v, plan.FloorHundredths)
	}
	return tenths(v, unit, math.Floor, 1e-6)
}

func up(v *float64, unit string) string {
	if unit == "m" {
		return metres(v, plan.CeilHundredths)
	}
	return tenths(v, unit, math.Ceil, -1e-6)
}

func metres(v *float64, round func(float64) float64) string {
	if v == nil {
		return notKnown
	}
	return number(round(*v), 2, "m")
}

func tenths(v *float64, unit string, round func(float64) float64, near float64) string {
	if v == nil {
		return notKnown
	}
	return number(round(*v*10+near)/10, 1, unit)
}

// figure writes a figure with so many decimals.
func figure(v *float64, decimals int, unit string) string {
	if v == nil {
		return notKnown
	}
	return number(*v, decimals, unit)
}

func number(v float64, decimals int, unit string) string {
	s := fmt.Sprintf("%.*f", decimals, v)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	if after, negative := strings.CutPrefix(s, "-"); negative {
		s = "−" + after
	}
	if unit == "" || unit == "°" {
		return s + unit
	}
	return s + "\u00a0" + unit
}

// bearing writes degrees true with three figures.
func bearing(v *float64) string {
	if v == nil {
		return notKnown
	}
	return fmt.Sprintf("%03d°", int(math.Round(*v))%360)
}

// degrees writes an angle of which less is worse, in whole degrees rounded down.
func degrees(v *float64) string {
	if v == nil {
		return notKnown
	}
	return number(math.Floor(*v+1e-6), 0, "°")
}

// lasting writes minutes as hours and minutes.
func lasting(minutes *float64) string {
	if minutes == nil {
		return notKnown
	}
	n := int(math.Ceil(*minutes))
	if n < 60 {
		return fmt.Sprintf("%d\u00a0min", n)
	}
	return fmt.Sprintf("%d\u00a0h %02d\u00a0min", n/60, n%60)
}
