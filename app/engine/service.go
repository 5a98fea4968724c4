package engine

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"keelroom/hazards/anchorages"
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

// atEvery is how often the host hears what is being worked on.
const atEvery = time.Second

// Service answers requests, one at a time.
type Service struct {
	own     ownLayer // of the plan checked last
	checked checked
	decoded decoded
	views   [2]view // one being made, and that of the newest answer to a move
	viewed  int     // the Seq of that

	pace     *pace
	jobs     *jobs
	charts   *collection
	stations *stations
	files    *files
}

// job is one request and what has been done of it.
type job struct {
	Request
	move      Move // of MovePoint
	cancelled bool // under the Service's lock
	ribbon    *ribbonWork
	lying     *lyingWork       // of FindAnchorages
	grid      *anchorages.Grid // of ShelterGrid
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
	s := &Service{}
	s.pace = &pace{host: host, now: time.Now, stay: func() error { return s.jobs.stay() },
		postEnded: func() { s.jobs.postEnded() }, takeStations: func() { s.stations.take() }}
	s.jobs = &jobs{pace: s.pace, wake: make(chan struct{}, 1), answerMove: s.answerMove}
	s.charts = &collection{pace: s.pace, jobs: s.jobs}
	s.stations = &stations{jobs: s.jobs, fetch: fetch, list: stationList{arrived: make(chan stationFile, 1)}}
	s.files = &files{pace: s.pace, jobs: s.jobs}
	return s
}

// Handle takes a request in. It only queues, and never blocks: it may be called
// from a callback of the event loop.
func (s *Service) Handle(r Request) { s.jobs.add(&job{Request: r}) }

// Stop ends Run once the step at hand is done.
func (s *Service) Stop() { s.jobs.stop() }

// Run answers requests until Stop.
func (s *Service) Run() {
	s.pace.lastTurn = s.pace.now()
	for {
		s.stations.take()
		j, stop := s.jobs.next()
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
	case <-s.jobs.wake:
	case f := <-s.stations.list.arrived:
		s.stations.arrived(f)
	}
	s.pace.lastTurn = s.pace.now()
}

// work does a request as far as it comes, and reports how it ended.
func (s *Service) work(j *job) {
	s.jobs.postEnded()
	s.pace.begins(j)
	err := s.guarded(j)
	s.jobs.stepEnded()
	var fault *failure
	switch {
	case err == nil:
	case errors.Is(err, errOvertaken):
		s.jobs.putBack(j)
	case errors.Is(err, errWaits):
		s.jobs.letWait(j)
	case errors.Is(err, errCancelled):
		s.jobs.post(j, Reply{State: Cancelled})
	case errors.As(err, &fault):
		s.jobs.post(j, Reply{State: Failed, Words: fault.words, Body: fault.body, Texts: fault.texts})
	default:
		s.jobs.post(j, Reply{State: Failed, Words: err.Error()})
	}
	s.jobs.postEnded()
}

// begins reports that work on a request begins. Moves are many and short: of one the host
// hears only once it takes long.
func (p *pace) begins(j *job) {
	if j.Kind == MovePoint {
		p.at, p.lastAt = 0, p.now()
		return
	}
	p.at = j.ID
	p.showAt()
}

// guarded does a request; a mistake within ends it, not the program.
func (s *Service) guarded(j *job) (err error) {
	defer func() {
		if r := recover(); r != nil {
			s.charts.session = nil // what it remembers may be half done
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
	OpenFile: func(s *Service, j *job) error { return s.files.openFile(j) }, SortFiles: func(s *Service, j *job) error { return s.files.sortFiles(j) }, PutSet: func(s *Service, j *job) error { return s.charts.putSet(j) }, DropSet: func(s *Service, j *job) error { return s.charts.dropSet(j) },
	CheckPlan: (*Service).check, MovePoint: (*Service).movePoint, Ribbon: (*Service).ribbon, FindAnchorages: (*Service).findAnchorages, ShelterGrid: (*Service).shelterGrid, LieHere: (*Service).lieHere,
	FindStations: func(s *Service, j *job) error { return s.stations.find(j) }, OneStation: func(s *Service, j *job) error { return s.stations.one(j) }, AskPlace: (*Service).place,
	CancelRequest: func(s *Service, j *job) error { return s.jobs.done(j, nil, nil) },
}

// pause is called in the midst of work: the event loop gets a turn if it is due,
// and an error says that this request is not to go on.
func (p *pace) pause() error {
	now := p.now()
	if now.Sub(p.lastAt) >= atEvery {
		p.showAt()
	}
	if now.Sub(p.lastTurn) >= turnEvery {
		p.host.Turn()
		p.lastTurn = p.now()
	}
	p.takeStations()
	p.postEnded()
	return p.stay()
}

func (p *pace) showAt() {
	p.lastAt = p.now()
	p.host.At(p.at)
}

// stay says why the running request is not to go on, if it is not.
func (js *jobs) stay() error {
	js.mu.Lock()
	defer js.mu.Unlock()
	switch j := js.running; {
	case j == nil:
	case j.cancelled, js.stopped:
		return errCancelled
	case rank(j.Kind) == longWork && slices.ContainsFunc(js.queue, func(q *job) bool { return rank(q.Kind) < longWork }):
		return errOvertaken
	}
	return nil
}
