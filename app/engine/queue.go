package engine

import (
	"fmt"
	"slices"
	"sync"
)

// jobs are the requests that wait, in order of arrival, and the one that is worked on.
type jobs struct {
	pace       *pace
	answerMove func(seq int, state string, words string)

	wake    chan struct{} // something was queued
	mu      sync.Mutex
	queue   []*job // in order of arrival
	running *job
	ended   []*job // cancelled, but not yet answered
	stopped bool
	waiting []*job // for the list of stations
}

// newestWins tells whether a newer request of the kind ends an older one.
func newestWins(kind string) bool {
	return kind == CheckPlan || kind == Ribbon || kind == FindStations || kind == AskPlace || kind == FindAnchorages || kind == LieHere || kind == ShelterGrid
}

// keepsOrder tells whether requests of the kind change the charts: none is ever
// left out.
func keepsOrder(kind string) bool { return kind == PutSet || kind == DropSet }

// rank orders kinds: the lower goes first. What works on the charts, or changes
// them, keeps its order, so that every answer is about the chart that was there
// when the question was asked; but what is long waits: the ribbon, and places to lie at.
// Of two long works the one that is begun goes on.
func rank(kind string) int {
	switch kind {
	case SortFiles, PutSet, DropSet, CheckPlan, MovePoint, AskPlace, LieHere, CancelRequest:
		return 0
	case Ribbon, FindAnchorages, ShelterGrid:
		return longWork
	}
	return 1
}

// longWork is the rank of what goes on only while nothing shorter waits.
const longWork = 2

// next takes the request that is to be worked on, nil for none.
func (js *jobs) next() (j *job, stop bool) {
	js.mu.Lock()
	defer js.mu.Unlock()
	best := -1
	for i, q := range js.queue {
		if best < 0 || rank(q.Kind) < rank(js.queue[best].Kind) {
			best = i
		}
	}
	if best >= 0 && !js.stopped {
		j = js.queue[best]
		js.queue = slices.Delete(js.queue, best, best+1)
		js.running = j
	}
	return j, js.stopped
}

// add queues a request, and ends those that it makes needless.
func (js *jobs) add(j *job) {
	js.mu.Lock()
	if newestWins(j.Kind) || j.Kind == MovePoint {
		js.cancel(func(o *job) bool { return o.Kind == j.Kind })
	}
	if j.Kind == CheckPlan || keepsOrder(j.Kind) { // what was moved was moved in another plan or chart
		js.cancel(func(o *job) bool { return o.Kind == MovePoint })
	}
	if j.Kind == CancelRequest {
		js.cancel(func(o *job) bool { return !keepsOrder(o.Kind) && o.Kind != MovePoint && fmt.Sprint(o.ID) == j.Text })
	}
	js.queue = append(js.queue, j)
	js.mu.Unlock()
	js.ring()
}

// stop ends the work once the step at hand is done.
func (js *jobs) stop() {
	js.mu.Lock()
	js.stopped = true
	js.mu.Unlock()
	js.ring()
}

// stepEnded notes that nothing is worked on.
func (js *jobs) stepEnded() {
	js.mu.Lock()
	js.running = nil
	js.mu.Unlock()
}

// ring wakes who waits for work.
func (js *jobs) ring() {
	select {
	case js.wake <- struct{}{}:
	default:
	}
}

// putBack queues a request that was overtaken, before all that came after it.
func (js *jobs) putBack(j *job) {
	js.mu.Lock()
	defer js.mu.Unlock()
	if j.cancelled {
		js.ended = append(js.ended, j)
		return
	}
	js.queue = slices.Insert(js.queue, 0, j)
}

// cancel ends the requests meant: at once in the queue, at its next pause the
// one that runs. The lock is held.
func (js *jobs) cancel(meant func(*job) bool) {
	js.queue = slices.DeleteFunc(js.queue, func(j *job) bool {
		if !meant(j) {
			return false
		}
		j.cancelled = true
		js.ended = append(js.ended, j)
		return true
	})
	if js.running != nil && meant(js.running) {
		js.running.cancelled = true
	}
	js.waiting = slices.DeleteFunc(js.waiting, func(j *job) bool {
		if meant(j) {
			js.ended = append(js.ended, j)
		}
		return meant(j)
	})
}

// letWait keeps a request until the list of stations is there.
func (js *jobs) letWait(j *job) {
	js.mu.Lock()
	defer js.mu.Unlock()
	if j.cancelled {
		js.ended = append(js.ended, j)
		return
	}
	js.waiting = append(js.waiting, j)
}

// goOn queues what waits for the list of stations before all else, or gives it where the
// list is not to be had.
func (js *jobs) goOn(had bool) (left []*job) {
	js.mu.Lock()
	defer js.mu.Unlock()
	waiting := js.waiting
	js.waiting = nil
	if had {
		js.queue = append(waiting, js.queue...)
		return nil
	}
	return waiting
}

// postEnded replies to what was cancelled in the queue.
func (js *jobs) postEnded() {
	js.mu.Lock()
	ended := js.ended
	js.ended = nil
	js.mu.Unlock()
	for _, j := range ended {
		js.post(j, Reply{State: Cancelled})
	}
}
