package state

// Departures are the verdicts of other departures of the day.
type Departures struct {
	aside   *Aside
	charts  *Charts
	history *History
	notices *Notices
	ports   *Ports
	departs func() bool

	Ribbon ribbon
}
