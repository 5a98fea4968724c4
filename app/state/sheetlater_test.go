package state

import (
	"strings"
	"testing"
)

// paperOf is the sheet for the printer.
func paperOf(g *harness) string {
	_, sheet, _ := strings.Cut(Draw(g.room), `class="paper"`)
	return withoutTags(sheet)
}

// The sheet for the printer is drawn after the screen. Until then it says that nothing
// is checked; what is printed by the app's own button is never that.
func TestSheetForThePrinterIsDrawnLater(t *testing.T) {
	for name, draw := range map[string]func(g *harness, device *clockwork){
		"after a while": func(_ *harness, device *clockwork) { device.pass() },
		"to be printed": func(g *harness, _ *clockwork) { g.room.Do("print", "") },
	} {
		t.Run(name, func(t *testing.T) {
			g := newHarness(t)
			device := &clockwork{harness: g}
			g.room.Ports.Device = device
			g.start()
			if sheet := paperOf(g); strings.Contains(sheet, "Care is needed") || !strings.Contains(sheet, "not checked since the last change") {
				t.Errorf("before the screen is drawn the sheet has %.80q", sheet)
			}
			draw(g, device)
			if sheet := paperOf(g); !strings.Contains(sheet, "Care is needed") || !strings.Contains(sheet, "Cautions") {
				t.Errorf("the sheet has %.80q", sheet)
			}
		})
	}
}
