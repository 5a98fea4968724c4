package app

// exports writes files.
type exports struct {
	cells    *cells
	charts   *charts
	checks   *checks
	history  *history
	keeper   *keeper
	notices  *notices
	ports    *ports
	settings *settings
}
