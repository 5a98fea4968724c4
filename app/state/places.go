package state

// Places is the place that was asked about.
type Places struct {
	aside   *Aside
	charts  *Charts
	history *History
	hour    *Hour
	ports   *Ports

	Place *PlaceInfo
}

// reachable says whether the day may be led on to a place.
func (p *PlaceInfo) reachable() bool { return !p.Asking && !p.Land }
