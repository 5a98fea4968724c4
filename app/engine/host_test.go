package engine

import (
	"encoding/json"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"
	_ "time/tzdata"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide/stationdata"
	"keelroom/testdata/beside"
)

// fakeHost keeps replies. onTurn and onPost are called on the service's
// goroutine.
type fakeHost struct {
	mu      sync.Mutex
	replies []Reply
	arrived chan struct{}
	turns   int
	at      []int // what the service said that it is at
	last    time.Time
	longest time.Duration // between two turns, of work
	onTurn  func(turn int)
	onPost  func(Reply)
}

func newHost() *fakeHost { return &fakeHost{arrived: make(chan struct{}, 1000)} }

func (h *fakeHost) Post(r Reply) {
	h.mu.Lock()
	h.replies = append(h.replies, r)
	see := h.onPost
	h.mu.Unlock()
	if see != nil {
		see(r)
	}
	select {
	case h.arrived <- struct{}{}:
	default:
	}
}

func (h *fakeHost) At(id int) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.at = append(h.at, id)
}

func (h *fakeHost) Turn() {
	h.turns++
	if h.onTurn != nil {
		h.onTurn(h.turns)
	}
}

// watch has every reply from now on seen as it is posted.
func (h *fakeHost) watch(see func(Reply)) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.onPost = see
}

func (h *fakeHost) all() []Reply {
	h.mu.Lock()
	defer h.mu.Unlock()
	return append([]Reply(nil), h.replies...)
}

// last waits for the last reply to a request.
func (h *fakeHost) end(t testing.TB, id int) Reply {
	t.Helper()
	deadline := time.After(2 * time.Minute)
	for {
		for _, r := range h.all() {
			if r.ID == id && r.State != Progress {
				return r
			}
		}
		select {
		case <-h.arrived:
		case <-deadline:
			t.Fatalf("no end of request %d", id)
		}
	}
}

// start runs a service until the test ends.
func start(t testing.TB, h *fakeHost) *Service {
	t.Helper()
	s := New(h, func(path string) ([]byte, error) { return stationdata.Bytes, nil })
	ended := make(chan struct{})
	go func() {
		s.Run()
		close(ended)
	}()
	t.Cleanup(func() {
		s.Stop()
		<-ended
	})
	return s
}

func readFile(t testing.TB, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// folder reads the layers of a folder.
func folder(t testing.TB, path string) []layer.File {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(path, "*.geojson"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no layers in %s: %v", path, err)
	}
	var files []layer.File
	for _, name := range names {
		files = append(files, layer.File{Name: filepath.Base(name), Data: readFile(t, name)})
	}
	return files
}

func demoFiles(t testing.TB) []layer.File {
	return folder(t, filepath.Join(beside.Root(t), "web", "demo", "chart"))
}

func demoPlan(t testing.TB) string {
	return string(readFile(t, filepath.Join(beside.Root(t), "web", "demo", "plan.geojson")))
}

func decodeFiles(t testing.TB, files []layer.File) *chart.Set {
	t.Helper()
	set, messages := layer.Decode(files)
	if set == nil {
		t.Fatal(messages)
	}
	return set
}

func planOf(t testing.TB, text string) *plan.Plan {
	t.Helper()
	p, err := plan.Decode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func body[T any](t testing.TB, r Reply) T {
	t.Helper()
	var out T
	if err := json.Unmarshal(r.Body, &out); err != nil {
		t.Fatalf("%s %s: %v", r.Kind, r.State, err)
	}
	return out
}
