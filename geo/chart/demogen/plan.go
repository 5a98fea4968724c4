package main

import (
	"fmt"

	"github.com/paulmach/orb"

	"keelroom/geo/chart/demobed"
)

// plan is one of the two demo days: the same boat, tide, wind and routes,
// at different hours.
type plan struct {
	title, notes string
	depart       string // clock times of 2026-07-18 in the plan's zone
	until        [2]string
	backBy       string
}

const (
	planDay    = "2026-07-18" // a Saturday
	planZone   = "Etc/GMT+2"  // UTC-2, what the longitude gives
	planOffset = "-02:00"
)

// demoPlan is the day that works out: over the bar around high water and
// out again with water to spare.
func demoPlan() plan {
	return plan{
		title:  "INVENTED day: two bays in the lee",
		notes:  "INVENTED waters and boat. Lunch in Elbow Bay, a swim behind the bar, home before the water goes.",
		depart: "09:30", until: [2]string{"12:30", "14:15"}, backBy: "18:00",
	}
}

// latePlan is the same day, leaving and returning hours later: it comes out over
// the bar at low water, which does not work.
func latePlan() plan {
	return plan{
		title:  "INVENTED day: too late over the bar",
		notes:  "INVENTED waters and boat. The same day, but leaving late: at low water there is not enough over the bar.",
		depart: "13:00", until: [2]string{"15:00", "17:30"}, backBy: "20:00",
	}
}

func clock(hhmm string) string { return planDay + "T" + hhmm + ":00" + planOffset }

func (p plan) bytes() ([]byte, error) {
	return collection("", "plan", p.member(), p.features())
}

func (p plan) member() props {
	return props{
		{"version", 1},
		{"title", p.title},
		{"notes", p.notes},
		{"persons", 3},
		{"contact_ashore", "INVENTED harbour office"},
		{"back_by", clock(p.backBy)},
		{"time_zone", planZone},
		{"boat", boat()},
		{"tide", tide()},
		{"wind", wind()},
		{"swell", []props{
			{{"time", clock("06:00")}, {"from_deg", 270}, {"height_m", 0.2}, {"period_s", 7}},
			{{"time", clock("21:00")}, {"from_deg", 265}, {"height_m", 0.2}, {"period_s", 7}},
		}},
	}
}

func boat() props {
	burn := func(kn, lph float64) props { return props{{"kn", kn}, {"lph", lph}} }
	return props{
		{"name", "INVENTED Example"},
		{"length_m", 7.5},
		{"beam_m", 2.6},
		{"draught_m", 0.9},
		{"air_draught_m", 2.6},
		{"cruise_kn", 23},
		{"fuel", props{
			{"tank_l", 280}, {"in_tank_l", 190},
			{"burn", []props{burn(0, 1.5), burn(5, 6), burn(7, 9), burn(10, 22), burn(14, 36), burn(18, 40), burn(23, 48), burn(28, 66)}},
		}},
		{"rode", props{{"chain_m", 40}, {"chain_kg_per_m", 1.4}}},
	}
}

// tide has a spring range of 2.3 m and never falls below the sounding datum;
// phases are such that on the day high water is shortly before noon.
func tide() props {
	part := func(name string, amplitude, phase float64) props {
		return props{{"name", name}, {"amplitude_m", amplitude}, {"phase_deg", phase}}
	}
	return props{
		{"station", "INVENTED Harbour"},
		{"position", []float64{-36.0485031, 43.0197088}}, // of the station: at the pontoon
		{"datum", 23},
		{"z0_m", 1.45},
		{"height_datum_m", 2.59}, // mean high water springs: z0 + M2 + S2
		{"constituents", []props{
			part("M2", 0.85, 318), part("S2", 0.29, 354), part("N2", 0.17, 298),
			part("K1", 0.06, 60), part("O1", 0.05, 20), part("M4", 0.04, 150),
		}},
	}
}

// wind is a sea breeze from the south-west that builds through the day.
func wind() []props {
	kn := []float64{7, 7, 8, 9, 10, 10, 11, 12, 13, 13, 14, 13, 12, 10, 8}
	from := []int{215, 215, 220, 220, 225, 225, 225, 230, 230, 230, 230, 230, 225, 225, 220}
	var out []props
	for i := range kn {
		out = append(out, props{{"time", clock(fmt.Sprintf("%02d:00", 6+i))}, {"from_deg", from[i]}, {"kn", kn[i]}})
	}
	return out
}

// The three routes, in local metres between their ends.
var (
	routeOut = [][2]float64{{-3884, 2190}, {-3880, 2140}, {-3862, 1480}, {-3860, 960}, {-3420, 120},
		{-1650, -1950}, {1750, -2030}, {2150, -900}, {950, 900}}
	routeOver = [][2]float64{{740, 960}, {2200, 1150}, {2422, 1380}, {2430, 1780}}
	routeHome = [][2]float64{{2430, 1780}, {2422, 1380}, {2300, 1150}, {2150, -900}, {1750, -2030}, {-1650, -1950},
		{-3420, 120}, {-3840, 960}, {-3842, 1500}, {-3858, 2150}, {-3872, 2196}}
)

func route(from orb.Point, via [][2]float64, to orb.Point) line {
	l := line{spotOf(from)}
	l = append(l, path(via...)...)
	return append(l, spotOf(to))
}

func (p plan) features() []feature {
	return []feature{
		{props{{"role", "berth"}, {"name", "INVENTED Visitors' Pontoon"}, {"heading_deg", 90}, {"side", "starboard"}}, at(demobed.Berth)},
		{props{{"role", "route"}, {"name", "INVENTED out to Elbow Bay"}, {"depart", clock(p.depart)}},
			route(demobed.Berth, routeOut, demobed.ElbowBay)},
		{stay("INVENTED Elbow Bay", p.until[0]), at(demobed.ElbowBay)},
		{props{{"role", "route"}, {"name", "INVENTED over the bar"}, {"speeds_kn", []float64{5, 7, 7, 6, 5}}},
			route(demobed.ElbowBay, routeOver, demobed.BarBay)},
		{stay("INVENTED Bar Bay", p.until[1]), at(demobed.BarBay)},
		{props{{"role", "route"}, {"name", "INVENTED home"}, {"speeds_kn", []float64{5, 6, 6, 23, 23, 23, 23, 23, 8, 5, 5, 5}}},
			route(demobed.BarBay, routeHome, demobed.Berth)},
		{props{{"role", "refuge"}, {"name", "INVENTED Elbow Bay"}}, at(demobed.ElbowBay)},
	}
}

func stay(name, until string) props {
	return props{{"role", "stay"}, {"name", name}, {"until", clock(until)}, {"kind", "anchor"}, {"rode_m", 36}}
}
