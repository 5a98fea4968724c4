package layer

import (
	"strings"

	"keelroom/geo/chart"
)

// s101Names are the S-101 feature types that the profile, the marks and the
// anchoring rules name, each with its S-57 acronym. Source: IHO S-101 Feature
// Catalogue 2.1.0 and layer profile section 2; several types may share a class.
// An emergency wreck marking buoy lies at a wreck that charts do not have yet: it is
// read as an isolated danger mark, the nearest that S-57 has.
var s101Names = map[string]string{
	"DepthArea": "DEPARE", "DredgedArea": "DRGARE", "UnsurveyedArea": "UNSARE", "LandArea": "LNDARE",
	"DepthContour": "DEPCNT", "Sounding": "SOUNDG",
	"UnderwaterAwashRock": "UWTROC", "Wreck": "WRECKS", "Obstruction": "OBSTRN", "FoulGround": "OBSTRN",
	"FloatingDock": "FLODOC", "Hulk": "HULKES", "Pontoon": "PONTON", "Pile": "PILPNT",
	"PylonBridgeSupport": "PYLONS", "FishingFacility": "FSHFAC", "OffshorePlatform": "OFSPLF",
	"MooringWarpingFacility": "MORFAC", "Dolphin": "MORFAC", "Bollard": "MORFAC", "MooringBuoy": "MORFAC",
	"LightFloat": "LITFLT", "LightVessel": "LITVES", "InstallationBuoy": "BOYINB", "Crane": "CRANES", "Daymark": "DAYMAR",
	"IceArea": "ICEARE", "OilBarrier": "OILBAR", "Rapids": "RAPIDS", "WaterTurbulence": "WATTUR",
	"MilitaryPracticeArea": "MIPARE", "SeaplaneLandingArea": "SPLARE", "SubmarineTransitLane": "SUBTLN",
	"InshoreTrafficZone": "ISTZNE", "OffshoreProductionArea": "OSPARE", "EmergencyWreckMarkingBuoy": "BOYISD",
	"Dam": "DAMCON", "Dyke": "DYKCON", "Causeway": "CAUSWY", "LogPond": "LOGPON", "MarineFarmCulture": "MARCUL",
	"Gate": "GATCON", "TrafficSeparationSchemeLanePart": "TSSLPT",
	"SeparationZone": "TSEZNE", "SeparationZoneOrLine": "TSEZNE",
	"Coastline": "COALNE", "ShorelineConstruction": "SLCONS",
	"RestrictedArea": "RESARE", "RestrictedAreaNavigational": "RESARE", "RestrictedAreaRegulatory": "RESARE",
	"CautionArea": "CTNARE", "PrecautionaryArea": "PRCARE",
	"Bridge": "BRIDGE", "SpanFixed": "BRIDGE", "SpanOpening": "BRIDGE",
	"CableOverhead": "CBLOHD", "PipelineOverhead": "PIPOHD", "Conveyor": "CONVYR",
	"DataCoverage": "M_COVR", "QualityOfBathymetricData": "M_QUAL", "SoundingDatum": "M_SDAT",
	"VerticalDatumOfData": "M_VDAT", "NavigationalSystemOfMarks": "M_NSYS",
	"LateralBuoy": "BOYLAT", "LateralBeacon": "BCNLAT", "CardinalBuoy": "BOYCAR", "CardinalBeacon": "BCNCAR",
	"IsolatedDangerBuoy": "BOYISD", "IsolatedDangerBeacon": "BCNISD", "SafeWaterBuoy": "BOYSAW", "SafeWaterBeacon": "BCNSAW",
	"SpecialPurposeGeneralBuoy": "BOYSPP", "SpecialPurposeGeneralBeacon": "BCNSPP",
	"Fairway": "FAIRWY", "RecommendedTrack": "RECTRC", "NavigationLine": "NAVLNE", "AnchorageArea": "ACHARE", "CableSubmarine": "CBLSUB", "CableArea": "CBLARE",
	"PipelineSubmarineOnLand": "PIPSOL", "SubmarinePipelineArea": "PIPARE", "SeabedArea": "SBDARE", "WeedKelp": "WEDKLP",
	"Canal": "CANALS", "River": "RIVERS", "LockBasin": "LOKBSN",
}

// The S-101 types that say by their name what S-57 says by a category: foul ground
// is an obstruction of category 7, a span a bridge that opens or does not, a mooring
// buoy a mooring facility that floats.
const (
	foulGround  = "FOULGROUND"
	spanOpening = "SPANOPENING"
	spanFixed   = "SPANFIXED"
)

// mooringKinds are the S-101 types of mooring structures with their CATMOR.
var mooringKinds = map[string]float64{"DOLPHIN": 1, "BOLLARD": 3, "MOORINGBUOY": chart.MooringBuoy}

var (
	acronyms = chart.Acronyms()
	classes  = listClasses()
)

// listClasses maps S-57 acronyms and S-101 types, in upper case, to classes.
func listClasses() map[string]chart.Class {
	m := make(map[string]chart.Class)
	for c, name := range acronyms {
		m[name] = c
	}
	for name, acronym := range s101Names {
		m[strings.ToUpper(name)] = m[acronym]
	}
	return m
}

// Acronym is the S-57 acronym of a class, "" for one that S-57 does not list.
func Acronym(c chart.Class) string { return c.Acronym() }

// ClassOf is the class with that S-57 acronym or S-101 type, case ignored.
func ClassOf(name string) (c chart.Class, ok bool) {
	c, ok = classes[strings.ToUpper(strings.TrimSpace(name))]
	return c, ok
}

// acronymClass is the class whose acronym a collection or file is named after.
// Case counts: a file "bridge" need not hold bridges.
func acronymClass(name string) (chart.Class, bool) {
	c, ok := classes[name]
	if !ok || acronyms[c] != name {
		return chart.NoClass, false
	}
	return c, true
}

// fileClass is the class that a file is named after: by its whole name or by
// what follows an underscore, as in US5XX11M_DEPARE.geojson.
func fileClass(file string) (chart.Class, bool) {
	name := baseName(file)
	if dot := strings.LastIndexByte(name, '.'); dot > 0 {
		name = name[:dot]
	}
	for rest, found := name, true; found; _, rest, found = strings.Cut(rest, "_") {
		if c, ok := acronymClass(rest); ok {
			return c, true
		}
	}
	return chart.NoClass, false
}

// baseName is the name of a file without its folders.
func baseName(file string) string { return file[strings.LastIndexAny(file, `/\`)+1:] }

// A class may be drawn as the kinds of geometry named here; one that is not
// listed, as any. Source: layer profile section 2; a BRIDGE may also be a point,
// a DEPARE a line (S-57 App. A).
var primsOf = map[chart.Class]primSet{
	chart.DEPARE: lines | areas, chart.DRGARE: areas, chart.UNSARE: areas,
	chart.DEPCNT: lines, chart.SOUNDG: points, chart.RESARE: areas,
	chart.CTNARE: points | areas, chart.PRCARE: points | areas,
	chart.BRIDGE: points | lines | areas, chart.CBLOHD: lines | areas, chart.PIPOHD: lines | areas,
	chart.CONVYR: lines | areas,
	chart.MCOVR:  areas, chart.MQUAL: areas, chart.MSDAT: areas, chart.MVDAT: areas, chart.MNSYS: areas,
	chart.BOYLAT: points, chart.BOYCAR: points, chart.BOYISD: points, chart.BOYSAW: points, chart.BOYSPP: points,
}

// primSet is a set of kinds of geometry.
type primSet uint8

const (
	points primSet = 1 << chart.Point
	lines  primSet = 1 << chart.Line
	areas  primSet = 1 << chart.Area
)

func (s primSet) has(p chart.Prim) bool { return p <= chart.Area && s&(1<<p) != 0 }

// String lists the kinds for a message.
func (s primSet) String() string {
	var names []string
	for _, p := range []chart.Prim{chart.Point, chart.Line, chart.Area} {
		if s.has(p) {
			names = append(names, p.String())
		}
	}
	return strings.Join(names, " or ")
}

// matters reports whether a check would miss a feature of the class that was left
// out, so that its place must count as unknown: depths, dangers, land, what is
// not to be run into, passed under, entered or anchored over, marks, rules, narrow
// water, in which she sinks deeper, where data end, and the datums that depths and
// clearances are above.
func matters(c chart.Class) bool {
	switch c {
	case chart.DEPCNT, chart.SOUNDG, chart.LNDARE, chart.RESARE, chart.MCOVR, chart.MSDAT, chart.MVDAT,
		chart.CBLARE, chart.CBLSUB, chart.PIPARE, chart.PIPSOL, chart.GATCON, chart.ICEARE, chart.WATTUR:
		return true
	}
	return c.WaterArea() || c.Danger() || c.NoGo() || c.Overhead() || c.Shoreline() || c.CloseBy() || c.SpecialWater() || c.Confined()
}
