package web

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// What of device.js needs no browser is tested in Node: testdata/device.mjs prints
// one line a check.
func TestDevice(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("Node is not there, so device.js was not tested")
		}
		t.Skip("SKIPPED: Node is not there, so device.js was not tested")
	}
	out, err := exec.Command(node, "testdata/device.mjs").CombinedOutput()
	for line := range strings.Lines(string(out)) {
		line = strings.TrimSpace(line)
		if name, failed := strings.CutPrefix(line, "not ok "); failed {
			t.Error(name)
			continue
		}
		t.Log(line)
	}
	if err != nil && !t.Failed() {
		t.Fatalf("node: %v\n%s", err, out)
	}
}
