package app

// files opens files, and takes archives in.
type files struct {
	aside   *aside
	cells   *cells
	charts  *charts
	keeper  *keeper
	notices *notices
	plans   *plans
	ports   *ports
	startup *startup
	view    *view

	shared   []File
	looking  []*taking // files that the engine is looking into
	stopping []*taking // archives that can be stopped
}
