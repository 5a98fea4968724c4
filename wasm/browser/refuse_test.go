//go:build !js

package browser

import (
	"testing"
)

// A file that is refused leaves the layers that were there, and says why: what
// was found, and what is wanted. The codes are those of the layer profile.
func TestRefusedFile(t *testing.T) {
	t.Parallel()
	refused := []struct{ name, file, text, found string }{
		{"ends in the middle", "half.geojson", bank[:len(bank)/2], "E-JSON"},
		{"depths in feet", "DSID.geojson", `{"type":"FeatureCollection","name":"DSID","features":[{"type":"Feature","geometry":null,"properties":{"objectClass":"DSID","DSID_DSNM":"INVENTED","DSPM_DUNI":2,"DSPM_SDAT":23}}]}`, "E-UNIT"},
		{"metres of a projection", "projected.geojson", `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"depth":5},"geometry":{"type":"LineString","coordinates":[[341000,4681000],[341500,4681200]]}}]}`, "E-COORD"},
		{"a sign that may be either", "sign.geojson", `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"depth":-5},"geometry":{"type":"LineString","coordinates":[[-36.05,42.97],[-36.04,42.97]]}}]}`, "E-SIGN"},
		{"no GeoJSON", "list.json", `[1, 2]`, "E-JSON"},
	}
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		before := p.reported()
		for _, c := range refused {
			p.opened(p.file(c.file, c.text))
			p.listed("li.set", "Refused:", c.found)
			p.listed("li.set", "INVENTED WATERS", "197 objects")
			p.sees("was refused as a whole; the layers that were there stay.")
			p.press(button("Close this message"))
			p.accessible()
			p.press(css("li.set:has(.wrong) button:last-of-type"))
			p.seesNone("Refused:")
		}
		p.verdict(isCare)
		sameJSON(t, "the report afterwards", p.reported(), before)
		p.reload()
		p.aboard()
		p.section("charts")
		if n := len(p.lines("li.set")); n != 1 {
			t.Errorf("%d layer sets after refusals and a reload; the demo's alone is wanted", n)
		}
	})
}

// Positions that make sense only with longitude and latitude swapped, beside the
// sea that is loaded, are told of.
func TestSwappedPositionsOnScreen(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.opened(p.file("swapped.geojson", `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"depth":5},"geometry":{"type":"LineString","coordinates":[[42.97,-36.05],[42.97,-36.04]]}}]}`))
	p.listed("li.set", "swapped", "warning")
	p.press(css("li.set .messages summary"))
	p.listed("li.set .messages li", "W-COORD")
	p.verdict(isCare)
}
