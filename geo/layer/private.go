package layer

import "keelroom/geo/chart"

// PlanFeature is a GeoJSON feature that travels with a plan. Path is its place
// in the plan file, such as features[3], for messages.
type PlanFeature struct {
	Path string
	Data []byte
}

// Private reads the zones and hazards of a plan (`role` "zone" or "hazard") as
// a private layer set. Properties are as in a layer file; a zone without a
// class is a restricted area, a hazard without one an obstruction. file is the
// name for messages. The result is as with Decode.
func Private(file string, features []PlanFeature) (*chart.Set, []chart.Message) {
	b, left := new(Builder), profileLimits
	files := make([]File, len(features))
	for i, f := range features {
		files[i] = File{file, f.Data}
		if left.bytes -= len(f.Data); left.bytes < 0 {
			b.Log.Add(chart.Message{
				Level: chart.FileError, Code: "E-SIZE", File: baseName(file), Path: f.Path,
				Found: "too many bytes", Wanted: "fewer in all zones and hazards",
			})
			return nil, b.Log.Messages()
		}
	}
	for i, f := range features {
		d := newDecoder(b, files[i], &left)
		d.private, d.from.root, d.feature.index, d.fileClass = true, f.Path, i, chart.NoClass
		_ = d.file() // never late: a feature has no features
	}
	set := b.Set()
	if set != nil {
		set.Authority = chart.Private
		set.SHA256 = hashOf(files, func() {})
	}
	return set, b.Log.Messages()
}
