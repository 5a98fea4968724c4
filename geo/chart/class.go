package chart

// Class is an S-57 object class code (IHO S-57 App. A, OBJL).
type Class uint16

// Classes the checks or the chart view know by name.
const (
	ACHBRT Class = 3
	ACHARE Class = 4
	BCNCAR Class = 5
	BCNISD Class = 6
	BCNLAT Class = 7
	BCNSAW Class = 8
	BCNSPP Class = 9
	BRIDGE Class = 11
	BOYCAR Class = 14
	BOYINB Class = 15
	BOYISD Class = 16
	BOYLAT Class = 17
	BOYSAW Class = 18
	BOYSPP Class = 19
	CBLARE Class = 20
	CBLOHD Class = 21
	CBLSUB Class = 22
	CANALS Class = 23
	CAUSWY Class = 26
	CTNARE Class = 27
	COALNE Class = 30
	CONVYR Class = 34
	CRANES Class = 35
	DAMCON Class = 38
	DAYMAR Class = 39
	DEPARE Class = 42
	DEPCNT Class = 43
	DRGARE Class = 46
	DYKCON Class = 49
	FAIRWY Class = 51
	FERYRT Class = 53
	FSHFAC Class = 55
	FLODOC Class = 57
	GATCON Class = 61
	HULKES Class = 65
	ICEARE Class = 66
	ISTZNE Class = 68
	LNDARE Class = 71
	LIGHTS Class = 75
	LITFLT Class = 76
	LITVES Class = 77
	LOKBSN Class = 79
	LOGPON Class = 80
	MARCUL Class = 82
	MIPARE Class = 83
	MORFAC Class = 84
	NAVLNE Class = 85
	OBSTRN Class = 86
	OFSPLF Class = 87
	OSPARE Class = 88
	OILBAR Class = 89
	PILPNT Class = 90
	PIPARE Class = 92
	PIPOHD Class = 93
	PIPSOL Class = 94
	PONTON Class = 95
	PRCARE Class = 96
	PYLONS Class = 98
	RAPIDS Class = 107
	RECTRC Class = 109
	RESARE Class = 112
	RIVERS Class = 114
	SPLARE Class = 120
	SBDARE Class = 121
	SLCONS Class = 122
	SOUNDG Class = 129
	SUBTLN Class = 133
	TSSLPT Class = 148
	TSEZNE Class = 150
	UWTROC Class = 153
	UNSARE Class = 154
	WATTUR Class = 156
	WEDKLP Class = 158
	WRECKS Class = 159
	MCOVR  Class = 302
	MNSYS  Class = 306
	MQUAL  Class = 308
	MSDAT  Class = 309
	MVDAT  Class = 312
	CAGGR  Class = 400
	CASSO  Class = 401
	CSTAC  Class = 402
)

// Classes outside S-57's numbering.
const (
	// NoClass marks a feature whose class is not known: drawn, not used.
	NoClass Class = 0
	// DSID is the data set's own record, as GDAL gives it: metadata.
	DSID Class = 65535
)

// Prim is the kind of geometry a feature has.
type Prim uint8

// The kinds of geometry, with S-57's PRIM numbers for the first three.
const (
	Point Prim = 1
	Line  Prim = 2
	Area  Prim = 3
	None  Prim = 255
)

// String names the geometry for a message.
func (p Prim) String() string {
	switch p {
	case Point:
		return "point"
	case Line:
		return "line"
	case Area:
		return "area"
	}
	return "no geometry"
}

// Codes is a set of S-57 list attribute values 1 to 63 (RESTRN, CATREA, ...).
// The empty set says nothing: neither that a value holds nor that it does not.
type Codes uint64

// CodesOf is the set of the codes given; codes outside 1..63 are left out.
func CodesOf(codes ...int) Codes {
	var s Codes
	for _, c := range codes {
		if c > 0 && c < 64 {
			s |= 1 << c
		}
	}
	return s
}

// Has reports whether any of the codes is in the set.
func (s Codes) Has(codes ...int) bool { return s&CodesOf(codes...) != 0 }

// List gives the codes in rising order.
func (s Codes) List() []int {
	var out []int
	for c := 1; c < 64; c++ {
		if s.Has(c) {
			out = append(out, c)
		}
	}
	return out
}

// group1 are the classes that tile the charted surface (S-57 App. B.1, 3.4:
// skin of the earth).
func (c Class) group1() bool {
	switch c {
	case DEPARE, DRGARE, UNSARE, LNDARE, PONTON, FLODOC, HULKES:
		return true
	}
	return false
}

// WaterArea reports whether an area of the class makes a statement about depth.
func (c Class) WaterArea() bool { return c == DEPARE || c == DRGARE || c == UNSARE }

// Danger reports whether the class is an underwater danger with its own depth.
func (c Class) Danger() bool { return c == UWTROC || c == WRECKS || c == OBSTRN }

// NoGo reports whether the class is a thing no boat passes over.
func (c Class) NoGo() bool {
	switch c {
	case FLODOC, HULKES, PONTON, PILPNT, PYLONS, FSHFAC, OFSPLF, DAMCON, DYKCON, CAUSWY, LOGPON, MARCUL, OILBAR, RAPIDS:
		return true
	}
	return false
}

// CloseBy reports whether things of the class are passed close by as a matter of
// course, so that they count where the track all but runs into them: marks,
// lights afloat, mooring structures, cranes.
func (c Class) CloseBy() bool {
	switch c {
	case BOYINB, LITFLT, LITVES, MORFAC, CRANES, DAYMAR:
		return true
	}
	return c.Mark()
}

// Beacon reports whether the class is a mark that stands on the ground.
func (c Class) Beacon() bool { return c >= BCNCAR && c <= BCNSPP }

// IsolatedDanger reports whether the class is a mark that stands or floats on the
// danger it warns of.
func (c Class) IsolatedDanger() bool { return c == BOYISD || c == BCNISD }

// SpecialWater reports whether areas of the class are set aside for traffic or works
// that a boat in them has to know of.
func (c Class) SpecialWater() bool {
	switch c {
	case MIPARE, SPLARE, SUBTLN, ISTZNE, OSPARE, TSSLPT, TSEZNE:
		return true
	}
	return false
}

// Overhead reports whether the class is something to pass under.
func (c Class) Overhead() bool { return c == BRIDGE || c == CBLOHD || c == PIPOHD || c == CONVYR }

// SeaBed reports whether the class says what the ground is made of, or what grows on it.
func (c Class) SeaBed() bool { return c == SBDARE || c == WEDKLP }

// Shoreline reports whether a line of the class is not to be crossed.
func (c Class) Shoreline() bool { return c == COALNE || c == SLCONS }

// Mark reports whether the class is a buoy or beacon.
func (c Class) Mark() bool {
	return c >= BCNCAR && c <= BCNSPP || c == BOYCAR || c >= BOYISD && c <= BOYSPP
}

// Lateral reports whether the mark is one to pass on a named hand.
func (c Class) Lateral() bool { return c == BOYLAT || c == BCNLAT }

// Cardinal reports whether the mark names a quarter of the compass.
func (c Class) Cardinal() bool { return c == BOYCAR || c == BCNCAR }

// Confined reports whether an area of the class is narrow water, where a hull
// sinks deeper (canals, rivers, locks).
func (c Class) Confined() bool { return c == CANALS || c == RIVERS || c == LOKBSN }
