package layer

import (
	"cmp"
	"fmt"
	"strings"

	"keelroom/geo/chart"
)

// finish tells the class of the feature in hand and gives it to the Builder.
func (d *decoder) finish() error {
	f, o := &d.feature, &d.object
	if f.wrong != "" {
		d.before("E-GEOM", strings.TrimSuffix(d.where(""), "geometry")+"type", f.wrong, "a Feature")
	}
	o.Class = d.class()
	o.Attributes, o.Geometry, o.Polygons = f.attrs, f.geometry, d.polygons
	o.File, o.Index, o.Key = d.fileName, f.index, d.key()
	o.Twin = f.twin | 1
	if f.lnam {
		o.Twin = 0
	}
	if o.Class == chart.NoClass && !d.plain() {
		d.noClass()
	}
	d.hazardIsOne()
	if o.Class == chart.DSID {
		d.b.Describe(d.dataSet()) // what could be read of it counts in any case
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
	if !d.private || d.attribute(role).text() != "hazard" || matters(o.Class) && o.Class != chart.MCOVR || o.Class == unreadClass {
		return
	}
	d.before("E-CONFLICT", d.where("role"), "a hazard, and its class is "+cmp.Or(o.Class.Acronym(), o.Class.String()), "a class that is one, or none")
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
		d.before("E-GEOM", d.where(""), o.Class.Acronym()+" drawn in a place", "no geometry: it describes others")
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
	if d.fileClass == chart.NoClass && d.isDataSet() {
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
			d.before("E-CONFLICT", d.where(at.Name), at.Value.describe()+", which is not what "+name+" says", "one class")
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
		d.before("E-NUM", d.where(at.Name), at.Value.describe(), "the number of an S-57 class")
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
		d.imply(CATOBS, at.Name, NumberOf(7))
	case spanOpening:
		d.imply(OpeningBridge, at.Name, Value{Kind: TruthValue, Num: 1})
	case spanFixed:
		d.imply(OpeningBridge, at.Name, Value{Kind: TruthValue})
	}
	if kind, ok := mooringKinds[name]; ok {
		d.imply(CATMOR, at.Name, NumberOf(kind))
	}
	return c
}

// imply adds an attribute that an S-101 type says by its name.
func (d *decoder) imply(a Attr, name string, v Value) {
	d.feature.attrs = append(d.feature.attrs, Attribute{Attr: a, Name: name, Value: v})
}

// isDataSet reports whether a feature without class and place is the
// identification of a data set: a merged file may have lost its name.
func (d *decoder) isDataSet() bool {
	if d.feature.geometry.Prim != chart.None {
		return false
	}
	for i := range d.feature.attrs {
		if at := &d.feature.attrs[i]; at.Attr >= dsidName && !at.Value.unknown() {
			return true
		}
	}
	return false
}

// noClass warns of a feature whose class is not known, or gives it the one
// that its role in a plan means.
func (d *decoder) noClass() {
	if d.private {
		switch d.attribute(role).text() {
		case "zone":
			d.object.Class = chart.RESARE
			return
		case "hazard":
			d.object.Class = chart.OBSTRN
			return
		}
	}
	name := d.attribute(objectClass)
	found := "no class"
	if !name.unknown() {
		found = "no class called " + name.describe()
	}
	wanted := "OBJL, an S-57 or S-101 class name" + suggested(name.text())
	at, as := tells(d.feature.attrs, !name.unknown())
	if at == nil {
		d.warn("W-CLASS", d.where("objectClass"), found, wanted+", or a depth; it is drawn and not used")
		return
	}
	d.before("E-CLASS", d.where("objectClass"), found+", with "+at.Name+" "+at.Value.describe(), wanted+"; its place counts as unknown")
	d.object.Class = unclassed(as)
}

func (d *decoder) warn(code, path, found, wanted string) {
	d.feature.before = append(d.feature.before, chart.Message{
		Level: chart.Warning, Code: code, File: d.fileName, Path: path, Found: found, Wanted: wanted,
	})
}

// attribute is the first value with that meaning.
func (d *decoder) attribute(a Attr) Value {
	for i := range d.feature.attrs {
		if at := &d.feature.attrs[i]; at.Attr == a && !at.Value.unknown() {
			return at.Value
		}
	}
	return Value{}
}

// key is LNAM, made of AGEN, FIDN and FIDS where it is absent, else the id. FIDN
// is taken modulo 2^32: some programs write it signed.
func (d *decoder) key() string {
	if name := d.attribute(lnam).text(); name != "" {
		return name
	}
	agency, ok1 := d.attribute(agen).integer(0, 0xFFFF)
	number, ok2 := d.attribute(fidn).integer(-1<<31, 1<<32-1)
	part, ok3 := d.attribute(fids).integer(0, 0xFFFF)
	if ok1 && ok2 && ok3 {
		return fmt.Sprintf("%04X%08X%04X", agency, uint32(number), part)
	}
	return d.feature.key
}

// dataSet reads the identification of a data set, a DSID feature.
func (d *decoder) dataSet() DataSet {
	number := func(a Attr) int {
		v := d.attribute(a)
		if v.unknown() {
			return 0
		}
		n, _ := v.integer(1, 1<<31-1)
		return cmp.Or(n, unreadable)
	}
	datum := func(a Attr) int {
		if n := number(a); n != 0 {
			return Datum(n)
		}
		return 0
	}
	return DataSet{
		Name: d.attribute(dsidName).text(), Edition: d.attribute(dsidEdition).text(),
		Update: d.attribute(dsidUpdate).text(), IssueDate: d.attribute(dsidIssue).text(),
		SoundingDatum: datum(dspmSounding), HeightDatum: datum(dspmVertical),
		HorizontalDatum: number(dspmHorizontal), DepthUnit: number(dspmDepthUnit), HeightUnit: number(dspmHeightUnit),
		Scale: max(number(dspmScale), 0), File: d.fileName, Where: d.where,
	}
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
