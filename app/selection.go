package app

// selection is the waypoint or stay, and the finding, that is chosen.
type selection struct {
	history *history
	ports   *ports
	view    *view

	point   pointRef
	finding int // the one that was tapped on the chart
}
