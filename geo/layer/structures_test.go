package layer

import (
	"testing"

	"keelroom/geo/chart"
)

// A mooring structure is told from a mooring buoy by CATMOR or by its S-101 type.
// What kind it is and cannot be read, its place is unknown.
func TestMooringStructures(t *testing.T) {
	for text, want := range map[string]int{
		`"objectClass":"MORFAC","CATMOR":1`: 1, `"objectClass":"MORFAC","CATMOR":7`: 7, `"objectClass":"MORFAC"`: 0,
		`"objectClass":"MooringWarpingFacility","categoryOfMooringWarpingFacility":7`: 7,
		`"objectClass":"Dolphin"`: 1, `"objectClass":"Bollard"`: 3, `"objectClass":"MooringBuoy"`: 7,
	} {
		if f := only(t, doc(aPoint, text)); f.Class != chart.MORFAC || f.CatMor != want || f.Afloat() != (want == 7) {
			t.Errorf("%s: %s of kind %d, afloat %v", text, f.Class, f.CatMor, f.Afloat())
		}
	}
	set, messages := read(doc(aPoint, `"objectClass":"MORFAC","CATMOR":"buoy"`))
	if codes(messages) != "E-NUM" || len(set.Refused) != 1 {
		t.Errorf("%v, refused %v", messages, set.Refused)
	}
}

// Whether a bridge opens: by its category, by its S-101 type or by openingBridge, as
// a truth value, a number or a text. Else it is neither said to open nor to be fixed.
func TestWhetherABridgeOpens(t *testing.T) {
	for text, want := range map[string][2]bool{ // opens, fixed
		`"objectClass":"BRIDGE"`:                               {false, false},
		`"objectClass":"BRIDGE","CATBRG":["1"]`:                {false, true},
		`"objectClass":"BRIDGE","CATBRG":["9"]`:                {false, false},
		`"objectClass":"BRIDGE","CATBRG":["1","4"]`:            {true, false},
		`"objectClass":"BRIDGE","CATBRG":"5"`:                  {true, false},
		`"objectClass":"SpanOpening"`:                          {true, false},
		`"objectClass":"SpanFixed"`:                            {false, true},
		`"objectClass":"Bridge","openingBridge":true`:          {true, false},
		`"objectClass":"Bridge","openingBridge":"true"`:        {true, false},
		`"objectClass":"Bridge","openingBridge":1`:             {true, false},
		`"objectClass":"Bridge","openingBridge":false`:         {false, true},
		`"objectClass":"Bridge","openingBridge":"unreadable"`:  {false, false},
		`"objectClass":"Bridge","categoryOfOpeningBridge":"2"`: {true, false},
	} {
		f := only(t, doc(aLine, text))
		if got := [2]bool{f.Overhead.Opening, f.Overhead.Fixed}; got != want {
			t.Errorf("%s: opens and is fixed %v, want %v", text, got, want)
		}
	}
}

// A crane is something to pass under only where it says how high it is.
func TestCranes(t *testing.T) {
	if f := only(t, doc(anArea, `"objectClass":"CRANES"`)); f.Overhead != nil {
		t.Errorf("a crane without VERCLR: %+v", f.Overhead)
	}
	if f := only(t, doc(aPoint, `"objectClass":"Crane","verticalClearanceFixed":{"verticalClearanceValue":7.5}`)); f.Overhead == nil || f.Overhead.VerClrM != 7.5 {
		t.Errorf("a crane 7.5 m up: %+v", f.Overhead)
	}
}

// The place of a thing that a check would miss is unknown where it cannot be read:
// for each class that is not to be run into, entered or passed under.
func TestRefusedThingsLeaveTheirPlaceUnknown(t *testing.T) {
	for _, class := range []string{"MORFAC", "LITFLT", "LITVES", "BOYINB", "CRANES", "DAYMAR", "ICEARE", "OILBAR", "RAPIDS", "WATTUR",
		"MIPARE", "SPLARE", "SUBTLN", "ISTZNE", "OSPARE", "TSSLPT", "TSEZNE", "GATCON"} {
		set, messages := read(doc(`{"type":"Polygon","coordinates":[[[10,50],[11,50]]]}`, `"objectClass":"`+class+`"`))
		if set == nil || len(set.Refused) != 1 || set.Refused[0].Class.String() != class {
			t.Errorf("%s: %v", class, messages)
		}
	}
}
