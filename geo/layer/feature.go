package layer

import (
	"cmp"
	"fmt"
	"strings"

	"keelroom/geo/chart"
)

// rawFeature is a feature as its file has it, before its class is known, and what
// was found wrong with it.
type rawFeature struct {
	from     *origin
	index    int
	bare     bool            // the document is the feature
	wrong    string          // a type that is no Feature
	key      string          // the id
	before   []chart.Message // what was found before it is interpreted
	attrs    []Attribute
	twin     uint64
	lnam     bool // it states an LNAM
	geometry chart.Geometry
}

func (f *rawFeature) hasRange() bool {
	return !f.attribute(genericMin).unknown() || !f.attribute(genericMax).unknown()
}

// where is the path of an attribute of the feature in hand, or of its geometry.
func (f *rawFeature) where(attribute string) string {
	base := ""
	if !f.bare {
		base = fmt.Sprintf("features[%d].", f.index)
	}
	switch {
	case attribute == "":
		return f.from.join(base + "geometry")
	case strings.ContainsFunc(attribute, notPlain):
		return f.from.join(base + "properties[" + quote(attribute) + "]")
	}
	return f.from.join(base + "properties." + attribute)
}

// fail notes a feature error found before the feature is interpreted.
func (f *rawFeature) fail(code, path, found, wanted string) {
	f.before = append(f.before, chart.Message{
		Level: chart.FeatureError, Code: code, File: f.from.file, Path: path, Found: found, Wanted: wanted,
	})
}

// imply adds an attribute that an S-101 type says by its name.
func (f *rawFeature) imply(a Attr, name string, v Value) {
	f.attrs = append(f.attrs, Attribute{Attr: a, Name: name, Value: v})
}

// isDataSet reports whether a feature without class and place is the
// identification of a data set: a merged file may have lost its name.
func (f *rawFeature) isDataSet() bool {
	if f.geometry.Prim != chart.None {
		return false
	}
	for i := range f.attrs {
		if at := &f.attrs[i]; at.Attr >= dsidName && !at.Value.unknown() {
			return true
		}
	}
	return false
}

// warn notes a warning found before the feature is interpreted.
func (f *rawFeature) warn(code, path, found, wanted string) {
	f.before = append(f.before, chart.Message{
		Level: chart.Warning, Code: code, File: f.from.file, Path: path, Found: found, Wanted: wanted,
	})
}

// attribute is the first value with that meaning.
func (f *rawFeature) attribute(a Attr) Value {
	for i := range f.attrs {
		if at := &f.attrs[i]; at.Attr == a && !at.Value.unknown() {
			return at.Value
		}
	}
	return Value{}
}

// objectKey is LNAM, made of AGEN, FIDN and FIDS where it is absent, else the id. FIDN
// is taken modulo 2^32: some programs write it signed.
func (f *rawFeature) objectKey() string {
	if name := f.attribute(lnam).text(); name != "" {
		return name
	}
	agency, ok1 := f.attribute(agen).integer(0, 0xFFFF)
	number, ok2 := f.attribute(fidn).integer(-1<<31, 1<<32-1)
	part, ok3 := f.attribute(fids).integer(0, 0xFFFF)
	if ok1 && ok2 && ok3 {
		return fmt.Sprintf("%04X%08X%04X", agency, uint32(number), part)
	}
	return f.key
}

// dataSet reads the identification of a data set, a DSID feature.
func (f *rawFeature) dataSet() DataSet {
	number := func(a Attr) int {
		v := f.attribute(a)
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
		Name: f.attribute(dsidName).text(), Edition: f.attribute(dsidEdition).text(),
		Update: f.attribute(dsidUpdate).text(), IssueDate: f.attribute(dsidIssue).text(),
		SoundingDatum: datum(dspmSounding), HeightDatum: datum(dspmVertical),
		HorizontalDatum: number(dspmHorizontal), DepthUnit: number(dspmDepthUnit), HeightUnit: number(dspmHeightUnit),
		Scale: max(number(dspmScale), 0), File: f.from.file, Where: f.where,
	}
}
