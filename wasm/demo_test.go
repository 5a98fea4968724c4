package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

// onDisk fetches from the folder of the files.
func onDisk(path string) ([]byte, error) {
	if path == demoIndexName {
		names, err := filepath.Glob("../web/demo/chart/*.geojson")
		list := make([]string, len(names))
		for i, name := range names {
			list[i] = fmt.Sprintf("%q", "chart/"+filepath.Base(name))
		}
		return []byte(`{"plan": "plan.geojson", "chart": [` + strings.Join(list, ",") + `]}`), err
	}
	return os.ReadFile(filepath.Join("..", "web", path))
}

// The demo day, checked as the browser does it: it has two stays, all in the
// demo chart, and its plan promises a day that can be made.
func TestDemoDay(t *testing.T) {
	var said []string
	planFile, report, err := checkDemo(onDisk, func(words string) { said = append(said, words) })
	if err != nil {
		t.Fatal(err)
	}
	if _, err := plan.Decode(planFile); err != nil {
		t.Error(err)
	}
	r, err := plan.DecodeReport(report)
	if err != nil {
		t.Fatal(err)
	}
	if r.Verdict != plan.Care && r.Verdict != plan.Clear {
		t.Errorf("verdict %s on the demo day", r.Verdict)
	}
	if len(r.Stays) != 2 || len(r.Charts) != 1 || len(said) != 3 {
		t.Errorf("%d stays, %d charts, progress %q", len(r.Stays), len(r.Charts), said)
	}
}

func TestDemoThatCannotBeHad(t *testing.T) {
	quiet := func(string) {}
	broken := func(bad string) fetcher {
		return func(path string) ([]byte, error) {
			if strings.HasSuffix(path, bad) {
				return nil, errors.New(path + " is away")
			}
			return onDisk(path)
		}
	}
	for _, bad := range []string{"index.json", "plan.geojson", "DEPARE.geojson"} {
		if _, _, err := checkDemo(broken(bad), quiet); err == nil || !strings.Contains(err.Error(), bad+" is away") {
			t.Errorf("without %s: %v", bad, err)
		}
	}
	cut := func(bad string) fetcher {
		return func(path string) ([]byte, error) {
			b, err := onDisk(path)
			if strings.HasSuffix(path, bad) {
				b = b[:len(b)/2]
			}
			return b, err
		}
	}
	for _, bad := range []string{"index.json", "plan.geojson", "DEPARE.geojson"} {
		if _, _, err := checkDemo(cut(bad), quiet); err == nil {
			t.Errorf("half of %s is taken", bad)
		}
	}
}
