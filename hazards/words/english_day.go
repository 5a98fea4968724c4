package words

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"keelroom/hazards/facts"
)

// englishDay are the details of findings about the day: its light, fuel and times.
var englishDay = map[string]Sentence{
	facts.Dark: say(func(t *Teller, l facts.Light) string {
		return "After civil dusk or before civil dawn, from " + t.Clock(l.From) + " to " + t.Clock(l.To) + "."
	}),
	facts.Twilight: say(func(t *Teller, l facts.Light) string {
		return "The sun is down from " + t.Clock(l.From) + " to " + t.Clock(l.To) + "."
	}),
	facts.CodeFuelNotKnown: say(func(_ *Teller, f facts.FuelNotKnown) string {
		if f.FastestKn == 0 {
			return "No burn curve is given: add litres an hour at two or more speeds."
		}
		return fmt.Sprintf("The burn curve ends below %.1f kn, which the plan asks for: add a point at or above it.", f.FastestKn)
	}),
	facts.CodeTankNotKnown: say(func(_ *Teller, f facts.Fuel) string {
		return fmt.Sprintf("The day burns %.0f l; what is in the tank is not given.", f.BurnsL)
	}),
	facts.CodeNotEnoughFuel: say(func(_ *Teller, f facts.Fuel) string {
		return fmt.Sprintf("The day burns %.0f l, %.0f l are in the tank.", f.BurnsL, f.TankL)
	}),
	facts.CodeIntoReserve: say(func(_ *Teller, f facts.Fuel) string {
		return fmt.Sprintf("The day burns %.0f l and leaves %.0f l; %.0f l are to be kept.", f.BurnsL, f.LeavesL, f.ReserveL)
	}),
	facts.CodeLateAtStay: say(func(t *Teller, l facts.Late) string {
		return "She arrives at " + t.Clock(l.Comes) + ", after the stay should have ended at " + t.Clock(l.Due) + ". The day is planned on from there."
	}),
	facts.CodeBackTooLate: say(func(t *Teller, l facts.Late) string {
		return "She is back at " + t.Clock(l.Comes) + "; " + t.Clock(l.Due) + " is wanted."
	}),
	facts.CodeOtherClock: say(func(_ *Teller, o facts.OtherClock) string {
		if o.Own.Name != "" {
			return fmt.Sprintf("The plan's times are in %s. %s, whose tide it has, is in %s: %s apart. Set the zone of the place, and look at every time again.",
				zone(o.Plan), station(o.Station), zone(o.Own), duration(o.ApartMin))
		}
		return fmt.Sprintf("The plan's times are in %s. The day begins at %s, where the sun's time is %s from that: no place there keeps such a clock. Set the zone of the place, and look at every time again.",
			zone(o.Plan), position(o.At), duration(o.ApartMin))
	}),
}

// zone names a zone of clock times, with its offset.
func zone(z facts.Zone) string {
	sign, m := "+", z.OffsetMin
	if m < 0 {
		sign, m = "-", -m
	}
	return fmt.Sprintf("%s (UTC%s%02d:%02d)", z.Name, sign, m/60, m%60)
}

// position writes a position as a skipper reads it, to a tenth of a minute.
func position(p orb.Point) string {
	return degreesMinutes(p.Lat(), "N", "S") + " " + degreesMinutes(p.Lon(), "E", "W")
}

func degreesMinutes(deg float64, plus, minus string) string {
	side := plus
	if deg < 0 {
		side = minus
	}
	tenths := math.Round(math.Abs(deg) * 600)
	return fmt.Sprintf("%.0f°%04.1f'%s", math.Floor(tenths/600), math.Mod(tenths, 600)/10, side)
}
