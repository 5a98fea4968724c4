package state

// Selection is the waypoint or stay, and the finding, that is chosen.
type Selection struct {
	history *History
	ports   *Ports
	view    *View

	point   pointRef
	Finding int // the one that was tapped on the chart
}
