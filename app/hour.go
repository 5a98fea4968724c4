package app

// hour is the hour that the chart's water is shown at.
type hour struct {
	history *history
	ports   *ports

	day    dayDoc
	at     int64
	chosen bool // the skipper chose it
}
