package state

// One tab of the browser keeps the watch. Another one neither watches nor changes what is stored, and
// takes over when that tab is gone.

// hasTurn takes in that this tab is the one that watches: from now on it stores the watch.
func (a *AnchorWatch) hasTurn() {
	a.turn = true
	a.keep()
}

// elsewhere takes in that another tab watches.
func (a *AnchorWatch) elsewhere() {
	a.Watch, a.turn, a.Elsewhere = nil, false, true
	a.follow()
}

// alone takes in that the tab that watched is gone: what it stored goes on here, if it did not
// end it.
func (a *AnchorWatch) alone() {
	a.Elsewhere = false
	a.ports.store.Load(func(k Kept, err error) {
		switch {
		case a.Running():
			return
		case err != nil:
			a.notices.notify(true, "The tab that kept the anchor watch is gone, and what it stored cannot be read: "+sentence(err)+" Nothing is watched. Start another one.")
		default:
			a.take(k.Settings)
		}
		if !a.Running() {
			a.lookout.End() // another tab may have its turn
			return
		}
		a.notices.notify(true, "The tab that kept the anchor watch is gone: the watch goes on in this one.")
	})
	a.ports.redraw()
}
