package chart

import (
	"testing"

	"keelroom/testdata/nodetest"
)

// The parts of the chart view that need no browser are tested in Node, against
// published values and brute force. testdata/parts.mjs prints one line a check.
func TestParts(t *testing.T) { nodetest.Run(t, "testdata/parts.mjs") }
