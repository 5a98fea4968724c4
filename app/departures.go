package app

// departures are the verdicts of other departures of the day.
type departures struct {
	aside   *aside
	charts  *charts
	history *history
	notices *notices
	ports   *ports
	departs func() bool

	ribbon ribbon
}
