package state

import (
	"slices"
	"time"
)

// Notices are the messages on the screen.
type Notices struct {
	ports  *Ports
	offers func(n *Notice) bool

	list   []Notice
	lastID int // counts the messages
}

// Notice is a line that says what happened, with an undo where there is one.
type Notice struct {
	ID    int
	Grave bool
	Text  string
	Do    string // an action that it offers, "" none
	arg   string
	label string // of the offer
}

// notify shows a line.
func (ns *Notices) notify(grave bool, text string) { ns.add(Notice{Grave: grave, Text: text}) }

// mostNotices is how many lines are shown at once.
const mostNotices = 4

// add shows a line, which may offer an action. One that is there already is not
// shown again.
func (ns *Notices) add(n Notice) {
	if slices.ContainsFunc(ns.list, func(o Notice) bool { return o.Text == n.Text && o.Do == n.Do && o.arg == n.arg }) {
		return
	}
	ns.list = ns.Current()
	ns.lastID++
	n.ID = ns.lastID
	ns.list = append(ns.list, n)
	if len(ns.list) > mostNotices { // trouble stays longest
		i := max(slices.IndexFunc(ns.list, func(o Notice) bool { return !o.Grave }), 0)
		ns.list = slices.Delete(slices.Clone(ns.list), i, i+1)
	}
	if !n.Grave && n.Do == "" {
		ns.ports.Device.After(8*time.Second, func() { ns.dismiss(n.ID) })
	}
	ns.ports.redraw()
}

func (ns *Notices) dismiss(id int) {
	for i, n := range ns.list {
		if n.ID == id {
			ns.list = append(ns.list[:i:i], ns.list[i+1:]...)
			ns.ports.redraw()
			return
		}
	}
}

// Current are the messages that still hold: one whose offer was done in another way
// since speaks of what is no more.
func (ns *Notices) Current() []Notice {
	return slices.DeleteFunc(slices.Clone(ns.list), func(n Notice) bool { return n.Do != "" && !ns.offers(&n) })
}

// Offered words what a message offers.
func (n *Notice) Offered() string {
	if n.label != "" {
		return n.label
	}
	return "Bring it back"
}
