package web

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// What of the scripts needs no browser is tested in Node: each of these files prints
// one line a check.
func TestDevice(t *testing.T)        { inNode(t, "testdata/device.mjs") }
func TestLoadingAgain(t *testing.T)  { inNode(t, "testdata/first.mjs") }
func TestMoves(t *testing.T)         { inNode(t, "testdata/moves.mjs") }
func TestServiceWorker(t *testing.T) { inNode(t, "testdata/worker.mjs") }

func inNode(t *testing.T, file string) {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("Node is not there, so " + file + " was not run")
		}
		t.Skip("SKIPPED: Node is not there, so " + file + " was not run")
	}
	out, err := exec.Command(node, file).CombinedOutput()
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
