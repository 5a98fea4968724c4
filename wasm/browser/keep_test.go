//go:build !js

package browser

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// draught edits the boat's draught, and waits until the plan has it.
func (p *tab) draught(metres string) {
	p.t.Helper()
	p.section("boat")
	p.fill(css("#field-draught"), metres, kb.Tab)
	p.holds(css("#field-draught"), metres)
}

// bank is a chart layer of invented waters beside the demo's: a depth area,
// with the name of the object.
const bank = `{"type":"FeatureCollection","layer":{"title":"INVENTED bank","authority":"private"},"features":[
{"type":"Feature","properties":{"objectClass":"DEPARE","OBJNAM":"INVENTED bank","DRVAL1":0.3},"geometry":{"type":"Polygon",
"coordinates":[[[-36.06,42.965],[-36.05,42.965],[-36.05,42.972],[-36.06,42.972],[-36.06,42.965]]]}}]}`

// Everything that was done is there after the page was loaded again, as soon as
// the page says that it is saved.
func TestReloadKeepsEverything(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.pick(choice("Colours"), "Night")
		p.until("the night colours", func() bool { return p.has(css(`html[data-palette="night"]`)) })
		p.opened(p.file("bank.geojson", bank))
		p.listed("li.set", "INVENTED bank", "private data")
		p.draught("1.1")
		p.draught("1.3")
		p.press(button("Undo"))
		p.holds(css("#field-draught"), "1.1")
		p.section("day")
		p.fill(css("#field-contact"), "INVENTED lighthouse", kb.Tab)
		p.saved("two earlier states")

		for range 2 {
			p.reload()
			p.sees(demoTitle)
			p.until("the night colours", func() bool { return p.has(css(`html[data-palette="night"]`)) })
			p.section("day")
			p.holds(css("#field-contact"), "INVENTED lighthouse")
			p.section("charts")
			p.listed("li.set", "INVENTED bank", "private data")
			p.section("boat")
			p.holds(css("#field-draught"), "1.1")
			p.saved("two earlier states")
		}
		p.section("boat")
		p.press(button("Undo")) // the contact
		p.press(button("Undo"))
		p.holds(css("#field-draught"), "0.9") // as in the demo's plan file
		if p.enabled(button("Undo")) {
			t.Error("there is something to undo before the first edit")
		}
		p.press(button("Redo"))
		p.holds(css("#field-draught"), "1.1")
	})
}

// Without a server everything goes on, and stays.
func TestEditsWithTheServerGone(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, s.origin())
	p := b.first(s.url(), phone)
	p.keptForOffline()
	p.section("about")
	p.sees("Ready for use without a network.")
	s.kill()
	b.book.allowOffline()
	p.reload()
	p.aboard()
	p.draught("1.2")
	p.verdict(isCare)
	p.saved("one earlier state")
	p.reload()
	p.aboard()
	p.section("boat")
	p.holds(css("#field-draught"), "1.2")
	p.saved("one earlier state")

	b.again() // the browser was closed
	p = b.tab(s.url(), phone)
	p.aboard()
	p.section("boat")
	p.holds(css("#field-draught"), "1.2")
}

// A plan that leaves one device arrives at another as it was.
func TestPlanTravels(t *testing.T) {
	t.Parallel()
	s := serve(t)
	here := open(t, s.origin()).first(s.url(), desk)
	here.draught("1.05")
	here.section("day")
	here.fill(css("#field-notes"), "INVENTED: \"quoted\", åß 帆 \\ <b>", kb.Tab)
	here.saved("two earlier states")
	sent := here.exported()
	if !strings.Contains(string(sent), "1.05") || !strings.Contains(string(sent), "帆") {
		t.Errorf("the plan file lacks what was typed: %.600s", sent)
	}

	there := open(t, s.origin()).first(s.url(), phone)
	there.section("plans")
	there.give(func() { there.press(button("Open a plan file")) }, there.file("sent.geojson", string(sent)))
	there.saved("no earlier states")
	there.section("boat")
	there.holds(css("#field-draught"), "1.05")
	there.verdict(isCare)
	sameJSON(t, "the plan exported again", there.exported(), sent)
	sameJSON(t, "its report", there.reported(), checked(t, there.file("sent.geojson", string(sent)), filepath.Join(root, "web", "demo", "chart")))
}
