package plan

import (
	"strconv"
	"strings"

	"keelroom/geo/geojson"
)

// Depths are metres. One in feet or fathoms that was taken for metres, or passed over as a
// member nobody knows, would be a false depth.

// unitsOfDepth are units as they are written behind a number, and their metres.
var unitsOfDepth = []struct {
	name   string
	metres float64
}{{"feet", 0.3048}, {"foot", 0.3048}, {"ft", 0.3048}, {"'", 0.3048}, {"fathoms", 1.8288}, {"fathom", 1.8288}, {"fm", 1.8288}, {"metres", 1}, {"meters", 1}, {"m", 1}}

// inMetres says of a text in the place of a number of metres what the number would be. The
// file is refused; that the member is there is kept, so that it is not told as missing too.
func inMetres(f field, p **float64) field {
	f.texted = func(text string) string {
		*p = new(float64)
		trimmed := strings.ToLower(strings.TrimSpace(text))
		for _, u := range unitsOfDepth {
			figure, ok := strings.CutSuffix(trimmed, u.name)
			v, err := strconv.ParseFloat(strings.TrimSpace(figure), 64)
			if ok && err == nil {
				return "the text " + quoted(text) + "; the number of metres is wanted, " + strconv.FormatFloat(v*u.metres, 'f', 2, 64)
			}
		}
		return "the text " + quoted(text) + "; a number of metres is wanted"
	}
	return f
}

// notInMetres refuses a member that holds a depth in another unit.
func notInMetres(key, unit string, metres float64) field {
	wanted := func(got string) string { return got + " " + unit + "; sounded_m, in metres, is wanted" }
	return field{
		key: key, kind: geojson.Number,
		set: func(v geojson.Value) string {
			return wanted(said(v.Num)) + ": " + strconv.FormatFloat(v.Num*metres, 'f', 2, 64)
		},
		get: func(*writer) (geojson.Value, bool) { return geojson.Value{}, false },
	}
}
