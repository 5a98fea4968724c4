package app

import (
	"slices"
	"time"
)

// notices are the messages on the screen.
type notices struct {
	ports  *ports
	offers func(n *notice) bool

	list   []notice
	lastID int // counts the messages
}

// notice is a line that says what happened, with an undo where there is one.
type notice struct {
	id    int
	grave bool
	text  string
	do    string // an action that it offers, "" none
	arg   string
	label string // of the offer
}

// tell shows a line.
func (ns *notices) notify(grave bool, text string) { ns.add(notice{grave: grave, text: text}) }

// mostNotices is how many lines are shown at once.
const mostNotices = 4

// say shows a line, which may offer an action. One that is there already is not
// shown again.
func (ns *notices) add(n notice) {
	if slices.ContainsFunc(ns.list, func(o notice) bool { return o.text == n.text && o.do == n.do && o.arg == n.arg }) {
		return
	}
	ns.list = ns.current()
	ns.lastID++
	n.id = ns.lastID
	ns.list = append(ns.list, n)
	if len(ns.list) > mostNotices { // trouble stays longest
		i := max(slices.IndexFunc(ns.list, func(o notice) bool { return !o.grave }), 0)
		ns.list = slices.Delete(slices.Clone(ns.list), i, i+1)
	}
	if !n.grave && n.do == "" {
		ns.ports.device.After(8*time.Second, func() { ns.dismiss(n.id) })
	}
	ns.ports.redraw()
}

func (ns *notices) dismiss(id int) {
	for i, n := range ns.list {
		if n.id == id {
			ns.list = append(ns.list[:i:i], ns.list[i+1:]...)
			ns.ports.redraw()
			return
		}
	}
}

// timely are the messages that still hold: one whose offer was done in another way
// since tells of what is no more.
func (ns *notices) current() []notice {
	return slices.DeleteFunc(slices.Clone(ns.list), func(n notice) bool { return n.do != "" && !ns.offers(&n) })
}

// offered words what a message offers.
func (n *notice) offered() string {
	if n.label != "" {
		return n.label
	}
	return "Bring it back"
}
