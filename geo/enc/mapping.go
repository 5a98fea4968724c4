package enc

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// mapping gives the features of a cell to a Builder.
type mapping struct {
	model   *model
	builder layer.Builder
	shaper  shaper

	record *featureRecord // in hand
	object layer.Object
	attrs  []layer.Attribute
	left   int // features that the cell may still come to
}

// newMapping is a mapping of a cell of so many bytes. It bounds what pointers to
// one record over and over may come to: the features may have as many positions
// as the cell has bytes, where well made cells have a tenth of it, and they are
// no more than its soundings could be.
func newMapping(m *model, size int) *mapping {
	const least = 1 << 12
	p := &mapping{model: m, left: min(layer.MaxFeatures, max(size/depthSize, least))}
	p.shaper = newShaper(m, min(layer.MaxPositions, max(size, least)))
	p.object.File, p.object.Where = m.file, p.where
	return p
}

// where is the path of an attribute of the feature in hand, or of its geometry.
func (p *mapping) where(attribute string) string {
	if p.record == nil {
		return strings.TrimSpace("record 1 " + attribute)
	}
	name := chart.Class(p.record.class).String()
	return strings.TrimSpace(fmt.Sprintf("feature %d %s %s", p.record.id, name, attribute))
}

// all maps the identification and the features, class by class in the order of
// their acronyms and record numbers: the order in which the layers of a
// converter lie in a folder.
func (p *mapping) all(between func() error) error {
	p.describe()
	order := make([]*featureRecord, 0, len(p.model.features.at))
	p.model.features.each(func(r *featureRecord) uint32 { return r.id }, func(r *featureRecord) { order = append(order, r) })
	slices.SortFunc(order, compareRecords)
	p.builder.Reserve(p.count(order))
	for i, r := range order {
		if i%64 == 0 {
			if err := between(); err != nil {
				return err
			}
		}
		if err := p.feature(r); err != nil {
			return err
		}
	}
	return nil
}

// count is how many features the records become.
func (p *mapping) count(records []*featureRecord) int {
	n := len(records)
	for _, r := range records {
		if r.class != uint16(chart.SOUNDG) || len(r.spatial) == 0 {
			continue
		}
		if node := p.shaper.records.get(pointed(r.spatial)); node != nil && node.depths {
			n += len(node.places)/depthSize - 1
		}
	}
	return min(max(n, 0), p.left)
}

func compareRecords(a, b *featureRecord) int {
	if a.class != b.class {
		if c := strings.Compare(chart.Class(a.class).Acronym(), chart.Class(b.class).Acronym()); c != 0 {
			return c
		}
		return cmp.Compare(a.class, b.class)
	}
	return cmp.Compare(a.id, b.id)
}

// describe gives the identification of the cell to the Builder.
func (p *mapping) describe() {
	id, params := &p.model.identity, &p.model.params
	p.builder.Coded()
	p.builder.Describe(layer.DataSet{
		Name: id.name, Edition: id.edition, Update: id.update, IssueDate: id.issued,
		SoundingDatum: layer.Datum(params.sounding), HeightDatum: layer.Datum(params.vertical),
		HorizontalDatum: cmp.Or(params.horizontal, -1), DepthUnit: params.depthUnit, HeightUnit: params.heightUnit,
		Scale: params.scale, File: p.model.file, Where: p.where,
	})
}

// feature maps one feature. A fault of its geometry is its own; other errors
// are the cell's.
func (p *mapping) feature(r *featureRecord) error {
	p.record = r
	o := &p.object
	o.Class, o.Index, o.Key = chart.Class(r.class), int(r.id), r.key()
	p.attributes(r)
	o.Attributes, o.Twin = p.attrs, 0
	err := p.shaper.shape(r)
	var own *geometryFault
	switch {
	case errors.Is(err, errBorderOnly):
		return nil
	case errors.As(err, &own):
		before := []chart.Message{p.say(chart.FeatureError, "E-GEOM", own.found, own.wanted)}
		o.Geometry, o.Polygons = chart.Geometry{Prim: p.shaper.geometry.Prim}, nil
		if own.whole {
			o.Geometry.Coords = p.shaper.geometry.Coords
		}
		p.builder.AddWith(o, before)
		return nil
	case err != nil:
		return p.located(err)
	}
	o.Geometry, o.Polygons = p.shaper.geometry, p.shaper.polygons
	return p.add()
}

// located gives a fault of the cell the place of the feature in hand.
func (p *mapping) located(err error) error {
	var f *fault
	if errors.As(err, &f) && f.place == "" {
		f.place = p.where("")
	}
	return err
}

func (p *mapping) say(level chart.Level, code, found, wanted string) chart.Message {
	return chart.Message{Level: level, Code: code, File: p.model.file, Path: p.where(""), Found: found, Wanted: wanted}
}

// add gives the object to the Builder; the soundings of one record one by one.
func (p *mapping) add() error {
	o := &p.object
	n := 1
	if o.Class == chart.SOUNDG {
		n = max(1, len(o.Geometry.Coords))
	}
	if p.left -= n; p.left < 0 {
		return &fault{"E-SIZE", p.where(""), "too many features", fmt.Sprintf("%d or fewer in a cell", layer.MaxFeatures)}
	}
	if n == 1 {
		p.builder.Add(o)
		return nil
	}
	all := o.Geometry
	for i := range all.Coords {
		o.Geometry.Coords = all.Coords[i : i+1]
		if all.DepthsM != nil {
			o.Geometry.DepthsM = all.DepthsM[i:]
		}
		p.builder.Add(o)
	}
	return nil
}

// attributes lists what a record says of the attributes that features are made
// of. A present one without a value is unknown.
func (p *mapping) attributes(r *featureRecord) {
	p.attrs = p.attrs[:0]
	eachText(r.attributes, 1, func(code uint16, value []byte) {
		if name := layer.AttributeName(layer.Attr(code)); name != "" {
			value = value[:min(len(value), layer.MaxText+1)] // longer texts are cut; see layer.MaxText
			p.attrs = append(p.attrs, layer.Attribute{Attr: layer.Attr(code), Name: name, Value: layer.TextOf(latin(string(value)))})
		}
	})
	p.nationalText(r)
}

// National texts and what they stand in for (S-57 App. A, attributes 300, 301).
var nationalNames = map[uint16]struct {
	instead layer.Attr
	name    string
}{300: {layer.INFORM, "NINFOM"}, 301: {layer.OBJNAM, "NOBJNM"}}

// nationalText adds the name and information in the national language where
// there is none in English.
func (p *mapping) nationalText(r *featureRecord) {
	letter := 1
	if p.model.identity.nationalLevel == 2 {
		letter = 2
	}
	eachText(r.national, letter, func(code uint16, value []byte) {
		n, ok := nationalNames[code]
		if !ok {
			return
		}
		value = value[:min(len(value), letter*(layer.MaxText+1))]
		text := latin(string(value))
		if letter == 2 {
			text = wide(value)
		}
		p.attrs = append(p.attrs, layer.Attribute{Attr: n.instead, Name: n.name, Value: layer.TextOf(text)})
	})
}
