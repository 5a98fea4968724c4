package layer

import (
	"cmp"
	"fmt"

	"keelroom/geo/chart"
)

// telling are the attributes that only a danger, a depth, an overhead, a rule,
// a coverage or a mark has (layer profile section 2, rule 6). An object of a
// class that nobody knows, with one of them, may be anything that a boat must
// keep off: leaving it out would take a danger away. Of those of marks the class
// says what it may have been; the others leave open what it was.
var telling = map[Attr]chart.Class{
	VALSOU: chart.NoClass, WATLEV: chart.NoClass, CATWRK: chart.NoClass, CATOBS: chart.NoClass, EXPSOU: chart.NoClass, QUASOU: chart.NoClass,
	DRVAL1: chart.NoClass, DRVAL2: chart.NoClass, VALDCO: chart.NoClass,
	VERCLR: chart.NoClass, VERCCL: chart.NoClass, VERCSA: chart.NoClass, verticalOpen: chart.NoClass, HORCLR: chart.NoClass,
	CATBRG: chart.NoClass, OpeningBridge: chart.NoClass, OpeningCategory: chart.NoClass,
	RESTRN: chart.NoClass, CATREA: chart.NoClass, CATCOV: chart.NoClass,
	CATCAM: chart.BOYCAR, CATLAM: chart.BOYLAT, BOYSHP: chart.BOYSPP, BCNSHP: chart.BCNSPP,
}

// tells is the first attribute with a value that tells what an object may be. A
// speed tells only where a class is stated: without one the area is a speed zone
// all the same, with one it may be a marine farm.
func tells(attrs []Attribute, classStated bool) (at *Attribute, as chart.Class) {
	for i := range attrs {
		a := &attrs[i]
		class, known := telling[a.Attr]
		speed := classStated && (a.Attr == VesselSpeedLimit || a.Attr == SpeedLimit)
		switch {
		case a.Value.unknown() || !known && !speed:
		case class == chart.NoClass: // the worst that it may be
			return a, chart.NoClass
		case at == nil:
			at, as = a, class
		}
	}
	return at, as
}

// unclassed is the class to refuse an object as that may be what an attribute
// tells: a mark as one, anything else as unread.
func unclassed(as chart.Class) chart.Class {
	return cmp.Or(as, unreadClass)
}

// unlisted says of a class number that S-57 does not list what it is, and
// refuses the object if a boat could miss it.
func (r *reading) unlisted() {
	if r.Class >= firstInland {
		r.inland()
		return
	}
	at, as := tells(r.Attributes, true)
	if at == nil {
		r.warn("W-CLASS", "OBJL", fmt.Sprintf("%d, which S-57 does not list", r.Class), "the number of an S-57 class; it is drawn and not used")
		return
	}
	r.fail("E-CLASS", "OBJL", fmt.Sprintf("%d, which S-57 does not list, with %s %s", r.Class, at.Name, at.Value.describe()), "the number of an S-57 class; its place counts as unknown")
	r.Class = unclassed(as)
}

// inland says what an object of an Inland ENC is. What a boat could miss is
// refused, and so is what is not known here.
func (r *reading) inland() {
	object, known := inlandClasses[r.Class]
	if !known {
		r.fail("E-CLASS", "OBJL", fmt.Sprintf("%d, an object of an Inland ENC that is not known here", r.Class), "S-57 classes; its place counts as unknown")
		r.Class = unreadClass
		return
	}
	found := fmt.Sprintf("%d, %s of an Inland ENC, which is not read", r.Class, object.name)
	line := object.like == chart.DEPARE && r.Geometry.Prim == chart.Line // says nothing that an area does not
	if object.like == chart.NoClass || line {
		r.warn("W-CLASS", "OBJL", found, "S-57 classes; it is drawn and not used")
		return
	}
	r.fail("E-CLASS", "OBJL", found, "S-57 classes; its place counts as unknown")
	r.Class = object.like
}

// firstInland is the first object code of Inland ENCs.
const firstInland chart.Class = 17000

// inlandObject is an object class of Inland ENCs, with the S-57 class that a boat
// would miss with it, NoClass for none.
type inlandObject struct {
	name string
	like chart.Class
}

// inlandClasses are the object classes of Inland ENCs. Source: s57objectclasses_iw.csv
// of GDAL (MIT/X), which lists 17000 to 17065; those above are from memory of the
// Inland ENC Feature Catalogue.
var inlandClasses = map[chart.Class]inlandObject{
	17000: {name: "an anchor berth"},
	17001: {name: "an anchorage area"},
	17002: {name: "a canal bank"},
	17003: {"a depth area", chart.DEPARE},
	17004: {name: "a distance mark"},
	17005: {"a restricted area", chart.RESARE},
	17006: {name: "a river bank"},
	17007: {name: "a traffic signal station"},
	17008: {name: "a warning signal station"},
	17009: {name: "a topmark"},
	17010: {name: "a berth"},
	17011: {"a bridge", chart.BRIDGE},
	17012: {"a cable overhead", chart.CBLOHD},
	17013: {name: "a ferry route"},
	17014: {name: "a harbour area"},
	17015: {name: "a harbour facility"},
	17016: {"a lock basin", chart.LOKBSN},
	17017: {name: "a radio calling-in point"},
	17018: {name: "a navigational system of marks"},
	17050: {name: "a notice mark"},
	17051: {name: "a waterway axis"},
	17052: {name: "a waterway profile"},
	17053: {name: "a bridge area"},
	17054: {name: "a bunker station"},
	17055: {name: "a communication area"},
	17056: {name: "a harbour basin"},
	17057: {name: "a lock area"},
	17058: {"a part of a lock basin", chart.LOKBSN},
	17059: {name: "a port area"},
	17060: {"a waterway beacon", chart.BCNSPP},
	17061: {"a waterway buoy", chart.BOYSPP},
	17062: {name: "a refuse dump"},
	17063: {name: "a route planning point"},
	17064: {name: "a terminal"},
	17065: {name: "a turning basin"},
	17066: {name: "a waterway area"},
	17067: {name: "a waterway gauge"},
	17068: {name: "a time schedule"},
	17069: {name: "a vehicle transfer"},
}
