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
