package state

import (
	"fmt"
	"strconv"
	"strings"

	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

var BoatFields = []Field{
	textField("boat-name", "Name", "Only for you and on the printed sheet.", func(p *plan.Plan) *string { return &p.Boat.Name }),
	measure("draught", "Draught", "m", "How deep she goes at rest, loaded for the day, drives and tabs down. Every depth is judged by it.",
		func(p *plan.Plan) *float64 { return &p.Boat.DraughtM }),
	measure("cruise", "Cruising speed", "kn", "What she runs at where nothing holds her back.", func(p *plan.Plan) *float64 { return &p.Boat.CruiseKn }),
	maybe("length", "Length", "m", "Over all.", own(func(p *plan.Plan) **float64 { return &p.Boat.LengthM })),
	maybe("beam", "Beam", "m", "For bridges, and for the wind she takes at anchor.", own(func(p *plan.Plan) **float64 { return &p.Boat.BeamM })),
	maybe("air-draught", "Air draught", "m", "Her highest point above the water, aerials up. Without it no bridge can be judged.",
		own(func(p *plan.Plan) **float64 { return &p.Boat.AirDraughtM })),
	measure("harbour-kn", "Speed in harbour", "kn", "Near berths, and where a limit is charted without its figure.", func(p *plan.Plan) *float64 { return &p.Boat.HarbourKn }),
	measure("planing", "Planing from", "kn", "From here up she is on the plane, with the whole hump counted as deeper draught.", func(p *plan.Plan) *float64 { return &p.Boat.PlaningKn }),
	measure("hump", "Hump", "m", "How much deeper her stern sits while she gets on or off the plane.", func(p *plan.Plan) *float64 { return &p.Boat.HumpM }),
	measure("slow-down", "Way to slow down", "m", "What she runs from cruising speed to a limit. Slowing begins that far before the line.", func(p *plan.Plan) *float64 { return &p.Boat.SlowDownM }),
	measure("warm-up", "Warm-up", "min", "How long a cold engine is run gently.", func(p *plan.Plan) *float64 { return &p.Boat.WarmUpMin }),
	measure("warm-up-kn", "Warm-up speed", "kn", "The most she runs at until then.", func(p *plan.Plan) *float64 { return &p.Boat.WarmUpKn }),
	measure("cool-down", "Cool-down", "min", "How long the engine runs gently before it is stopped.", func(p *plan.Plan) *float64 { return &p.Boat.CoolDownMin }),
	measure("rough", "Speed in a seaway", "kn", "What she runs at where the sea is above the next figure.", func(p *plan.Plan) *float64 { return &p.Boat.RoughKn }),
	measure("sea-limit", "Sea to slow for", "m", "Significant wave height above which she runs slowly.", func(p *plan.Plan) *float64 { return &p.Boat.SeaLimitM }),
	measure("sea-stop", "Sea to stay in for", "m", "Significant wave height above which the day is not clear.", func(p *plan.Plan) *float64 { return &p.Boat.SeaStopM }),
	tick("night", "Happy to run in the dark", "Without it, being under way after dusk is not clear.", func(p *plan.Plan) *bool { return &p.Boat.Night }),
	maybe("tank", "Fuel tank", "l", "What the tank holds.", inFuel(func(f *plan.Fuel) **float64 { return &f.TankL })),
	maybe("in-tank", "Fuel aboard", "l", "What is in the tank when you leave.", inFuel(func(f *plan.Fuel) **float64 { return &f.InTankL })),
	maybe("reserve", "Reserve", "", "The part of the fuel aboard that is left at the end: 0.33 is a third.", inFuel(func(f *plan.Fuel) **float64 { return &f.Reserve })),
	{ID: "burn", Label: "Consumption", Unit: "kn and l/h", Kind: BoxArea,
		Help: "One line a speed: the knots, then the litres an hour, such as 22 48. Without it fuel is not known.", Get: burnText, set: setBurn},
	maybe("chain", "Chain", "m", "On the anchor.", inRode(func(d *plan.Rode) **float64 { return &d.ChainM })),
	maybe("chain-kg", "Chain weight", "kg/m", "A metre of it in air.", inRode(func(d *plan.Rode) **float64 { return &d.ChainKgPerM })),
	inRodeAlways("rope", "Rope behind it", "0 for all chain.", func(d *plan.Rode) *float64 { return &d.RopeM }),
	inRodeAlways("roller", "Bow roller", "Above the water.", func(d *plan.Rode) *float64 { return &d.BowRollerM }),
	measure("device-bow", "Device behind the bow", "m", "How far aft the device lies that keeps the anchor watch: the anchor's place is taken that much farther ahead.", func(p *plan.Plan) *float64 { return &p.Boat.DeviceFromBowM }),
	{ID: "marks", Label: "Marks on the rode", Unit: "m", Help: "How far from the anchor each mark is, such as 10 20 30. Empty: no marks.",
		Get: marksText, set: setMarks},
	measure("device-bow", "Device to bow", "m", "How far the device that watches lies behind the bow.", func(p *plan.Plan) *float64 { return &p.Boat.DeviceFromBowM }),
	maybe("windage", "Wind area", "m²", "What the wind presses on, seen from ahead. Empty: worked out from her beam and length.",
		own(func(p *plan.Plan) **float64 { return &p.Boat.WindageM2 })),
	maybe("holding", "Anchor holds", "N", "What her anchor holds in good ground, in newtons: 1 kilogram-force is 9.8 N. Empty: not known.",
		own(func(p *plan.Plan) **float64 { return &p.Boat.HoldingN })),
}

// inRodeAlways is a field of a rode's figure that has a default.
func inRodeAlways(id, label, help string, at func(d *plan.Rode) *float64) Field {
	f := measure(id, label, "m", help, func(p *plan.Plan) *float64 { return at(rodeOf(p)) })
	f.Get = func(p *plan.Plan) string {
		if p.Boat.Rode != nil {
			return spell(*at(p.Boat.Rode))
		}
		rode := plan.DefaultRode()
		return spell(*at(&rode))
	}
	return f
}

// rodeOf is the rode to write into.
func rodeOf(p *plan.Plan) *plan.Rode {
	if p.Boat.Rode == nil {
		rode := plan.DefaultRode()
		p.Boat.Rode = &rode
	}
	return p.Boat.Rode
}

func inRode(at func(d *plan.Rode) **float64) func(*plan.Plan, bool) **float64 {
	return func(p *plan.Plan, make bool) **float64 {
		if p.Boat.Rode == nil && !make {
			return nil
		}
		return at(rodeOf(p))
	}
}

func inFuel(at func(f *plan.Fuel) **float64) func(*plan.Plan, bool) **float64 {
	return func(p *plan.Plan, make bool) **float64 {
		if p.Boat.Fuel == nil {
			if !make {
				return nil
			}
			p.Boat.Fuel = &plan.Fuel{}
		}
		return at(p.Boat.Fuel)
	}
}

func marksText(p *plan.Plan) string {
	if p.Boat.Rode == nil {
		return ""
	}
	parts := make([]string, len(p.Boat.Rode.MarksM))
	for i, m := range p.Boat.Rode.MarksM {
		parts[i] = spell(m)
	}
	return strings.Join(parts, " ")
}

func setMarks(p *plan.Plan, text string) error {
	var list []float64
	for _, part := range strings.Fields(text) {
		m, err := entry.Metres(strings.TrimSuffix(part, ","))
		if err != nil {
			return err
		}
		list = append(list, m)
	}
	if len(list) > 0 || p.Boat.Rode != nil {
		rodeOf(p).MarksM = list
	}
	return nil
}

func burnText(p *plan.Plan) string {
	if p.Boat.Fuel == nil {
		return ""
	}
	var b strings.Builder
	for _, x := range p.Boat.Fuel.Burn {
		fmt.Fprintf(&b, "%s %s\n", spell(x.Kn), spell(x.Lph))
	}
	return b.String()
}

func setBurn(p *plan.Plan, text string) error {
	var list []plan.Burn
	for i, line := range strings.Split(text, "\n") {
		parts := strings.Fields(line)
		if len(parts) == 0 {
			continue
		}
		if len(parts) != 2 {
			return fmt.Errorf("line %d has %s; two are wanted, knots and litres an hour, such as 22 48", i+1, phrase.Counted(len(parts), "part", "parts"))
		}
		var v [2]float64
		for j, s := range parts {
			n, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
			if err != nil {
				return fmt.Errorf("line %d: %q is no number", i+1, s)
			}
			v[j] = n
		}
		list = append(list, plan.Burn{Kn: v[0], Lph: v[1]})
	}
	if p.Boat.Fuel == nil {
		p.Boat.Fuel = &plan.Fuel{}
	}
	p.Boat.Fuel.Burn = list
	return nil
}

var MarginFields = []Field{
	margin("under-keel", "Under the keel, slow", "m", "Water wanted under her at or below 8 kn.", func(m *plan.Margins) *float64 { return &m.UnderKeelM }),
	margin("under-keel-fast", "Under the keel, fast", "m", "Water wanted under her above 8 kn.", func(m *plan.Margins) *float64 { return &m.UnderKeelFastM }),
	margin("under-keel-anchored", "Under the keel at anchor", "m", "Water wanted under her at a stay, at the lowest.", func(m *plan.Margins) *float64 { return &m.AnchoredUnderKeelM }),
	margin("comfort", "Comfortable depth", "m", "Less water than this above 8 kn wants care.", func(m *plan.Margins) *float64 { return &m.ComfortDepthM }),
	margin("tide-margin", "Tide margin", "m", "Taken off every height of tide: weather makes it stand lower than predicted.", func(m *plan.Margins) *float64 { return &m.TideM }),
	margin("corridor", "Corridor, fast", "m", "Each side of the track; everything within it counts.", func(m *plan.Margins) *float64 { return &m.CorridorM }),
	margin("corridor-slow", "Corridor, slow", "m", "Each side of the track at or below 8 kn.", func(m *plan.Margins) *float64 { return &m.CorridorSlowM }),
	margin("hazard-margin", "Room to dangers", "m", "Added to the corridor for rocks, wrecks and obstructions.", func(m *plan.Margins) *float64 { return &m.HazardM }),
	margin("mark-off", "Room to marks", "m", "Kept from buoys, beacons and mooring structures.", func(m *plan.Margins) *float64 { return &m.MarkOffM }),
	margin("overhead", "Room overhead", "m", "Wanted under bridges and cables.", func(m *plan.Margins) *float64 { return &m.OverheadM }),
	margin("wave-fraction", "Part of the waves", "", "How much of the significant wave height is taken off the clearance: 1 is all.", func(m *plan.Margins) *float64 { return &m.WaveFraction }),
	margin("anchored-sea", "Sea at anchor", "m", "More than this at a stay is not clear.", func(m *plan.Margins) *float64 { return &m.AnchoredSeaM }),
	maybe("scope", "Scope", "", "Rode to lay for each metre of depth and bow roller. Empty: 3 with all chain in gusts to 12 kn, 5 above, 7 with rope.",
		own(func(p *plan.Plan) **float64 { return &p.Margins.Scope })),
	margin("position", "Anchor's place", "m", "How well the place of the anchor is known: the circle is wider by it.", func(m *plan.Margins) *float64 { return &m.PositionM }),
	margin("window", "Tide window", "min", "Care where enough water ends within this time of passing.", func(m *plan.Margins) *float64 { return &m.WindowMin }),
	margin("wind-room", "Room for a wind shift", "°", "Care where the wind may shift less than this before a stay gets rough.", func(m *plan.Margins) *float64 { return &m.WindRoomDeg }),
	margin("open-fetch", "Open water beyond the chart", "km", "How far the sea may come from where a chart ends without land.", func(m *plan.Margins) *float64 { return &m.OpenFetchKm }),
}

func margin(id, label, unit, help string, at func(m *plan.Margins) *float64) Field {
	return measure(id, label, unit, help, func(p *plan.Plan) *float64 { return at(&p.Margins) })
}
