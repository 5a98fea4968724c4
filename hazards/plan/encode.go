package plan

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"keelroom/geo/geojson"
)

// Encode writes the plan as a plan file, one feature a line. A plan that is still
// a draft can be written; one with a value out of its range is an [*Errors].
func Encode(p *Plan) ([]byte, error) {
	c := &checker{}
	p.checkFields(c)
	p.checkPrivate(c)
	var problems []Problem
	for _, f := range c.found {
		if !f.incomplete {
			problems = append(problems, f.Problem)
		}
	}
	if err := listed(problems, 0); err != nil {
		return nil, err
	}
	w := &writer{zone: p.zone()}
	features := w.features(p)
	return w.document(p, features), nil
}

// checkPrivate checks that private features are what they say.
func (p *Plan) checkPrivate(c *checker) {
	for i, f := range p.Private {
		d := &decoder{r: geojson.NewReader(f.Feature)}
		role, err := d.role()
		if err == nil {
			err = d.r.End()
		}
		switch {
		case err != nil:
			c.wrong(fmt.Sprintf("private[%d]", i), err.Error())
		case f.Feature[0] != '{':
			c.wrong(fmt.Sprintf("private[%d]", i), "bytes before the feature; it alone is wanted")
		case role != f.Role || role != RoleZone && role != RoleHazard:
			c.wrong(fmt.Sprintf("private[%d].role", i), quoted(role)+"; the role "+quoted(f.Role)+" of a private feature is wanted")
		}
	}
}

type writer struct {
	zone  *time.Location
	moved bool // a feature does not lie where it lay when it was read
}

func (w *writer) time(t time.Time) geojson.Value { return geojson.TextOf(spell(t, w.zone)) }

func (w *writer) record(rec record) geojson.Value { return w.object(*rec.members(), rec.fields()) }

// object writes an object: what it had when it was read, in that order and with
// what changed, and then what is new and not a default.
func (w *writer) object(k kept, fields []field) geojson.Value {
	out := geojson.Value{Kind: geojson.Object}
	written := make(map[string]bool, len(k))
	for _, m := range k {
		written[m.Key] = true
		i := slices.IndexFunc(fields, func(f field) bool { return f.key == m.Key })
		if i < 0 {
			out.Append(m.Key, m.Value)
		} else if v, ok := w.again(m.Value, fields[i]); ok {
			out.Append(m.Key, v)
		}
	}
	for _, f := range fields {
		if written[f.key] || f.get == nil {
			continue
		}
		if v, ok := f.get(w); ok && !same(v, f.def) {
			out.Append(f.key, v)
		}
	}
	return out
}

// again returns what to write for a member that the file had.
func (w *writer) again(original geojson.Value, f field) (geojson.Value, bool) {
	if f.get == nil {
		return original, true
	}
	v, ok := f.get(w)
	switch {
	case !ok:
		return original, blank(original)
	case f.fresh:
		return v, true
	case same(v, original), original.Kind == geojson.Null && same(v, f.def):
		return original, true
	}
	return v, true
}

// blank says whether a value in a file means that none is given.
func blank(v geojson.Value) bool {
	return v.Kind == geojson.Null || v.Kind == geojson.Array && len(v.Items) == 0
}

// same says whether two values mean the same, whatever the spelling of numbers.
func same(a, b geojson.Value) bool {
	return a.Kind == b.Kind && a.Bool == b.Bool && a.Num == b.Num &&
		(a.Kind == geojson.Number || a.Str == b.Str) &&
		slices.EqualFunc(a.Items, b.Items, same) &&
		slices.EqualFunc(a.Members, b.Members, func(a, b geojson.Member) bool {
			return a.Key == b.Key && same(a.Value, b.Value)
		})
}

// item is a feature in the order of the file.
type item struct {
	located // nil for a private feature
	private []byte
	role    string // of a private feature
	rank    int
}

// order returns the features as they are written: the parts of the day in their
// order, and the others where they stood among them when they were read, new
// ones at the end.
func (p *Plan) order() []item {
	others := p.others()
	items := make([]item, 0, len(p.Parts)+len(others))
	for _, part := range p.Parts {
		f := part.located()
		if f == nil {
			continue
		}
		rank := f.source().rank
		for len(others) > 0 && others[0].rank != 0 && others[0].rank < rank {
			items = append(items, others[0])
			others = others[1:]
		}
		items = append(items, item{located: f, rank: rank})
	}
	return append(items, others...)
}

// others returns the features that are not parts of the day, those read first.
func (p *Plan) others() []item {
	var items []item
	for i := range p.Berths {
		items = append(items, item{located: &p.Berths[i], rank: p.Berths[i].rank})
	}
	for i := range p.Refuges {
		items = append(items, item{located: &p.Refuges[i], rank: p.Refuges[i].rank})
	}
	for _, f := range p.Private {
		items = append(items, item{private: f.Feature, role: f.Role, rank: f.rank})
	}
	slices.SortStableFunc(items, func(a, b item) int {
		if (a.rank == 0) != (b.rank == 0) {
			return cmp.Compare(b.rank, a.rank)
		}
		return cmp.Compare(a.rank, b.rank)
	})
	return items
}

// features writes every feature of the plan.
func (w *writer) features(p *Plan) [][]byte {
	items := p.order()
	out := make([][]byte, 0, len(items))
	for _, it := range items {
		w.moved = w.moved || it.rank == 0
		if it.located == nil {
			out = append(out, it.private)
			continue
		}
		out = append(out, w.feature(it.located).AppendJSON(nil))
	}
	w.moved = w.moved || len(items) != p.featuresWhenRead
	return out
}

func (w *writer) feature(f located) geojson.Value {
	o := f.source()
	coordinates := coordinatesOf(f)
	moved := true
	for _, m := range o.geometry {
		if m.Key == "coordinates" && same(m.Value, coordinates) {
			moved = false
		}
	}
	w.moved = w.moved || moved
	geometry := w.object(o.geometry, []field{
		constant("type", f.geometryType()),
		{key: "coordinates", fresh: true, get: func(*writer) (geojson.Value, bool) { return coordinates, true }},
		boxField(o.geometry, moved),
	})
	return w.object(o.feature, []field{
		constant("type", "Feature"),
		boxField(o.feature, moved),
		{key: "geometry", fresh: true, get: func(*writer) (geojson.Value, bool) { return geometry, true }},
		{key: "properties", fresh: true, get: func(w *writer) (geojson.Value, bool) { return w.record(f), true }},
	})
}

// boxField keeps a bbox as long as it holds: it is wrong once something moved.
func boxField(k kept, moved bool) field {
	return field{key: "bbox", fresh: true, get: func(*writer) (geojson.Value, bool) {
		for _, m := range k {
			if m.Key == "bbox" && !moved {
				return m.Value, true
			}
		}
		return geojson.Value{}, false
	}}
}

func coordinatesOf(f located) geojson.Value {
	line := geojson.Value{Kind: geojson.Array}
	for _, p := range f.positions() {
		line.Items = append(line.Items, geojson.Value{Kind: geojson.Array, Items: []geojson.Value{
			geojson.NumberSpelled(p.Lon(), positionDecimals), geojson.NumberSpelled(p.Lat(), positionDecimals),
		}})
	}
	if f.geometryType() == geojson.Point {
		return line.Items[0]
	}
	return line
}

// document writes the collection around the features.
func (w *writer) document(p *Plan, features [][]byte) []byte {
	head := w.object(p.collection, []field{
		constant("type", "FeatureCollection"),
		boxField(p.collection, w.moved),
		{key: "plan", fresh: true, get: func(w *writer) (geojson.Value, bool) { return w.record(p), true }},
		{key: "features", fresh: true, get: func(*writer) (geojson.Value, bool) {
			return geojson.Value{Kind: geojson.Array}, true
		}},
	})
	out := []byte("{")
	for i, m := range head.Members {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(geojson.AppendText(append(out, '\n'), m.Key), ": "...)
		if m.Key == "features" {
			out = appendLines(out, features)
		} else {
			out = m.Value.AppendJSON(out)
		}
	}
	return append(out, "\n}\n"...)
}

func appendLines(out []byte, features [][]byte) []byte {
	out = append(out, '[')
	for i, f := range features {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(append(out, '\n'), f...)
	}
	return append(out, "\n]"...)
}
