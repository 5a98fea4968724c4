package layer

import (
	"fmt"

	"keelroom/geo/chart"
)

// Codes that make an area a speed zone (S-57 RESTRN 13, 27; S-101 CATREA 24).
var (
	speedRestrictions = chart.CodesOf(13, 27)
	noWakeAreas       = chart.CodesOf(24)
)

// ruleReader reads what an object forbids or limits, and when.
type ruleReader struct{ r *reading }

// rules reads restrictions and speed limits. A restricted area always has
// them; another class has them if it states any. An area is a speed zone by
// its codes or by stating a speed; a line or point that states one is refused,
// because it does not say where the limit ends.
func (u ruleReader) rules(f *chart.Feature) {
	restricted := f.Class == chart.RESARE
	if !restricted && !u.r.has(RESTRN) && !u.r.has(CATREA) && !u.r.statesSpeed() {
		return
	}
	rules := chart.Rules{Restrn: u.r.codes(RESTRN), CatRea: u.r.codes(CATREA), Limits: u.limits()}
	slow := rules.Restrn&speedRestrictions != 0 || rules.CatRea&noWakeAreas != 0
	area := f.Prim == chart.Area
	if !area && (u.r.statesSpeed() || restricted && slow) {
		u.r.fail("E-GEOM", "", "a "+f.Prim.String(), "a speed zone is an area; close the line")
	}
	rules.SpeedZone = area && (slow || u.r.statesSpeed())
	rules.Season = u.season()
	switch {
	case rules.SpeedZone && len(rules.Limits) == 0 && !u.r.failed:
		u.r.warn("W-SPEED", "", "a speed zone without a number", "vesselSpeedLimit with speedLimit and speedUnits")
	case restricted && !rules.SpeedZone && rules.Restrn == 0 && rules.CatRea == 0 && !u.r.failed:
		u.r.warn("W-CLASS", "RESTRN", "a restricted area that does not say what is restricted", "RESTRN or CATREA")
	}
	f.Rules = &rules
}

// statesSpeed reports whether the object states a speed, readable or not.
func (r *reading) statesSpeed() bool { return r.has(VesselSpeedLimit) || r.has(SpeedLimit) }

// limits reads vesselSpeedLimit, one or several, and the flat speedLimit with
// speedUnits.
func (u ruleReader) limits() (limits []chart.SpeedLimit) {
	add := func(name string, speed, units Value, class string) {
		if speed.unknown() {
			return
		}
		if kn, ok := u.limit(name, speed, units); ok {
			limits = append(limits, chart.SpeedLimit{Kn: kn, VesselClass: class})
		}
	}
	u.r.known(VesselSpeedLimit, func(at *Attribute) {
		at.Value.each(func(v Value) {
			if v.Kind != ComplexValue {
				add(at.Name, v, Value{}, "")
				return
			}
			add(at.Name, v.member("speedLimit"), v.member("speedUnits"), v.member("vesselClass").text())
		})
	})
	var units Value
	u.r.known(SpeedUnits, func(at *Attribute) { units = at.Value })
	u.r.known(SpeedLimit, func(at *Attribute) { add(at.Name, at.Value, units, "") })
	return limits
}

// Knots in a unit of speed, exactly: 1 kn is 1.852 km/h, 1 mi/h is 1.609344
// km/h (SI brochure 8th ed. table 8; international yard agreement, 1959). Codes
// and words: S-101 speedUnits.
var knots = map[string]float64{
	"2": 1 / 1.852, "km/h": 1 / 1.852,
	"3": 1.609344 / 1.852, "mph": 1.609344 / 1.852,
	"4": 1, "kn": 1,
}

// limit is a stated speed in knots. Without its unit it is no speed.
func (u ruleReader) limit(name string, speed, units Value) (kn float64, ok bool) {
	v, ok := speed.number()
	if !ok || v <= 0 || v > 100 {
		u.r.fail("E-NUM", name, speed.describe(), "a speed above 0 and up to 100")
		return 0, false
	}
	factor, ok := knots[units.text()]
	if !ok {
		u.r.fail("E-UNIT", name, fmt.Sprintf("%g in the unit %s", v, units.describe()),
			"speedUnits: 2 or km/h, 3 or mph, 4 or kn")
		return 0, false
	}
	if factor == 1/1.852 {
		return v / 1.852, true
	}
	return v * factor, true
}
