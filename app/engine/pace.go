package engine

import "time"

// pace gives the event loop its turns while work goes on, and says what is worked on.
type pace struct {
	takeStations func()
	postEnded    func()
	stay         func() error

	host     Host
	now      func() time.Time
	lastTurn time.Time
	lastAt   time.Time
	at       int // the request being worked on
}
