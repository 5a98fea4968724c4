// Package nodetest runs scripts in Node for tests of what the browser runs.
package nodetest

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Run runs a script that prints one line a check: a line that begins with "not ok"
// is a failure. Without Node the test is skipped, and says so; under CI=true it fails.
func Run(t *testing.T, script string) {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("Node is not there, so %s was not run", script)
		}
		t.Skipf("SKIPPED: Node is not there, so %s was not run", script)
	}
	out, err := exec.Command(node, script).CombinedOutput()
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
