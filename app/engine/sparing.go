package engine

import (
	"runtime"
	"runtime/debug"
)

// sparing spares memory while a chart is loaded. Work on a large one has what is no longer
// used collected more often, and at once where much is: a browser never gets back what
// its program has taken once.
type sparing struct {
	large  bool
	before int // the garbage collector's percentage
}

// spare begins the work on a chart of files of so many bytes.
func spare(bytes int) *sparing {
	const large, often = 16 << 20, 25 // percent of what is in use
	s := &sparing{large: bytes >= large}
	if s.large {
		s.before = debug.SetGCPercent(often)
	}
	return s
}

// collect makes room of what was let go, before as much is taken anew.
func (s *sparing) collect() {
	if s.large {
		runtime.GC()
	}
}

// done ends the work.
func (s *sparing) done() {
	if s.large {
		debug.SetGCPercent(s.before)
	}
}

// positions counts those of all sets.
func (c *collection) positions() (n int) {
	for _, l := range c.sets {
		for i := range l.set.Features {
			n += len(l.set.Features[i].Coords)
		}
	}
	return n
}
