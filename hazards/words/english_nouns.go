package words

import (
	"cmp"
	"fmt"
	"strconv"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
)

// thingNames are what things in the way, and those passed close by, are called.
var thingNames = map[chart.Class]string{
	chart.LNDARE: "land",
	chart.COALNE: "a coastline",
	chart.SLCONS: "a shoreline construction",
	chart.PONTON: "a pontoon",
	chart.PILPNT: "a pile",
	chart.FLODOC: "a floating dock",
	chart.HULKES: "a hulk",
	chart.PYLONS: "a pylon or bridge support",
	chart.FSHFAC: "a fishing facility",
	chart.OFSPLF: "a platform",
	chart.DAMCON: "a dam",
	chart.DYKCON: "a dyke",
	chart.CAUSWY: "a causeway",
	chart.LOGPON: "a log pond",
	chart.MARCUL: "a marine farm",
	chart.OILBAR: "an oil barrier",
	chart.RAPIDS: "rapids",
	chart.UWTROC: "a rock",
	chart.WRECKS: "a wreck",
	chart.OBSTRN: "an obstruction",

	chart.BCNCAR: "a cardinal beacon", chart.BCNISD: "an isolated danger beacon", chart.BCNLAT: "a lateral beacon",
	chart.BCNSAW: "a safe water beacon", chart.BCNSPP: "a beacon",
	chart.BOYCAR: "a cardinal buoy", chart.BOYISD: "an isolated danger buoy", chart.BOYLAT: "a lateral buoy",
	chart.BOYSAW: "a safe water buoy", chart.BOYSPP: "a buoy", chart.BOYINB: "a buoy of an installation",
	chart.LITFLT: "a light float", chart.LITVES: "a light vessel", chart.CRANES: "a crane", chart.DAYMAR: "a daymark",
	chart.MORFAC: "a mooring structure",
}

// moorings are the CATMOR codes in words (IHO S-57 App. A, attribute 40).
var moorings = map[int]string{1: "a dolphin", 2: "a deviation dolphin", 3: "a bollard", 4: "a wall to tie up to", 5: "a post or pile",
	6: "a mooring chain or wire", chart.MooringBuoy: "a mooring buoy"}

// foulGrounds are the CATOBS codes that an obstruction is called by (IHO S-57 App. A).
var foulGrounds = map[int]string{7: "foul ground", 9: "ground tackle"}

// kindOf is what a thing is, without its name.
func kindOf(t facts.Thing) string {
	switch t.Class {
	case chart.MORFAC:
		return cmp.Or(moorings[t.Kind], thingNames[t.Class])
	case chart.OBSTRN:
		return cmp.Or(foulGrounds[t.Kind], thingNames[t.Class])
	}
	return cmp.Or(thingNames[t.Class], "an object")
}

// thing is what a thing is, with its name.
func thing(t facts.Thing) string { return named(kindOf(t), t.Name) }

// unreadNames are what classes are called that have no name as a thing in the way.
var unreadNames = map[chart.Class]string{
	chart.DEPARE: "a depth area", chart.DRGARE: "a dredged area", chart.UNSARE: "an unsurveyed area", chart.DEPCNT: "a depth contour",
	chart.SOUNDG: "a sounding", chart.RESARE: "a restricted area", chart.CBLARE: "a cable area", chart.CBLSUB: "a cable",
	chart.PIPARE: "a pipeline area", chart.PIPSOL: "a pipeline", chart.MCOVR: "the limit of the data", chart.MSDAT: "the datum of depths",
	chart.MVDAT: "the datum of heights", chart.CANALS: "a canal", chart.RIVERS: "a river", chart.LOKBSN: "a lock",
	chart.ICEARE: "an ice area", chart.WATTUR: "broken water", chart.BRIDGE: "a bridge", chart.CBLOHD: "an overhead cable",
	chart.PIPOHD: "an overhead pipe", chart.CONVYR: "a conveyor",
	chart.GATCON: "a gate", chart.TSSLPT: "a traffic lane", chart.TSEZNE: "a separation zone", chart.ISTZNE: "an inshore traffic zone",
	chart.MIPARE: "a military practice area", chart.SPLARE: "a seaplane landing area", chart.SUBTLN: "a submarine transit lane",
	chart.OSPARE: "an offshore production area",
}

// className calls a class by what it is.
func className(k chart.Class) string {
	return cmp.Or(unreadNames[k], thingNames[k], "something")
}

// overheadName is what a thing to pass under is called, with its name.
func overheadName(t facts.Thing) string {
	return named(cmp.Or(overheadNames[t.Class], "conveyor"), t.Name)
}

var overheadNames = map[chart.Class]string{chart.BRIDGE: "bridge", chart.CBLOHD: "overhead cable", chart.PIPOHD: "overhead pipe", chart.CRANES: "crane"}

// restrictions are the RESTRN codes in words (IHO S-57 App. A, attribute 131; 39 and
// 42 are of the S-101 Feature Catalogue 2.1.0).
var restrictions = map[int]string{
	1: "anchoring prohibited", 2: "anchoring restricted", 3: "fishing prohibited", 4: "fishing restricted", 5: "trawling prohibited",
	6: "trawling restricted", 7: "entry prohibited", 8: "entry restricted; find out on what terms", 9: "dredging prohibited", 10: "dredging restricted",
	11: "diving prohibited", 12: "diving restricted", 13: "no wake", 14: "to be avoided", 15: "building prohibited", 16: "discharging prohibited",
	17: "discharging restricted", 18: "exploration and development prohibited", 19: "exploration and development restricted",
	20: "drilling prohibited", 21: "drilling restricted", 22: "taking historical artefacts prohibited", 23: "cargo transhipment prohibited",
	24: "dragging prohibited", 25: "stopping prohibited", 26: "landing prohibited", 27: "speed restricted", 39: "swimming prohibited",
	42: "power-driven vessels prohibited",
}

// categories are the CATREA codes in words (IHO S-57 App. A, attribute 56; from 27 on
// the S-101 Feature Catalogue 2.1.0).
var categories = map[int]string{
	1: "an offshore safety zone", 4: "a nature reserve", 5: "a bird sanctuary", 6: "a game reserve", 7: "a seal sanctuary", 8: "a degaussing range",
	9: "a military area", 10: "a historic wreck area", 12: "the safety zone of an aid to navigation", 14: "a minefield", 18: "a bathing area",
	19: "a waiting area", 20: "a research area", 21: "a dredging area", 22: "a fish sanctuary", 23: "an ecological reserve", 24: "a no-wake area",
	25: "a swinging area", 27: "an environmentally sensitive area", 28: "a particularly sensitive area", 29: "a disengagement area",
	30: "a port security area", 31: "a coral sanctuary", 32: "a recreation area",
}

// ruleName is one rule or category of an area.
func ruleName(r facts.Rule) string {
	switch {
	case r.Restrn != 0:
		return cmp.Or(restrictions[r.Restrn], fmt.Sprintf("restriction number %d", r.Restrn))
	case r.CatRea != 0:
		return cmp.Or(categories[r.CatRea], fmt.Sprintf("an area of category %d", r.CatRea))
	}
	return "a restricted area"
}

// ruleNames are all rules and categories.
func ruleNames(restrn, catrea chart.Codes) []string {
	var out []string
	for _, code := range restrn.List() {
		out = append(out, ruleName(facts.Rule{Restrn: code}))
	}
	for _, code := range catrea.List() {
		out = append(out, ruleName(facts.Rule{CatRea: code}))
	}
	return out
}

// datumNames are the vertical datums of IHO S-57 App. A, attribute VERDAT.
var datumNames = [...]string{1: "mean low water springs", 2: "mean lower low water springs", 3: "mean sea level",
	4: "lowest low water", 5: "mean low water", 6: "lowest low water springs", 7: "approximate mean low water springs",
	8: "Indian spring low water", 9: "low water springs", 10: "approximate lowest astronomical tide",
	11: "nearly lowest low water", 12: "mean lower low water", 13: "low water", 14: "approximate mean low water",
	15: "approximate mean lower low water", 16: "mean high water", 17: "mean high water springs", 18: "high water",
	19: "approximate mean sea level", 20: "high water springs", 21: "mean higher high water",
	22: "equinoctial spring low water", 23: "lowest astronomical tide", 24: "a local datum",
	25: "International Great Lakes Datum 1985", 26: "mean water level", 27: "lower low water large tide",
	28: "higher high water large tide", 29: "nearly highest high water", 30: "highest astronomical tide"}

// englishDatum is the name of a VERDAT code; 0 is one that is not known.
func englishDatum(verdat int) string {
	switch {
	case verdat == facts.NoDatum:
		return "no datum"
	case verdat == 0:
		return "a datum that is not known"
	case verdat > 0 && verdat < len(datumNames):
		return datumNames[verdat]
	case verdat == 44:
		return "Baltic Sea Chart Datum 2000"
	}
	return "datum " + strconv.Itoa(verdat)
}

// surveyQuality is what the trade calls a CATZOC.
func surveyQuality(catzoc int) string {
	if catzoc < 1 || catzoc > 6 {
		return "not stated"
	}
	return [...]string{"A1", "A2", "B", "C", "D", "U (not assessed)"}[catzoc-1]
}

// trafficName is what water is called that others pass through.
func trafficName(t facts.Thing) string {
	return named(cmp.Or(trafficNames[t.Class], "a fairway"), t.Name)
}

var trafficNames = map[chart.Class]string{chart.TSSLPT: "a traffic lane", chart.TSEZNE: "a separation zone", chart.RECTRC: "a recommended track", chart.FERYRT: "a ferry's route"}

// mooredName is what is moored, or meant for others to moor at.
func mooredName(t facts.Thing) string {
	if t.Class == chart.ACHBRT {
		return named("a charted anchor berth", t.Name)
	}
	return thing(t)
}
