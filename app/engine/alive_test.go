package engine

import (
	"testing"
	"time"
)

// Whoever waits is told at what the service is when it begins, and again every
// second of work: it knows a hang from work that takes long, and what hangs.
func TestServiceSaysWhatItIsAt(t *testing.T) {
	h := newHost()
	s := New(h, nil)
	var clock time.Time
	s.pace.now = func() time.Time { clock = clock.Add(100 * time.Millisecond); return clock } // a slow device
	go s.Run()
	t.Cleanup(s.Stop)
	s.Handle(Request{ID: 1, Kind: PutSet, Set: "demo", Files: demoFiles(t)})
	h.end(t, 1)
	s.Handle(Request{ID: 2, Kind: CheckPlan, Plan: demoPlan(t)})
	h.end(t, 2)
	h.mu.Lock()
	defer h.mu.Unlock()
	told := map[int]int{}
	for _, id := range h.at {
		told[id]++
	}
	if len(told) != 2 || told[1] < 2 || told[2] < 2 {
		t.Errorf("told %v; both requests, each more than once, are wanted", told)
	}
}
