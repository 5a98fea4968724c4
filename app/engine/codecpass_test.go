package engine

import (
	"runtime"
	"strings"
	"testing"
)

// codecs are the functions through which a plan or a report becomes a text, or comes
// out of one.
var codecs = []string{"plan.Encode", "plan.decode", "plan.(*Report).Encode", "plan.DecodeReport", "json.Marshal", "json.Unmarshal"}

// passes counts, by codec, what was allocated in it so far.
func passes() map[string]int64 {
	runtime.GC() // what was allocated is told after two of these
	runtime.GC()
	var records []runtime.MemProfileRecord
	n, ok := 0, false
	for !ok {
		records = make([]runtime.MemProfileRecord, n+1000)
		n, ok = runtime.MemProfile(records, true)
	}
	out := map[string]int64{}
	for _, r := range records[:n] {
		frames := runtime.CallersFrames(r.Stack())
		for more := true; more; {
			var f runtime.Frame
			f, more = frames.Next()
			for _, name := range codecs {
				if strings.HasSuffix(f.Function, name) {
					out[name] += r.AllocObjects
				}
			}
		}
	}
	return out
}

// Neither the plan nor the report passes a codec while a point is dragged; a check
// that is asked for by a text passes both.
func TestNoCodecWhileDragging(t *testing.T) {
	defer func(rate int) { runtime.MemProfileRate = rate }(runtime.MemProfileRate)
	h := newHost()
	s := moving(t, h)
	runtime.MemProfileRate = 1
	points := pointsOf(planOf(t, demoPlan(t)))[3:8]
	before := passes()
	for i, m := range points {
		m.Seq = 1000 + i
		m.At[0] += 0.0003
		s.HandleMove(m)
		answered(t, h, m.Seq)
	}
	during := passes()
	for _, name := range codecs {
		if name != "json.Unmarshal" && during[name] != before[name] { // the test itself reads the answer
			t.Errorf("a move allocates %d times in %s", during[name]-before[name], name)
		}
	}
	s.Handle(Request{ID: 3, Kind: CheckPlan, Plan: " " + demoPlan(t), PlanRev: 4, ChartRev: 1})
	h.end(t, 3)
	after := passes()
	for _, name := range []string{"plan.decode", "plan.(*Report).Encode", "json.Marshal"} {
		if after[name] == during[name] {
			t.Errorf("a check of a text allocates nothing in %s: this test sees nothing", name)
		}
	}
}
