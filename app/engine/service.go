package engine

import (
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards"
)

// Host is what a Service runs beside. Its methods are called from the goroutine
// of Run only.
type Host interface {
	// At says which request is being worked on: when work on it begins, and every
	// second or so while it goes on. Whoever hears nothing for long may take it that
	// the work hangs, and knows at what.
	At(id int)
	// Post hands a reply on.
	Post(Reply)
	// Turn gives the event loop one turn, in which it may call Handle, and
	// returns. It is called at least every ten milliseconds of work.
	Turn()
}

// turnEvery is how long work goes on before the event loop gets a turn: half of
// what is promised, as some steps take milliseconds.
const turnEvery = 5 * time.Millisecond

// atEvery is how often the host is told what is being worked on.
const atEvery = time.Second

// Service answers requests, one at a time.
type Service struct {
	host  Host
	fetch func(path string) ([]byte, error)
	wake  chan struct{} // something was queued

	mu      sync.Mutex
	queue   []*job // in order of arrival
	running *job
	ended   []*job // cancelled, but not yet told
	stopped bool

	// Of Run's goroutine alone.
	now      func() time.Time
	lastTurn time.Time
	lastAt   time.Time
	at       int              // the request being worked on
	sets     []*loadedSet     // in order of arrival
	session  *hazards.Session // nil: the sets changed since
	chart    *chart.Chart
	bounds   orb.Bound // of the chart
	bounded  bool      // it has any
	own      ownLayer  // of the plan checked last
	checked  checked
	decoded  decoded
	views    [2]view // one being made, and that of the newest answer to a move
	viewed   int     // the Seq of that
	stations stationList
}

// job is one request and what has been done of it.
type job struct {
	Request
	move      Move // of MovePoint
	cancelled bool // under the Service's lock
	ribbon    *ribbonWork
}

// Why work on a request ends before it is done.
var (
	errCancelled = errors.New("a newer request is there")
	errOvertaken = errors.New("a shorter request goes first")
	errWaits     = errors.New("a file has to be fetched first")
)

// New makes a Service. fetch gets a file that is beside the app; it may block,
// and is called on a goroutine of its own.
func New(host Host, fetch func(path string) ([]byte, error)) *Service {
	return &Service{host: host, fetch: fetch, wake: make(chan struct{}, 1), now: time.Now,
		stations: stationList{arrived: make(chan stationFile, 1)}}
}

// Handle takes a request in. It only queues, and never blocks: it may be called
// from a callback of the event loop.
func (s *Service) Handle(r Request) {
	s.mu.Lock()
	if newestWins(r.Kind) {
		s.cancel(func(j *job) bool { return j.Kind == r.Kind })
	}
	if r.Kind == CheckPlan || keepsOrder(r.Kind) { // what was moved was moved in another plan or chart
		s.cancel(func(j *job) bool { return j.Kind == MovePoint })
	}
	if r.Kind == CancelRequest {
		s.cancel(func(j *job) bool { return !keepsOrder(j.Kind) && fmt.Sprint(j.ID) == r.Text })
	}
	s.queue = append(s.queue, &job{Request: r})
	s.mu.Unlock()
	s.ring()
}

// Stop ends Run once the step at hand is done.
func (s *Service) Stop() {
	s.mu.Lock()
	s.stopped = true
	s.mu.Unlock()
	s.ring()
}

// ring wakes Run.
func (s *Service) ring() {
	select {
	case s.wake <- struct{}{}:
	default:
	}
}

// Run answers requests until Stop.
func (s *Service) Run() {
	s.lastTurn = s.now()
	for {
		s.takeStations()
		j, stop := s.next()
		switch {
		case stop:
			return
		case j != nil:
			s.work(j)
		default:
			s.rest()
		}
	}
}

// rest waits for something to do.
func (s *Service) rest() {
	select {
	case <-s.wake:
	case f := <-s.stations.arrived:
		s.stationsArrived(f)
	}
	s.lastTurn = s.now()
}

// work does a request as far as it comes, and tells how it ended.
func (s *Service) work(j *job) {
	s.tellEnded()
	s.begins(j)
	err := s.guarded(j)
	s.mu.Lock()
	s.running = nil
	s.mu.Unlock()
	var fault *failure
	switch {
	case err == nil:
	case errors.Is(err, errOvertaken):
		s.putBack(j)
	case errors.Is(err, errWaits):
		s.letWait(j)
	case errors.Is(err, errCancelled):
		s.post(j, Reply{State: Cancelled})
	case errors.As(err, &fault):
		s.post(j, Reply{State: Failed, Words: fault.words, Body: fault.body, Texts: fault.texts})
	default:
		s.post(j, Reply{State: Failed, Words: err.Error()})
	}
	s.tellEnded()
}

// begins says that work on a request begins. Moves are many and short: of one it is
// said only once it takes long.
func (s *Service) begins(j *job) {
	if j.Kind == MovePoint {
		s.at, s.lastAt = 0, s.now()
		return
	}
	s.at = j.ID
	s.tellAt()
}

// guarded does a request; a mistake within ends it, not the program.
func (s *Service) guarded(j *job) (err error) {
	defer func() {
		if r := recover(); r != nil {
			s.session = nil // what it remembers may be half done
			err = &failure{words: fmt.Sprintf("A mistake within the program ended this: %v. What you entered is kept; change something, or load the page again.", r)}
		}
	}()
	if do, ok := answers[j.Kind]; ok {
		return do(s, j)
	}
	return &failure{words: fmt.Sprintf("This version of the engine knows no request %q: load the page again.", j.Kind)}
}

// answers are the kinds of request with what answers them.
var answers = map[string]func(*Service, *job) error{
	OpenFile: (*Service).openFile, SortFiles: (*Service).sortFiles, PutSet: (*Service).putSet, DropSet: (*Service).dropSet,
	CheckPlan: (*Service).check, MovePoint: (*Service).movePoint, Ribbon: (*Service).ribbon,
	FindStations: (*Service).findStations, OneStation: (*Service).oneStation, AskPlace: (*Service).place,
	CancelRequest: func(s *Service, j *job) error { return s.done(j, nil, nil) },
}

// pause is called in the midst of work: the event loop gets a turn if it is due,
// and an error says that this request is not to go on.
func (s *Service) pause() error {
	now := s.now()
	if now.Sub(s.lastAt) >= atEvery {
		s.tellAt()
	}
	if now.Sub(s.lastTurn) >= turnEvery {
		s.host.Turn()
		s.lastTurn = s.now()
	}
	s.takeStations()
	s.tellEnded()
	return s.stay()
}

func (s *Service) tellAt() {
	s.lastAt = s.now()
	s.host.At(s.at)
}

// stay tells why the running request is not to go on, if it is not.
func (s *Service) stay() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch j := s.running; {
	case j == nil:
	case j.cancelled, s.stopped:
		return errCancelled
	case j.Kind == Ribbon && len(s.queue) > 0:
		return errOvertaken
	}
	return nil
}
