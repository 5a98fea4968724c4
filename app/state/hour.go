package state

// Hour is the hour that the chart's water is shown at.
type Hour struct {
	history *History
	ports   *Ports

	Day    dayDoc
	At     int64
	chosen bool // the skipper chose it
}
