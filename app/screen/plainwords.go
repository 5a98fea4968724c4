package screen

import "keelroom/hazards/plan"

// checkWords are the checks as a skipper calls them.
var checkWords = map[string]string{
	plan.CheckClearance: "water under the keel", plan.CheckTideWindow: "tide window", plan.CheckLand: "land", plan.CheckHazard: "danger",
	plan.CheckNoEntry: "areas", plan.CheckSpeed: "speed limit", plan.CheckMark: "mark", plan.CheckBridge: "overhead", plan.CheckSea: "sea",
	plan.CheckShelter: "shelter", plan.CheckWindShift: "wind shift", plan.CheckAnchoringRule: "anchoring rule", plan.CheckDaylight: "daylight",
	plan.CheckFuel: "fuel", plan.CheckSchedule: "times", plan.CheckChain: "rode to lay", plan.CheckSwing: "room to swing",
	plan.CheckHolding: "whether the anchor holds", plan.CheckLines: "mooring lines", plan.CheckAboard: "the checklist aboard",
	plan.CheckCoverage: "charts", plan.CheckDatum: "datum",
}

func checkWord(name string) string {
	if word, ok := checkWords[name]; ok {
		return word
	}
	return name
}

// classWords are object classes by their S-57 acronyms, in plain words (IHO S-57,
// appendix A, chapter 1).
var classWords = map[string]string{
	"ACHARE": "anchorage", "BCNCAR": "cardinal beacon", "BCNISD": "isolated danger beacon", "BCNLAT": "lateral beacon", "BCNSAW": "safe water beacon",
	"BCNSPP": "special beacon", "BRIDGE": "bridge", "BOYCAR": "cardinal buoy", "BOYISD": "isolated danger buoy", "BOYLAT": "lateral buoy",
	"BOYSAW": "safe water buoy", "BOYSPP": "special buoy", "BOYINB": "installation buoy", "MORFAC": "mooring", "LITFLT": "light float",
	"LITVES": "light vessel", "DAYMAR": "daymark", "CRANES": "crane", "ICEARE": "ice", "OILBAR": "oil barrier", "RAPIDS": "rapids",
	"WATTUR": "broken water", "MIPARE": "military practice area", "SPLARE": "seaplane landing area", "SUBTLN": "submarine lane",
	"ISTZNE": "inshore traffic zone", "OSPARE": "offshore production area", "M_SDAT": "datum of depths", "M_VDAT": "datum of heights",
	"CBLARE": "cable area", "CBLOHD": "overhead cable", "CBLSUB": "submarine cable",
	"CAUSWY": "causeway", "CTNARE": "caution area", "COALNE": "coastline", "CONVYR": "conveyor", "DAMCON": "dam", "CANALS": "canal",
	"DEPARE": "charted depth", "DEPCNT": "depth contour", "DRGARE": "dredged area", "DYKCON": "dyke", "FAIRWY": "fairway", "FSHFAC": "fishing gear",
	"FLODOC": "floating dock", "GATCON": "gate", "HULKES": "hulk", "LNDARE": "land", "LOKBSN": "lock basin", "LOGPON": "log pond",
	"MARCUL": "marine farm", "OBSTRN": "obstruction", "OFSPLF": "platform", "PILPNT": "pile", "PIPARE": "pipeline area", "PIPOHD": "overhead pipe",
	"PIPSOL": "pipeline", "PONTON": "pontoon", "PRCARE": "precautionary area", "PYLONS": "pylon", "RESARE": "restricted area", "RIVERS": "river",
	"SBDARE": "sea bed", "SLCONS": "shoreline construction", "SOUNDG": "sounding", "TSSLPT": "traffic lane", "TSEZNE": "separation zone",
	"UWTROC": "rock", "UNSARE": "unsurveyed area", "WRECKS": "wreck", "M_COVR": "chart coverage", "M_NSYS": "buoyage", "M_QUAL": "survey quality",
}

func classWord(acronym string) string {
	if word, ok := classWords[acronym]; ok {
		return word
	}
	return acronym
}
