package plan

import (
	"bytes"
	"errors"
	"fmt"
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

// ring is a zone of so many positions.
func ring(positions int) string {
	text := strings.Repeat("[-36.2100000,43.0900000],", positions-1) + "[-36.2100000,43.0900000]"
	return `{"type":"Feature","properties":{"role":"zone","RESTRN":[1,2,3]},"geometry":{"type":"Polygon","coordinates":[[` + text + `]]}}`
}

// TestLargePrivateLayer: a private layer of the size that a plan may carry travels
// with it, byte for byte; one position more is refused, with the number that is
// wanted, from a draft too.
func TestLargePrivateLayer(t *testing.T) {
	half := ring(MaxPrivatePositions / 2)
	p := mustDecode(t, withFeatures(t, half, 2))
	if len(p.Private) != 2 || string(p.Private[0].Feature) != half {
		t.Fatal("the private feature did not come through")
	}
	if !bytes.Contains(mustEncode(t, p), []byte(half)) {
		t.Error("the private feature was not written again")
	}
	tooMuch(t, withFeatures(t, ring(MaxPrivatePositions/2+1)+","+half, 1), "20000 positions in zones and hazards")
}

// TestTooManyWaypoints: as many waypoints as the screen may hold are taken, one more
// is refused with the number that is wanted.
func TestTooManyWaypoints(t *testing.T) {
	route := func(n int) []byte {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "[-36.%04d,43.1],", i)
		}
		line := `{"type":"Feature","properties":{"role":"route","name":"out"},"geometry":{"type":"LineString","coordinates":[` + strings.TrimSuffix(b.String(), ",") + `]}}`
		return []byte(`{"type":"FeatureCollection","plan":{"version":1,"time_zone":"UTC"},"features":[` + line + `]}`)
	}
	if _, err := DecodeDraft(route(MaxPositions)); err != nil {
		t.Error(err)
	}
	tooMuch(t, route(MaxPositions+1), "2000 waypoints, stays, berths and refuges")
}

func tooMuch(t *testing.T, text []byte, wanted string) {
	t.Helper()
	for name, read := range map[string]func([]byte) (*Plan, error){"a draft": DecodeDraft, "a plan": Decode} {
		_, err := read(text)
		var limit *geojson.LimitError
		if !errors.As(err, &limit) || !strings.Contains(err.Error(), wanted) {
			t.Errorf("%s: got %.200v; a LimitError with %q is wanted", name, err, wanted)
		}
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
