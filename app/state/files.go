package state

// Files opens files, and takes archives in.
type Files struct {
	aside   *Aside
	cells   *Cells
	charts  *Charts
	keeper  *Keeper
	notices *Notices
	plans   *Plans
	ports   *Ports
	startup *Startup
	view    *View

	shared   []File
	looking  []*taking // files that the engine is looking into
	stopping []*taking // archives that can be stopped
}
