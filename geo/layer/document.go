package layer

import (
	"errors"
	"fmt"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/geojson"
)

// document reads a FeatureCollection or a Feature.
func (d *decoder) document() error {
	if k := d.in.Kind(); k != geojson.Object && k != geojson.Invalid {
		return d.from.refuse("E-JSON", "", k.String(), "a FeatureCollection or Feature")
	}
	if err := d.in.Object(d.topMember); err != nil {
		return err
	}
	if err := d.in.End(); err != nil {
		return err
	}
	return d.byType()
}

// topMember reads a member of the document.
func (d *decoder) topMember(key string) (err error) {
	switch key {
	case "type":
		d.docType, err = d.in.String()
	case "name":
		if d.in.Kind() == geojson.String {
			d.header.name, err = d.in.String()
			d.header.name = clipped(d.header.name)
			return d.late(err)
		}
	case "crs":
		return d.crs("crs")
	case "layer":
		if d.in.Kind() == geojson.Object {
			return d.late(d.layerMember())
		}
	case "features":
		if d.postpone || d.docType != "FeatureCollection" {
			return d.mark(key)
		}
		return d.features()
	case "id", "geometry", "properties":
		return d.mark(key)
	}
	return err
}

// late reports a member that comes after the features.
func (d *decoder) late(err error) error {
	if err == nil && d.seen {
		return errLate
	}
	return err
}

func (d *decoder) mark(key string) (err error) {
	d.marks[key], err = d.in.Postpone()
	return err
}

// byType reads what was put off, once the type of the document is known.
func (d *decoder) byType() error {
	features, put := d.marks["features"]
	switch {
	case d.docType == "FeatureCollection" && put:
		if err := d.in.Revisit(features, d.features); err != nil {
			return err
		}
	case d.docType == "FeatureCollection" && !d.seen:
		return d.from.refuse("E-GEOM", "features", "nothing", "an array of features")
	case d.docType == "Feature":
		if err := d.bareFeature(); err != nil {
			return err
		}
	case d.docType == "":
		return d.from.refuse("E-GEOM", "type", "no type", wantedDocument)
	case d.docType != "FeatureCollection":
		return d.from.refuse("E-GEOM", "type", quote(d.docType), wantedDocument)
	}
	d.cutHeader()
	d.b.Header(d.header.Header)
	return d.bathy.err
}

const wantedDocument = "a FeatureCollection or Feature"

func (d *decoder) features() error {
	d.seen = true
	return d.in.Array(func(i int) error {
		if err := d.begin(i); err != nil {
			return err
		}
		if err := d.in.Object(d.featureMember); err != nil {
			return err
		}
		return d.finish()
	})
}

// bareFeature reads a document that is one feature, whose members were put off.
func (d *decoder) bareFeature() error {
	if err := d.begin(d.feature.index); err != nil {
		return err
	}
	d.feature.bare = true
	for _, key := range []string{"id", "geometry", "properties"} {
		if m, ok := d.marks[key]; ok {
			if err := d.in.Revisit(m, func() error { return d.featureMember(key) }); err != nil {
				return err
			}
		}
	}
	return d.finish()
}

// begin starts a feature.
func (d *decoder) begin(index int) error {
	d.between()
	if d.left.features--; d.left.features < 0 {
		return d.from.refuse("E-SIZE", d.in.Path(), "too many features", fmt.Sprintf("%d or fewer in all files of a set", MaxFeatures))
	}
	f := &d.feature
	f.index, f.wrong, f.key, f.before, f.attrs = index, "", "", nil, f.attrs[:0]
	f.twin, f.lnam, f.geometry = 0, false, chart.Geometry{Prim: chart.None}
	return nil
}

// featureMember reads a member of a feature.
func (d *decoder) featureMember(key string) (err error) {
	f := &d.feature
	switch key {
	case "type":
		if d.in.Kind() != geojson.String {
			f.wrong = "no type"
			return nil
		}
		var s string
		if s, err = d.in.String(); s != "Feature" {
			f.wrong = quote(s)
		}
	case "id":
		f.key, err = d.id()
	case "geometry":
		return d.geometry()
	case "properties":
		if d.in.Kind() != geojson.Null {
			return d.in.Object(d.property)
		}
	case "crs":
		return d.crs(d.in.Path())
	}
	return err
}

// id reads a text or number; anything else is no id.
func (d *decoder) id() (id string, err error) {
	switch d.in.Kind() {
	case geojson.String:
		id, err = d.in.String()
	case geojson.Number:
		id, err = d.in.NumberText()
	}
	return clipped(id), err
}

// property reads one property, if its name means something.
func (d *decoder) property(key string) error {
	f := &d.feature
	m, ok := d.meaning(key)
	if !ok {
		if f.lnam {
			return nil
		}
		raw, err := d.in.Raw()
		f.twin ^= mix(textHash(key), bytesHash(raw))
		return err
	}
	items := 0
	v, err := d.value(&items)
	if err != nil {
		return err
	}
	f.twin ^= mix(textHash(key), valueHash(v))
	f.attrs = append(f.attrs, Attribute{Attr: m.attr, Name: key, Value: v.part(m.part)})
	f.lnam = f.lnam || m.attr == lnam && !v.unknown()
	return nil
}

// namesKept bounds the memory for property names that mean nothing.
const namesKept = 4096

// meaning is what a property name stands for in this file. An attr of 0 is
// nothing.
func (d *decoder) meaning(key string) (meaning, bool) {
	m, met := d.names[key]
	if met {
		return m, m.attr != 0
	}
	m, _ = meaningOf(key)
	if m.attr == 0 && d.header.depthProperty != "" && strings.EqualFold(key, d.header.depthProperty) {
		m.attr = genericNamed
	}
	if len(d.names) < namesKept {
		d.names[key] = m
	}
	return m, m.attr != 0
}

// maxItems is how many items the lists and parts of one attribute may have.
const maxItems = 1000

// value reads the value of an attribute.
func (d *decoder) value(items *int) (v Value, err error) {
	if *items++; *items > maxItems {
		return v, d.from.refuse("E-SIZE", d.in.Path(), fmt.Sprintf("more than %d items in an attribute", maxItems), "fewer")
	}
	switch d.in.Kind() {
	case geojson.Number:
		v.Kind = NumberValue
		if v.Num, err = d.in.Number(); err != nil {
			return d.hugeNumber(err)
		}
	case geojson.String:
		v.Kind = TextValue
		v.Text, err = d.in.String()
		v.Text = clipped(v.Text)
	case geojson.Bool:
		var yes bool
		v.Kind = TruthValue
		if yes, err = d.in.Bool(); yes {
			v.Num = 1
		}
	case geojson.Array:
		v.Kind = ListValue
		err = d.in.Array(func(int) error {
			item, err := d.value(items)
			v.Items = append(v.Items, item)
			return err
		})
	case geojson.Object:
		v.Kind = ComplexValue
		err = d.in.Object(func(key string) error {
			part, err := d.value(items)
			v.Members = append(v.Members, Member{key, part})
			return err
		})
	default:
		err = d.in.Skip()
	}
	return v, err
}

// hugeNumber keeps a number beyond float64 as the text it is, which no
// attribute takes.
func (d *decoder) hugeNumber(err error) (Value, error) {
	var value *geojson.ValueError
	if !errors.As(err, &value) {
		return Value{}, err
	}
	text, err := d.in.NumberText()
	return TextOf(clipped(text)), err
}

func notPlain(c rune) bool {
	return !(c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c == '_' || c == '-' || c == ':')
}
