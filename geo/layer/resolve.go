package layer

import (
	"cmp"
	"strings"

	"keelroom/geo/chart"
)

// finish tells the class of the feature in hand and gives it to the Builder.
func (d *decoder) finish() error {
	f, o := &d.feature, &d.object
	if f.wrong != "" {
		d.feature.fail("E-GEOM", strings.TrimSuffix(d.feature.where(""), "geometry")+"type", f.wrong, "a Feature")
	}
	o.Class = d.class()
	o.Attributes, o.Geometry, o.Polygons = f.attrs, f.geometry, d.polygons
	o.File, o.Index, o.Key = d.from.file, f.index, d.feature.objectKey()
	o.Twin = f.twin | 1
	if f.lnam {
		o.Twin = 0
	}
	if o.Class == chart.NoClass && !d.bathy.plain() {
		d.noClass()
	}
	d.hazardIsOne()
	if o.Class == chart.DSID {
		d.b.Describe(d.feature.dataSet()) // what could be read of it counts in any case
		if len(f.before) == 0 && f.geometry.Prim == chart.None {
			return nil
		}
	}
	d.noPlace()
	d.b.add(o, f.before)
	return nil
}

// hazardIsOne refuses a plan's hazard whose class no check would heed: drawn as
// a danger, it must not pass for something else.
func (d *decoder) hazardIsOne() {
	o := &d.object
	if !d.private || d.feature.attribute(role).text() != "hazard" || matters(o.Class) && o.Class != chart.MCOVR || o.Class == unreadClass {
		return
	}
	d.feature.fail("E-CONFLICT", d.feature.where("role"), "a hazard, and its class is "+cmp.Or(o.Class.Acronym(), o.Class.String()), "a class that is one, or none")
	o.Class = unreadClass
}

// noPlace refuses a record that has no place but was drawn in one, or could not
// be read: it may be anything, so its place counts as unknown.
func (d *decoder) noPlace() {
	o, f := &d.object, &d.feature
	collection := o.Class >= chart.CAGGR && o.Class <= chart.CSTAC
	if o.Class != chart.DSID && !collection {
		return
	}
	if f.geometry.Prim != chart.None {
		d.feature.fail("E-GEOM", d.feature.where(""), o.Class.Acronym()+" drawn in a place", "no geometry: it describes others")
	}
	if len(f.before) > 0 {
		o.Class = unreadClass
	}
}

// class is the first answer of: OBJL or a class name, which must agree; the
// collection's name; the file's name (layer profile section 2). NoClass is no
// answer.
func (d *decoder) class() chart.Class {
	stated := d.statedClass()
	if stated != chart.NoClass {
		return stated
	}
	if d.private {
		return chart.NoClass // its role tells
	}
	if c, ok := acronymClass(d.header.name); ok {
		return c
	}
	if d.fileClass == chart.NoClass && d.feature.isDataSet() {
		return chart.DSID
	}
	return d.fileClass
}

// statedClass is what OBJL, objectClass, OBJECT and _layer say.
func (d *decoder) statedClass() (class chart.Class) {
	name := ""
	for i := range d.feature.attrs {
		at := &d.feature.attrs[i]
		c := chart.NoClass
		switch {
		case at.Value.unknown():
		case at.Attr == objl:
			c = d.numberedClass(at)
		case at.Attr == objectClass:
			c = d.namedClass(at)
		}
		switch {
		case c == chart.NoClass || c == class:
		case class == chart.NoClass:
			class, name = c, at.Name
		default:
			d.feature.fail("E-CONFLICT", d.feature.where(at.Name), at.Value.describe()+", which is not what "+name+" says", "one class")
			if !matters(class) {
				class = c
			}
		}
	}
	return class
}

// numberedClass reads OBJL. A number that cannot be one leaves open what the
// object is.
func (d *decoder) numberedClass(at *Attribute) chart.Class {
	code, ok := at.Value.integer(1, int(unreadClass)-1)
	if !ok {
		d.feature.fail("E-NUM", d.feature.where(at.Name), at.Value.describe(), "the number of an S-57 class")
		return unreadClass
	}
	d.b.Coded()
	return chart.Class(code)
}

// namedClass reads a class name. One that nobody knows is no answer.
func (d *decoder) namedClass(at *Attribute) chart.Class {
	c, ok := ClassOf(at.Value.text())
	if !ok {
		return chart.NoClass
	}
	name := strings.ToUpper(strings.TrimSpace(at.Value.text()))
	switch name {
	case foulGround:
		d.feature.imply(CATOBS, at.Name, NumberOf(7))
	case spanOpening:
		d.feature.imply(OpeningBridge, at.Name, Value{Kind: TruthValue, Num: 1})
	case spanFixed:
		d.feature.imply(OpeningBridge, at.Name, Value{Kind: TruthValue})
	}
	if kind, ok := mooringKinds[name]; ok {
		d.feature.imply(CATMOR, at.Name, NumberOf(kind))
	}
	return c
}

// noClass warns of a feature whose class is not known, or gives it the one
// that its role in a plan means.
func (d *decoder) noClass() {
	if d.private {
		switch d.feature.attribute(role).text() {
		case "zone":
			d.object.Class = chart.RESARE
			return
		case "hazard":
			d.object.Class = chart.OBSTRN
			return
		}
	}
	name := d.feature.attribute(objectClass)
	found := "no class"
	if !name.unknown() {
		found = "no class called " + name.describe()
	}
	wanted := "OBJL, an S-57 or S-101 class name" + suggested(name.text())
	at, as := tells(d.feature.attrs, !name.unknown())
	if at == nil {
		d.feature.warn("W-CLASS", d.feature.where("objectClass"), found, wanted+", or a depth; it is drawn and not used")
		return
	}
	d.feature.fail("E-CLASS", d.feature.where("objectClass"), found+", with "+at.Name+" "+at.Value.describe(), wanted+"; its place counts as unknown")
	d.object.Class = unclassed(as)
}

// Datum is the VERDAT of a DataSet for a number that a data set states: one that
// is none of the known datums stands for a datum that is not known.
func Datum(code int) int {
	if validDatum(code) {
		return code
	}
	return unreadable
}

// unreadable stands for a number that was stated and could not be read: it is
// none of those that are wanted.
const unreadable = -1
