package layer

import "strings"

// Attr is the code of an attribute: S-57's where S-57 has one.
type Attr uint16

// The S-57 attributes that are read (IHO S-57 App. A, Ch. 2).
const (
	BCNSHP Attr = 2
	BOYSHP Attr = 4
	CATBRG Attr = 9
	CATCAM Attr = 13
	CATCOV Attr = 18
	CATLAM Attr = 36
	CATMOR Attr = 40
	CATOBS Attr = 42
	CATREA Attr = 56
	CATWRK Attr = 71
	CATZOC Attr = 72
	COLOUR Attr = 75
	DATEND Attr = 85
	DATSTA Attr = 86
	DRVAL1 Attr = 87
	DRVAL2 Attr = 88
	EXPSOU Attr = 93
	HORCLR Attr = 98
	INFORM Attr = 102
	LITCHR Attr = 107
	MARSYS Attr = 109
	NATSUR Attr = 113
	OBJNAM Attr = 116
	ORIENT Attr = 117
	PEREND Attr = 118
	PERSTA Attr = 119
	QUASOU Attr = 125
	RESTRN Attr = 131
	SCAMIN Attr = 133
	SIGGRP Attr = 141
	SIGPER Attr = 142
	VALDCO Attr = 174
	VALSOU Attr = 179
	VERCLR Attr = 181
	VERCCL Attr = 182
	VERCSA Attr = 184
	VERDAT Attr = 185
	WATLEV Attr = 187
)

// Attributes without an S-57 code.
const (
	// SoundingDepth is the depth of a sounding as its own attribute, DEPTH.
	SoundingDepth Attr = 60000 + iota
	VesselSpeedLimit
	SpeedLimit
	SpeedUnits
	PeriodicDateRange
	FixedDateRange
	PlainName
	FeatureName
	Information
	OpeningBridge
	OpeningCategory
	verticalOpen // of an open bridge: it says that this is a bridge, no more

	objl
	objectClass
	lnam
	agen
	fidn
	fids
	role
	genericDepth
	genericHeight
	genericMin
	genericMax
	genericNamed

	dsidName
	dsidEdition
	dsidUpdate
	dsidIssue
	dspmHorizontal
	dspmVertical
	dspmSounding
	dspmScale
	dspmDepthUnit
	dspmHeightUnit
)

// meaning is what a property name stands for. part is the member that holds
// the value where S-101 has a complex attribute.
type meaning struct {
	attr Attr
	part string
}

var attributeNames = map[string]meaning{
	"BCNSHP": {attr: BCNSHP}, "BOYSHP": {attr: BOYSHP}, "CATBRG": {attr: CATBRG}, "CATCAM": {attr: CATCAM},
	"CATCOV": {attr: CATCOV}, "CATLAM": {attr: CATLAM}, "CATMOR": {attr: CATMOR}, "CATOBS": {attr: CATOBS}, "CATREA": {attr: CATREA},
	"CATWRK": {attr: CATWRK}, "CATZOC": {attr: CATZOC}, "COLOUR": {attr: COLOUR}, "DATEND": {attr: DATEND},
	"DATSTA": {attr: DATSTA}, "DRVAL1": {attr: DRVAL1}, "DRVAL2": {attr: DRVAL2}, "EXPSOU": {attr: EXPSOU},
	"HORCLR": {attr: HORCLR}, "INFORM": {attr: INFORM}, "LITCHR": {attr: LITCHR},
	"SIGGRP": {attr: SIGGRP}, "SIGPER": {attr: SIGPER}, "MARSYS": {attr: MARSYS}, "NATSUR": {attr: NATSUR},
	"OBJNAM": {attr: OBJNAM}, "ORIENT": {attr: ORIENT}, "PEREND": {attr: PEREND}, "PERSTA": {attr: PERSTA},
	"QUASOU": {attr: QUASOU}, "RESTRN": {attr: RESTRN}, "SCAMIN": {attr: SCAMIN}, "VALDCO": {attr: VALDCO},
	"VALSOU": {attr: VALSOU}, "VERCLR": {attr: VERCLR}, "VERCCL": {attr: VERCCL}, "VERCSA": {attr: VERCSA},
	"VERDAT": {attr: VERDAT}, "WATLEV": {attr: WATLEV},

	// S-101 (Feature Catalogue 2.1.0).
	"beaconShape": {attr: BCNSHP}, "buoyShape": {attr: BOYSHP}, "categoryOfCardinalMark": {attr: CATCAM},
	"categoryOfLateralMark": {attr: CATLAM}, "categoryOfMooringWarpingFacility": {attr: CATMOR}, "categoryOfObstruction": {attr: CATOBS},
	"categoryOfRestrictedArea": {attr: CATREA}, "categoryOfWreck": {attr: CATWRK}, "colour": {attr: COLOUR},
	"depthRangeMinimumValue": {attr: DRVAL1}, "depthRangeMaximumValue": {attr: DRVAL2},
	"expositionOfSounding": {attr: EXPSOU}, "marksNavigationalSystemOf": {attr: MARSYS},
	"qualityOfVerticalMeasurement": {attr: QUASOU}, "restriction": {attr: RESTRN}, "scaleMinimum": {attr: SCAMIN},
	"valueOfDepthContour": {attr: VALDCO}, "valueOfSounding": {attr: VALSOU}, "verticalDatum": {attr: VERDAT},
	"waterLevelEffect": {attr: WATLEV}, "natureOfSurface": {attr: NATSUR},
	"categoryOfZoneOfConfidenceInData": {attr: CATZOC}, "orientationValue": {attr: ORIENT},
	"orientation":              {ORIENT, "orientationValue"},
	"surfaceCharacteristics":   {NATSUR, "natureOfSurface"},
	"zoneOfConfidence":         {CATZOC, "categoryOfZoneOfConfidenceInData"},
	"verticalClearanceFixed":   {VERCLR, "verticalClearanceValue"},
	"verticalClearanceClosed":  {VERCCL, "verticalClearanceValue"},
	"verticalClearanceOpen":    {verticalOpen, "verticalClearanceValue"},
	"verticalClearanceSafe":    {VERCSA, "verticalClearanceValue"},
	"horizontalClearanceFixed": {HORCLR, "horizontalClearanceValue"},
	"horizontalClearanceOpen":  {HORCLR, "horizontalClearanceValue"},
	"vesselSpeedLimit":         {attr: VesselSpeedLimit}, "speedLimit": {attr: SpeedLimit}, "speedUnits": {attr: SpeedUnits},
	"periodicDateRange": {attr: PeriodicDateRange}, "fixedDateRange": {attr: FixedDateRange},
	"name": {attr: PlainName}, "featureName": {attr: FeatureName}, "information": {attr: Information},
	"openingBridge": {attr: OpeningBridge}, "categoryOfOpeningBridge": {attr: OpeningCategory},

	// What programs for S-57 add, and our own.
	"DEPTH": {attr: SoundingDepth}, "OBJL": {attr: objl},
	"objectClass": {attr: objectClass}, "OBJECT": {attr: objectClass}, "_layer": {attr: objectClass},
	"LNAM": {attr: lnam}, "AGEN": {attr: agen}, "FIDN": {attr: fidn}, "FIDS": {attr: fids}, "role": {attr: role},
	"DSID_DSNM": {attr: dsidName}, "DSID_EDTN": {attr: dsidEdition}, "DSID_UPDN": {attr: dsidUpdate},
	"DSID_ISDT": {attr: dsidIssue}, "DSPM_HDAT": {attr: dspmHorizontal}, "DSPM_VDAT": {attr: dspmVertical},
	"DSPM_SDAT": {attr: dspmSounding}, "DSPM_CSCL": {attr: dspmScale},
	"DSPM_DUNI": {attr: dspmDepthUnit}, "DSPM_HUNI": {attr: dspmHeightUnit},
}

// anyCase are the attributes by their names in lower case: databases write them
// so, and a danger must not lose its depth by it. DEPTH is left out, which in
// another case is plain bathymetry, and role, which is our own.
var anyCase = listAnyCase()

func listAnyCase() map[string]meaning {
	m := make(map[string]meaning)
	for name, meant := range attributeNames {
		if meant.attr != SoundingDepth && meant.attr != role {
			m[strings.ToLower(name)] = meant
		}
	}
	return m
}

// meaningOf is what a property name stands for, in any case and with blanks about
// it; ok is false for a name that means nothing.
func meaningOf(name string) (m meaning, ok bool) {
	const longest = 40 // characters, of the longest name and more
	if m, ok = attributeNames[name]; ok || len(name) > longest {
		return m, ok
	}
	if m.attr, ok = genericAttr(name); ok {
		return m, ok
	}
	m, ok = anyCase[strings.ToLower(strings.TrimSpace(name))]
	return m, ok
}

var s57Names = listS57Names()

func listS57Names() map[Attr]string {
	m := make(map[Attr]string)
	for name, meant := range attributeNames {
		if meant.attr < SoundingDepth && strings.ToUpper(name) == name {
			m[meant.attr] = name
		}
	}
	return m
}

// AttributeName is the S-57 acronym of an attribute that is read, "" for any
// other.
func AttributeName(a Attr) string { return s57Names[a] }

// genericNames are the names of plain bathymetry, in lower case.
var genericNames = map[string]Attr{
	"depth": genericDepth, "elev": genericHeight, "elevation": genericHeight,
	"depthmin": genericMin, "depthmax": genericMax,
}

// genericAttr is the meaning of a property name in plain bathymetry, case
// ignored.
func genericAttr(name string) (a Attr, ok bool) {
	if len(name) > len("elevation") {
		return 0, false
	}
	a, ok = genericNames[strings.ToLower(name)]
	return a, ok
}
