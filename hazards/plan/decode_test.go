package plan

import (
	"encoding/json"
	"os"
	"reflect"
	"testing"
	_ "time/tzdata"
)

func readFile(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func parsed(t testing.TB, b []byte) any {
	t.Helper()
	var v any
	if err := json.Unmarshal(b, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func mustDecode(t testing.TB, b []byte) *Plan {
	t.Helper()
	p, err := Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func mustEncode(t testing.TB, p *Plan) []byte {
	t.Helper()
	b, err := Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestRoundTrip: a file that is read and written again says the same, members
// this package does not know included, and no default is added.
func TestRoundTrip(t *testing.T) {
	for _, name := range []string{"example-day", "smallest"} {
		t.Run(name, func(t *testing.T) {
			in := readFile(t, "testdata/"+name+".geojson")
			out := mustEncode(t, mustDecode(t, in))
			want, got := parsed(t, in), parsed(t, out)
			normaliseTimes(want)
			normaliseTimes(got)
			if !reflect.DeepEqual(want, got) {
				t.Errorf("written again:\n%s", out)
			}
		})
	}
}

// normaliseTimes spells UTC one way: "Z" and "+00:00" are the same instant.
func normaliseTimes(v any) {
	switch v := v.(type) {
	case map[string]any:
		for k, item := range v {
			if s, ok := item.(string); ok {
				if tm, wrong := parseTime(s); wrong == "" {
					v[k] = tm.String()
				}
			}
			normaliseTimes(item)
		}
	case []any:
		for _, item := range v {
			normaliseTimes(item)
		}
	}
}
