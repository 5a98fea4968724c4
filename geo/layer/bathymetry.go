package layer

import (
	"fmt"
	"math"
	"strings"

	"keelroom/geo/chart"
)

// Metres in a unit of depth, exactly (international yard and pound agreement,
// 1959; a fathom is 6 feet).
var metresIn = map[string]float64{"": 1, "m": 1, "ft": 0.3048, "fm": 1.8288}

// bathymetry is what plain depths of one file have shown so far, for a decision
// about the whole file.
type bathymetry struct {
	property string // the name of the depth property, as first met
	err      error  // the first thing that refuses the file

	feature *rawFeature // the one in hand
	object  *Object     // that it becomes
	header  *fileHeader
	from    *origin
}

// plain gives a feature without S-57 class the class that its depth property
// means: a line is a contour, a point a sounding, an area a depth area. It
// turns the depths to metres positive down. It is false where there is none.
func (b *bathymetry) plain() bool {
	f, o := b.feature, b.object
	depth := b.plainDepth()
	switch f.geometry.Prim {
	case chart.Area:
		if depth == nil && !b.feature.hasRange() {
			return false
		}
		o.Class = chart.DEPARE
		b.plainArea(depth)
	case chart.Line:
		if depth == nil {
			return false
		}
		o.Class = chart.DEPCNT
		b.toMetres(depth, VALDCO)
	default: // also where the geometry could not be read: its place is unknown
		if depth == nil && b.feature.hasRange() {
			o.Class = chart.DEPARE // its place may be lost; not what it is
			b.plainArea(nil)
			return true
		}
		if depth == nil {
			return false
		}
		o.Class = chart.SOUNDG
		b.thirdNumbers(depth)
		b.toMetres(depth, SoundingDepth)
		o.Geometry.DepthsM = nil // the property is the statement
	}
	return true
}

// plainDepth is the depth property of the feature, nil if it has none. Two in
// one feature, or another than the features before had, refuse the file.
func (b *bathymetry) plainDepth() (found *Attribute) {
	for i := range b.feature.attrs {
		at := &b.feature.attrs[i]
		if at.Value.unknown() || !b.isPlainDepth(at) {
			continue
		}
		if b.property == "" {
			b.property = at.Name
		}
		if !strings.EqualFold(b.property, at.Name) || found != nil {
			b.spoil(b.from.refuse("E-CONFLICT", b.inFile(at.Name), at.Name+" beside "+b.property,
				"one depth property; name it in layer.depthProperty"))
		}
		found = at
	}
	return found
}

func (b *bathymetry) isPlainDepth(at *Attribute) bool {
	if b.header.depthProperty != "" {
		return strings.EqualFold(at.Name, b.header.depthProperty)
	}
	return at.Attr == genericDepth || at.Attr == genericHeight || at.Attr == SoundingDepth
}

// inFile is where for an error of the document: without the root.
func (b *bathymetry) inFile(attribute string) string {
	return strings.TrimPrefix(b.feature.where(attribute), b.from.root+".")
}

// spoil keeps the first error that refuses the file.
func (b *bathymetry) spoil(err error) {
	if b.err == nil {
		b.err = err
	}
}

// plainArea reads depthMin and depthMax. A bare depth does not say which end of
// the range it is. Positive up both are needed: one alone might be either end.
func (b *bathymetry) plainArea(depth *Attribute) {
	least, greatest := b.feature.attribute(genericMin), b.feature.attribute(genericMax)
	switch {
	case least.unknown() && greatest.unknown():
		b.feature.fail("E-DEPTH", b.feature.where(depth.Name), "one depth for an area", "depthMin and depthMax")
		return
	case least.unknown() || greatest.unknown() && b.header.depthSign == "up":
		b.feature.fail("E-DEPTH", b.feature.where("depthMin"), "one end of the depths of an area", "depthMin and depthMax")
	}
	for i := range b.feature.attrs {
		switch at := &b.feature.attrs[i]; at.Attr {
		case genericMin:
			b.toMetres(at, DRVAL1)
		case genericMax:
			b.toMetres(at, DRVAL2)
		}
	}
}

// thirdNumbers refuses a sounding whose third coordinate says another depth than
// its property, whichever way is up; 0 says nothing.
func (b *bathymetry) thirdNumbers(at *Attribute) {
	v, ok := at.Value.number()
	for _, z := range b.feature.geometry.DepthsM {
		if ok && z != 0 && math.Abs(math.Abs(z)-math.Abs(v)) > 0.05 {
			b.feature.fail("E-CONFLICT", b.feature.where(""), fmt.Sprintf("a third coordinate of %g, and %s is %g", z, at.Name, v), "one depth")
			return
		}
	}
}

// toMetres turns a plain depth into the S-57 attribute: metres, positive down,
// rounded toward the shoaler centimetre. What is no number stays as it is, for
// the interpretation to refuse.
func (b *bathymetry) toMetres(at *Attribute, as Attr) {
	at.Attr = as
	v, ok := at.Value.number()
	if !ok {
		return
	}
	v *= metresIn[b.header.depthUnit]
	height := genericNames[strings.ToLower(at.Name)] == genericHeight
	switch {
	case height && b.header.depthSign == "down":
		b.spoil(b.from.refuse("E-SIGN", "layer.depthSign", "down, and "+at.Name+" is positive up", "no depthSign, or up"))
	case height || b.header.depthSign == "up":
		v = -v
	case v < 0 && b.header.depthSign == "":
		b.spoil(b.from.refuse("E-SIGN", b.inFile(at.Name), "'"+at.Name+
			"' holds negative numbers: are they metres below (sign up) or drying heights (sign down)?",
			"layer.depthSign, up or down"))
	}
	at.Value = NumberOf(shoaler(v))
}

// shoaler rounds a depth down to 0.01 m. A depth that is a whole number of
// centimetres but for the last bits of its binary fraction stays.
func shoaler(m float64) float64 { return math.Floor(m*100+1e-6) / 100 }
