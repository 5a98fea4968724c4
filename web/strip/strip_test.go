package strip

import (
	"testing"

	"keelroom/testdata/nodetest"
)

// The day strip is tested in Node on a made-up page. testdata/strip.mjs prints one
// line a check.
func TestStrip(t *testing.T) { nodetest.Run(t, "testdata/strip.mjs") }
