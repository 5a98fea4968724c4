package app

// stations is the search for a tide station.
type stations struct {
	history *history
	notices *notices
	ports   *ports
	view    *view

	search stationSearch
}
