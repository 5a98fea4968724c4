package app

// sketch is what is being drawn on the chart.
type sketch struct {
	charts  *charts
	forms   *forms
	history *history
	ports   *ports
	view    *view

	mode   string
	points int
	form   *sketchForm
}
