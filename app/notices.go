package app

// notices are the messages on the screen.
type notices struct {
	ports  *ports
	offers func(n *notice) bool

	list   []notice
	lastID int // counts the messages
}
