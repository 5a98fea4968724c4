//go:build !js

package browser

import (
	"path/filepath"
	"testing"

	"keelroom/testdata/beside"
)

// A real cell of NOAA (shared/charts/README.md) is opened by the file chooser, as
// an official chart cell (S-57) comes: the page's report is the command line's from
// the same cell, what the cell says of itself stands beside it, and it is still
// there when the page is loaded again with the server gone.
func TestCellIsOpenedAndKept(t *testing.T) {
	t.Parallel()
	cell := beside.File(t, "charts", "US5MA12M", "US5MA12M.000")
	screened(t, func(t *testing.T, v view) {
		s := serve(t)
		b := open(t, s.origin())
		p := b.first(s.url(), v)
		p.section("charts")
		p.press(removeDemo)
		p.sees("No chart is open: nothing can be checked.")
		p.opened(cell)
		p.listed("li.set", "US5MA12M")
		p.seesNone("Being read.")
		p.sees("edition 32, issued 2022-10-13", "1:25000", "Office of Coast Survey, USA", "A copy, not the official chart")
		p.shot("cell-" + v.name())
		plan := filepath.Join(root, "testdata", "plans", "roads-day.geojson")
		p.section("plans")
		p.give(func() { p.press(button("Open a plan file")) }, plan)
		p.sees("A test day over real charts, not for navigation")
		p.verdictOf(plan, cell)
		p.shot("cell-plan-" + v.name())
		p.keptForOffline()
		s.kill()
		b.book.allowOffline()
		p.reload()
		p.verdictOf(plan, cell)
		p.section("charts")
		p.listed("li.set", "US5MA12M")
	})
}

// A file that is no cell leaves what is open, and says why in plain words.
func TestDamagedCellIsRefused(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.opened(p.file("US5MA12M.000", "\x8f\x02\xd1 an encrypted cell, say, of which nobody can read a word"))
	p.sees("US5MA12M was refused as a whole", "encrypted")
	p.verdict(isCare)
}
