package plan

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"keelroom/geo/geojson"
)

// withFeatures returns the smallest plan with n more features of that text.
func withFeatures(t *testing.T, feature string, n int) []byte {
	t.Helper()
	text := string(readFile(t, "testdata/smallest.geojson"))
	return []byte(change(t, text, `"features":[`, `"features":[`+strings.Repeat(feature+",\n", n)))
}

// TestLargePrivateLayer: a private layer of the size that a layer may have travels
// with the plan, byte for byte.
func TestLargePrivateLayer(t *testing.T) {
	ring := strings.Repeat("[-36.2100000,43.0900000],", 400_000) + "[-36.2100000,43.0900000]"
	zone := `{"type":"Feature","properties":{"role":"zone"},"geometry":{"type":"Polygon","coordinates":[[` + ring + `]]}}`
	p := mustDecode(t, withFeatures(t, zone, 1))
	if len(p.Private) != 1 || string(p.Private[0].Feature) != zone {
		t.Fatal("the private feature did not come through")
	}
	if !bytes.Contains(mustEncode(t, p), []byte(zone)) {
		t.Error("the private feature was not written again")
	}
}

// TestTooManyFeatures: more features than a layer may have are refused as too much.
func TestTooManyFeatures(t *testing.T) {
	const hazard = `{"properties":{"role":"hazard"}}`
	mustDecode(t, withFeatures(t, hazard, MaxFeatures-1))
	_, err := Decode(withFeatures(t, hazard, MaxFeatures))
	var limit *geojson.LimitError
	if !errors.As(err, &limit) {
		t.Errorf("got %v; a LimitError is wanted", err)
	}
}
