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
	looking  []*intake // files that the engine is looking into
	stopping []*intake // archives that can be stopped
}
