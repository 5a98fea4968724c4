package strip

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// The day strip is tested in Node on a made-up page. testdata/strip.mjs prints one
// line a check.
func TestStrip(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("Node is not there, so the day strip was not tested")
		}
		t.Skip("SKIPPED: Node is not there, so the day strip was not tested")
	}
	out, err := exec.Command(node, "testdata/strip.mjs").CombinedOutput()
	for line := range strings.Lines(string(out)) {
		line = strings.TrimSpace(line)
		if name, failed := strings.CutPrefix(line, "not ok "); failed {
			t.Error(name)
			continue
		}
		t.Log(line)
	}
	if err != nil && !t.Failed() {
		t.Fatalf("node: %v", err)
	}
}
