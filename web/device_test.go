package web

import (
	"testing"

	"keelroom/testdata/nodetest"
)

// What of the scripts needs no browser is tested in Node.
func TestDevice(t *testing.T)        { nodetest.Run(t, "testdata/device.mjs") }
func TestLoadingAgain(t *testing.T)  { nodetest.Run(t, "testdata/first.mjs") }
func TestMoves(t *testing.T)         { nodetest.Run(t, "testdata/moves.mjs") }
func TestServiceWorker(t *testing.T) { nodetest.Run(t, "testdata/worker.mjs") }
