package web

import (
	"encoding/json"
	"testing"

	"keelroom/app/engine"
	"keelroom/testdata/nodetest"
)

// How large files may be is the program's own table.
func TestDevice(t *testing.T) {
	limits, err := json.Marshal(engine.Limits())
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("FILE_LIMITS", string(limits))
	nodetest.Run(t, "testdata/device.mjs")
}

// What of the scripts needs no browser is tested in Node.
func TestLoadingAgain(t *testing.T)  { nodetest.Run(t, "testdata/first.mjs") }
func TestWatch(t *testing.T)         { nodetest.Run(t, "testdata/watch.mjs") }
func TestMoves(t *testing.T)         { nodetest.Run(t, "testdata/moves.mjs") }
func TestServiceWorker(t *testing.T) { nodetest.Run(t, "testdata/worker.mjs") }
