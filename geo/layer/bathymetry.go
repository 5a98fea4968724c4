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
}

// plain gives a feature without S-57 class the class that its depth property
// means: a line is a contour, a point a sounding, an area a depth area. It
// turns the depths to metres positive down. It is false where there is none.
func (d *decoder) plain() bool {
	f, o := &d.feature, &d.object
	depth := d.plainDepth()
	switch f.geometry.Prim {
	case chart.Area:
		if depth == nil && !d.hasRange() {
			return false
		}
		o.Class = chart.DEPARE
		d.plainArea(depth)
	case chart.Line:
		if depth == nil {
			return false
		}
		o.Class = chart.DEPCNT
		d.toMetres(depth, VALDCO)
	default: // also where the geometry could not be read: its place is unknown
		if depth == nil && d.hasRange() {
			o.Class = chart.DEPARE // its place may be lost; not what it is
			d.plainArea(nil)
			return true
		}
		if depth == nil {
			return false
		}
		o.Class = chart.SOUNDG
		d.thirdNumbers(depth)
		d.toMetres(depth, SoundingDepth)
		o.Geometry.DepthsM = nil // the property is the statement
	}
	return true
}

// plainDepth is the depth property of the feature, nil if it has none. Two in
// one feature, or another than the features before had, refuse the file.
func (d *decoder) plainDepth() (found *Attribute) {
	for i := range d.feature.attrs {
		at := &d.feature.attrs[i]
		if at.Value.unknown() || !d.isPlainDepth(at) {
			continue
		}
		if d.bathy.property == "" {
			d.bathy.property = at.Name
		}
		if !strings.EqualFold(d.bathy.property, at.Name) || found != nil {
			d.spoil(d.refuse("E-CONFLICT", d.inFile(at.Name), at.Name+" beside "+d.bathy.property,
				"one depth property; name it in layer.depthProperty"))
		}
		found = at
	}
	return found
}

func (d *decoder) isPlainDepth(at *Attribute) bool {
	if d.header.depthProperty != "" {
		return strings.EqualFold(at.Name, d.header.depthProperty)
	}
	return at.Attr == genericDepth || at.Attr == genericHeight || at.Attr == SoundingDepth
}

// inFile is where for an error of the document: without the root.
func (d *decoder) inFile(attribute string) string {
	return strings.TrimPrefix(d.where(attribute), d.root+".")
}

// spoil keeps the first error that refuses the file.
func (d *decoder) spoil(err error) {
	if d.bathy.err == nil {
		d.bathy.err = err
	}
}

func (d *decoder) hasRange() bool {
	return !d.attribute(genericMin).unknown() || !d.attribute(genericMax).unknown()
}

// plainArea reads depthMin and depthMax. A bare depth does not say which end of
// the range it is. Positive up both are needed: one alone might be either end.
func (d *decoder) plainArea(depth *Attribute) {
	least, greatest := d.attribute(genericMin), d.attribute(genericMax)
	switch {
	case least.unknown() && greatest.unknown():
		d.before("E-DEPTH", d.where(depth.Name), "one depth for an area", "depthMin and depthMax")
		return
	case least.unknown() || greatest.unknown() && d.header.depthSign == "up":
		d.before("E-DEPTH", d.where("depthMin"), "one end of the depths of an area", "depthMin and depthMax")
	}
	for i := range d.feature.attrs {
		switch at := &d.feature.attrs[i]; at.Attr {
		case genericMin:
			d.toMetres(at, DRVAL1)
		case genericMax:
			d.toMetres(at, DRVAL2)
		}
	}
}

// thirdNumbers refuses a sounding whose third coordinate says another depth than
// its property, whichever way is up; 0 says nothing.
func (d *decoder) thirdNumbers(at *Attribute) {
	v, ok := at.Value.number()
	for _, z := range d.feature.geometry.DepthsM {
		if ok && z != 0 && math.Abs(math.Abs(z)-math.Abs(v)) > 0.05 {
			d.before("E-CONFLICT", d.where(""), fmt.Sprintf("a third coordinate of %g, and %s is %g", z, at.Name, v), "one depth")
			return
		}
	}
}

// toMetres turns a plain depth into the S-57 attribute: metres, positive down,
// rounded toward the shoaler centimetre. What is no number stays as it is, for
// the interpretation to refuse.
func (d *decoder) toMetres(at *Attribute, as Attr) {
	at.Attr = as
	v, ok := at.Value.number()
	if !ok {
		return
	}
	v *= metresIn[d.header.depthUnit]
	height := genericNames[strings.ToLower(at.Name)] == genericHeight
	switch {
	case height && d.header.depthSign == "down":
		d.spoil(d.refuse("E-SIGN", "layer.depthSign", "down, and "+at.Name+" is positive up", "no depthSign, or up"))
	case height || d.header.depthSign == "up":
		v = -v
	case v < 0 && d.header.depthSign == "":
		d.spoil(d.refuse("E-SIGN", d.inFile(at.Name), "'"+at.Name+
			"' holds negative numbers: are they metres below (sign up) or drying heights (sign down)?",
			"layer.depthSign, up or down"))
	}
	at.Value = NumberOf(shoaler(v))
}

// shoaler rounds a depth down to 0.01 m. A depth that is a whole number of
// centimetres but for the last bits of its binary fraction stays.
func shoaler(m float64) float64 { return math.Floor(m*100+1e-6) / 100 }
