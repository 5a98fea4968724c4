//go:build !js

package browser

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/input"

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

// An exchange set in one file: every cell in it is a chart, with the texts that came
// with it; updates that come by themselves join their cell, and what is kept is all
// there after the page was loaded again.
func TestExchangeSetIsOpened(t *testing.T) {
	t.Parallel()
	harbour := beside.File(t, "charts", "US5MA11M")
	set := zipped(t, "set.zip", filepath.Join(harbour, "US5MA11M.000"), filepath.Join(harbour, "US000705.TXT"), beside.File(t, "charts", "US5MA12M", "US5MA12M.000"))
	updates := zipped(t, "updates.zip", filepath.Join(harbour, "US5MA11M.001"), filepath.Join(harbour, "US5MA11M.002"), filepath.Join(harbour, "US5MA11M.003"))
	p := atSea(t, phone)
	p.opened(set)
	p.listed("li.set", "US5MA11M")
	p.listed("li.set", "US5MA12M")
	p.seesNone("Being read.")
	p.press(button("Read US000705.TXT of US5MA11M"))
	p.sees("Close US000705.TXT", "referred to Normal Pool Elevation")
	p.shot("cells-" + p.view.name())
	p.opened(updates)
	p.sees("US5MA11M is now edition 31 with updates to 3; it was edition 31.")
	p.reload()
	p.verdict(isCare)
	p.section("charts")
	p.listed("li.set", "US5MA11M")
	p.sees("US5MA11M, edition 31 with updates to 3", "Remove all two cells")
	p.press(button("Remove all two cells"))
	p.sees("Two charts are removed")
	p.seesNone("US5MA12M, edition 32")
}

// A folder that is dropped on the page, as a file manager gives it: what of it may be a
// chart is opened, and one without such a file is told.
func TestFolderIsDropped(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.drop(beside.File(t, "charts", "US5MA11M"))
	p.sees("US5MA11M, edition 31 with updates to 3", "Read US000514.TXT")
	p.shot("folder-" + p.view.name())
	p.drop(t.TempDir())
	p.sees("Nothing was opened. There is no file in it that may be a chart")
	p.drop(beside.File(t, "charts", "US5MA12M", "US5MA12M.000"))
	p.listed("li.set", "US5MA12M")
}

// drop drops files or folders on the chart.
func (p *tab) drop(paths ...string) {
	p.t.Helper()
	at := p.where(css(".chartwell")).middle()
	for _, kind := range []input.DispatchDragEventType{input.DispatchDragEventTypeDragEnter, input.DispatchDragEventTypeDragOver, input.DispatchDragEventTypeDrop} {
		call(p, input.DispatchDragEvent, input.DispatchDragEventParams{Type: kind, X: at.x, Y: at.y,
			Data: &input.DragData{Items: []*input.DragDataItem{}, Files: paths, DragOperationsMask: 1}})
	}
}

// zipped packs files as an exchange set is packed.
func zipped(t *testing.T, name string, files ...string) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		w, err := z.Create("ENC_ROOT/" + filepath.Base(f))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(text); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	at := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(at, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return at
}

// A file that is no cell leaves what is open, and says why in plain words.
func TestDamagedCellIsRefused(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.opened(p.file("US5MA12M.000", "\x8f\x02\xd1 an encrypted cell, say, of which nobody can read a word"))
	p.sees("US5MA12M was refused as a whole", "encrypted")
	p.verdict(isCare)
}
