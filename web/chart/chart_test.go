package chart

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// The parts of the chart view that need no browser are tested in Node, against
// published values and brute force. testdata/parts.mjs prints one line a check.
func TestParts(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("Node is not there, so the scripts of the chart view were not tested")
		}
		t.Skip("SKIPPED: Node is not there, so the scripts of the chart view were not tested")
	}
	out, err := exec.Command(node, "testdata/parts.mjs").CombinedOutput()
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
