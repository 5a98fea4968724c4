package app

// places is the place that was asked about.
type places struct {
	aside   *aside
	charts  *charts
	history *history
	hour    *hour
	ports   *ports

	place *placeInfo
}

// reachable says whether the day may be led on to a place.
func (p *placeInfo) reachable() bool { return !p.asking && !p.land }
