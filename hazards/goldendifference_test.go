package hazards

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// goldenReport is a report without what names a finding: its code and its id.
func goldenReport(t *testing.T, encoded []byte) map[string]any {
	t.Helper()
	var report map[string]any
	if err := json.Unmarshal(encoded, &report); err != nil {
		t.Fatal(err)
	}
	for _, f := range report["features"].([]any) {
		properties := f.(map[string]any)["properties"].(map[string]any)
		delete(properties, "code")
		delete(properties, "id")
	}
	return report
}

// goldenDifference names the first few features that differ.
func goldenDifference(t *testing.T, want, got []byte) string {
	w, g := goldenReport(t, want), goldenReport(t, got)
	var out []string
	if !reflect.DeepEqual(w["report"], g["report"]) {
		for key, v := range w["report"].(map[string]any) {
			if u := g["report"].(map[string]any)[key]; !reflect.DeepEqual(v, u) {
				out = append(out, fmt.Sprintf("report.%s\n  was %s\n  is  %s", key, short(v), short(u)))
			}
		}
	}
	a, b := w["features"].([]any), g["features"].([]any)
	if len(a) != len(b) {
		out = append(out, fmt.Sprintf("%d features, were %d", len(b), len(a)))
	}
	for i := 0; i < min(len(a), len(b)) && len(out) < 6; i++ {
		if !reflect.DeepEqual(a[i], b[i]) {
			out = append(out, fmt.Sprintf("feature %d\n  was %s\n  is  %s", i, short(a[i]), short(b[i])))
		}
	}
	return strings.Join(out, "\n")
}

func short(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	return string(b[:min(len(b), 900)])
}
