package layer

import (
	"fmt"
	"math"

	"keelroom/geo/chart"
)

// Attribute is one attribute of an object. Name is how the source spells it,
// for messages. Several may have the same Attr: an S-57 and an S-101 name.
type Attribute struct {
	Attr  Attr
	Name  string
	Value Value
}

// Object is a feature as a decoder of any format hands it over.
type Object struct {
	Class      chart.Class
	Attributes []Attribute
	// Geometry has its vertices as read: rings may be open, neighbours equal.
	// DepthsM holds third coordinates, NaN where there is none. The slices are
	// copied, so the caller may use them again.
	Geometry chart.Geometry
	// Polygons gives, for each part of an area, the index in Geometry.Ends after
	// its last ring, outer ring first; nil is one part.
	Polygons []int32
	File     string
	Index    int
	Key      string
	// Where is the path of the attribute of that name, or of the geometry for
	// "", as a message shows it.
	Where func(attribute string) string
	// Twin tells objects with equal attributes apart from others with the same
	// class and place, where there is no LNAM in Key: a hash of all attributes.
	Twin uint64
}

// reading is the interpretation of one object.
type reading struct {
	*Object
	problems []chart.Message
	failed   bool
}

// say notes a message about an attribute, or about the geometry for "".
func (r *reading) say(level chart.Level, code, attribute, found, wanted string) {
	r.failed = r.failed || level != chart.Warning
	r.problems = append(r.problems, chart.Message{
		Level: level, Code: code, File: r.File, Path: r.Where(attribute), Found: found, Wanted: wanted,
	})
}

func (r *reading) fail(code, attribute, found, wanted string) {
	r.say(chart.FeatureError, code, attribute, found, wanted)
}

func (r *reading) warn(code, attribute, found, wanted string) {
	r.say(chart.Warning, code, attribute, found, wanted)
}

// known calls fn with each attribute of that code that has a value.
func (r *reading) known(a Attr, fn func(at *Attribute)) {
	for i := range r.Attributes {
		if at := &r.Attributes[i]; at.Attr == a && !at.Value.unknown() {
			fn(at)
		}
	}
}

// has reports whether an attribute has a value.
func (r *reading) has(a Attr) (has bool) {
	r.known(a, func(*Attribute) { has = true })
	return has
}

// name is how the source spells an attribute, S-57's way where it has none.
func (r *reading) name(a Attr, s57 string) string {
	r.known(a, func(at *Attribute) { s57 = at.Name })
	return s57
}

// agree is how far two statements of one value may lie apart (layer profile
// section 4); the rest is room for binary fractions.
const agree = 0.05 + 1e-9

// number reads a number in a unit, Unknown where it is not stated. A value that
// is no number or out of range is E-NUM, two that differ are E-CONFLICT.
func (r *reading) number(a Attr, least, greatest float64, unit string) float64 {
	value, name := chart.Unknown, ""
	r.known(a, func(at *Attribute) {
		v, ok := at.Value.number()
		switch {
		case !ok:
			r.fail("E-NUM", at.Name, at.Value.describe(), "a number with a decimal point")
		case v < least || v > greatest:
			r.fail("E-NUM", at.Name, at.Value.describe(), fmt.Sprintf("%s from %g to %g", unit, least, greatest))
		case chart.Known(value) && math.Abs(v-value) > agree:
			r.conflict(at, name)
		case !chart.Known(value) || v < value: // of two that agree, the lower is the safer
			value, name = v, at.Name
		}
	})
	return value
}

func (r *reading) conflict(at *Attribute, other string) {
	r.fail("E-CONFLICT", at.Name, at.Value.describe()+", which is not what "+other+" says", "one value")
}

// Depths and drying heights, in metres (layer profile section 4).
func (r *reading) depth(a Attr) float64 { return r.number(a, -20, 12000, "metres") }

// Clearances, in metres.
func (r *reading) clearance(a Attr) float64 { return r.number(a, 0, 12000, "metres") }

// code reads the number of one code up to greatest, 0 where it is not stated.
func (r *reading) code(a Attr, greatest int) (code int) {
	name := ""
	r.known(a, func(at *Attribute) {
		v, ok := at.Value.integer(1, greatest)
		switch {
		case !ok:
			r.fail("E-NUM", at.Name, at.Value.describe(), fmt.Sprintf("one code from 1 to %d", greatest))
		case code != 0 && v != code:
			r.conflict(at, name)
		default:
			code, name = v, at.Name
		}
	})
	return code
}

// list reads the codes of a list attribute in their order.
func (r *reading) list(a Attr) (codes []int) {
	name := ""
	r.known(a, func(at *Attribute) {
		v, ok := at.Value.codes(nil)
		switch {
		case !ok:
			r.fail("E-NUM", at.Name, at.Value.describe(), fmt.Sprintf("codes from 1 to %d", maxCode))
		case codes != nil && chart.CodesOf(v...) != chart.CodesOf(codes...):
			r.conflict(at, name)
		default:
			codes, name = v, at.Name
		}
	})
	return codes
}

func (r *reading) codes(a Attr) chart.Codes { return chart.CodesOf(r.list(a)...) }

// datum reads VERDAT, 0 where it is not stated.
func (r *reading) datum() int {
	code := r.code(VERDAT, maxDatum)
	if code != 0 && !validDatum(code) {
		r.fail("E-NUM", r.name(VERDAT, "VERDAT"), fmt.Sprint(code), wantedDatum)
		return 0
	}
	return code
}

const (
	maxDatum    = 44
	wantedDatum = "a vertical datum, VERDAT 1 to 30 or 44"
)

// validDatum reports whether VERDAT has the code. Source: S-57 App. A, attribute
// 185 (1 to 30), and S-101 verticalDatum (44, added later).
func validDatum(code int) bool { return code >= 1 && code <= 30 || code == maxDatum }

// text reads the first of the attributes that has a text, whole or in the named
// member of a complex value.
func (r *reading) text(part string, attrs ...Attr) (text string) {
	name := ""
	for _, a := range attrs {
		r.known(a, func(at *Attribute) {
			at.Value.part(part).each(func(v Value) {
				if text == "" {
					text, name = v.text(), at.Name
				}
			})
		})
	}
	return r.cutText(text, name)
}
