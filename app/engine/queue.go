package engine

import "slices"

// newestWins tells whether a newer request of the kind ends an older one.
func newestWins(kind string) bool {
	return kind == CheckPlan || kind == Ribbon || kind == FindStations || kind == AskPlace
}

// keepsOrder tells whether requests of the kind change the charts: none is ever
// left out.
func keepsOrder(kind string) bool { return kind == PutSet || kind == DropSet }

// rank orders kinds: the lower goes first. What works on the charts, or changes
// them, keeps its order, so that every answer is about the chart that was there
// when the question was asked; but the ribbon, which is long, waits.
func rank(kind string) int {
	switch kind {
	case SortFiles, PutSet, DropSet, CheckPlan, MovePoint, AskPlace, CancelRequest:
		return 0
	case Ribbon:
		return 2
	}
	return 1
}

// next takes the request that is to be worked on, nil for none.
func (s *Service) next() (j *job, stop bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	best := -1
	for i, q := range s.queue {
		if best < 0 || rank(q.Kind) < rank(s.queue[best].Kind) {
			best = i
		}
	}
	if best >= 0 && !s.stopped {
		j = s.queue[best]
		s.queue = slices.Delete(s.queue, best, best+1)
		s.running = j
	}
	return j, s.stopped
}

// putBack queues a request that was overtaken, before all that came after it.
func (s *Service) putBack(j *job) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if j.cancelled {
		s.ended = append(s.ended, j)
		return
	}
	s.queue = slices.Insert(s.queue, 0, j)
}

// cancel ends the requests meant: at once in the queue, at its next pause the
// one that runs. The lock is held.
func (s *Service) cancel(meant func(*job) bool) {
	s.queue = slices.DeleteFunc(s.queue, func(j *job) bool {
		if !meant(j) {
			return false
		}
		j.cancelled = true
		s.ended = append(s.ended, j)
		return true
	})
	if s.running != nil && meant(s.running) {
		s.running.cancelled = true
	}
	s.stations.waiting = slices.DeleteFunc(s.stations.waiting, func(j *job) bool {
		if meant(j) {
			s.ended = append(s.ended, j)
		}
		return meant(j)
	})
}

// letWait keeps a request until the list of stations is there.
func (s *Service) letWait(j *job) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if j.cancelled {
		s.ended = append(s.ended, j)
		return
	}
	s.stations.waiting = append(s.stations.waiting, j)
}

// tellEnded replies to what was cancelled in the queue.
func (s *Service) tellEnded() {
	s.mu.Lock()
	ended := s.ended
	s.ended = nil
	s.mu.Unlock()
	for _, j := range ended {
		s.post(j, Reply{State: Cancelled})
	}
}
