//go:build !js

package browser

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// control is a field of a form as it stands on the screen.
type control struct {
	ID, Kind, Holds string
	Wrong           bool
}

// controls are the fields of the plan in the section that is shown. What belongs to
// no plan, such as a search, is left out.
func (p *tab) controls() (list []control) {
	p.t.Helper()
	return read[[]control](p, `[...document.querySelectorAll("#panel [id^=field-]")]
		.filter((e) => e.matches("input, textarea, select") && !/^field-(draft|station-search|watch)/.test(e.id))
		.map((e) => ({ ID: e.id, Kind: e.type, Holds: e.type === "checkbox" ? String(e.checked) : e.value,
			Wrong: e.getAttribute("aria-invalid") === "true" }))`)
}

// held is what every field of a section holds, where it is not marked as wrong.
func (p *tab) held(section string) map[string]string {
	p.t.Helper()
	p.section(section)
	all := map[string]string{}
	for _, c := range p.controls() {
		if !c.Wrong {
			all[c.ID] = c.Holds
		}
	}
	return all
}

// formSections are the sections with fields of the plan.
var formSections = []string{"route", "stays", "day", "boat", "charts"}

func (p *tab) allHeld() map[string]map[string]string {
	p.t.Helper()
	all := map[string]map[string]string{}
	for _, s := range formSections {
		all[s] = p.held(s)
	}
	return all
}

// fresh is what the fields hold on a page that was just loaded: what the kept plan
// says, for nothing was typed there before.
func (p *tab) fresh() map[string]map[string]string {
	p.t.Helper()
	p.anew()
	return p.allHeld()
}

// anew loads the page again, once the plan is kept.
func (p *tab) anew() {
	p.t.Helper()
	p.kept()
	p.reload()
	p.until("a verdict", func() bool {
		words := p.words(".verdict")
		return words != "" && !strings.Contains(words, "Not checked yet") && !strings.Contains(words, "being checked")
	})
}

// kept waits until the plan is saved.
func (p *tab) kept() {
	p.t.Helper()
	p.section("plans")
	p.sees("Saved on this device")
}

func (p *tab) sameFields(when string, got, want map[string]string) {
	p.t.Helper()
	for _, id := range slices.Sorted(maps.Keys(want)) {
		if text, shown := got[id]; shown && text != want[id] {
			p.t.Errorf("%s: %s holds %q, and the plan has %q", when, id, text, want[id])
		}
	}
}

// fullPlan is the demo's plan with everything given that a form has a field for.
func fullPlan(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(root, "web", "demo", "plan.geojson"))
	if err != nil {
		t.Fatal(err)
	}
	var doc map[string]any
	if err := json.Unmarshal(b, &doc); err != nil {
		t.Fatal(err)
	}
	more := `{"title":"INVENTED full day","buoyage_deg":40,"buoyage_region":"A",
		"stream":[{"time":"2026-07-18T08:00:00-02:00","toward_deg":45,"kn":0.3},{"time":"2026-07-18T20:00:00-02:00","toward_deg":45,"kn":0.3}],
		"chart_choices":{"sounding_datum":23,"tide_above_chart_m":0.1,"accept_expsou_1":true,"vessel_classes":["pleasure"]}}`
	if err := json.Unmarshal([]byte(more), ptrTo(doc["plan"].(map[string]any))); err != nil {
		t.Fatal(err)
	}
	b, err = json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func ptrTo(m map[string]any) *map[string]any { return &m }

// change gives a field something else than it holds: nothing, where that can be
// typed.
func (p *tab) change(c control) {
	p.t.Helper()
	at := css("#" + c.ID)
	switch c.Kind {
	case "checkbox":
		p.press(at)
	case "select-one":
		p.do(chromedp.Focus("#" + c.ID))
		for _, key := range []string{kb.ArrowDown, kb.ArrowUp} { // one of them leads to another answer
			if p.value(at) == c.Holds {
				p.keys(key)
			}
		}
	default:
		p.do(chromedp.Focus("#" + c.ID))
		p.command("selectAll")
		p.command("deleteBackward")
		p.keys(kb.Tab)
	}
}

// changeAll changes every field of a section that is not folded away for good.
func (p *tab) changeAll(section string) {
	p.t.Helper()
	p.section(section)
	if section == "route" {
		p.unfold(".routeform")
	}
	for i, c := range p.controls() {
		if section == "route" && i > 6 {
			break // other waypoints are fields of the same kind
		}
		p.change(c)
	}
}

// steps undoes or does again, by its keys, until there is nothing left of it.
func (p *tab) steps(section, name string) {
	p.t.Helper()
	p.section(section)
	p.focus(css("#tab-" + section)) // in a field the keys are the field's own
	with := []chromedp.Modifier{chromedp.ModifierCtrl}
	if name == "Redo" {
		with = append(with, chromedp.ModifierShift)
	}
	off := fmt.Sprintf(`[...document.querySelectorAll(".bar-top button")].find((b) => b.textContent === %s).disabled`, quoted(name))
	p.until(name+" to come to its end", func() bool {
		if read[bool](p, off) {
			return true
		}
		p.keys("z", with...)
		return false
	})
}

// heldAtRest is what the fields of a section hold once the last edit has been taken or
// refused: the same three times, half a second apart.
func (p *tab) heldAtRest(section string) (held map[string]string) {
	p.t.Helper()
	same := 0
	p.until("the fields to rest", func() bool {
		now := p.held(section)
		if same++; !maps.Equal(now, held) {
			same = 0
		}
		held = now
		time.Sleep(500 * time.Millisecond)
		return same >= 2
	})
	return held
}

// Every field of every form shows what the plan has: after an edit that empties
// it, when that is undone and done again, and when another plan is opened. What the
// plan has is told by the same page loaded anew.
func TestFieldsShowThePlan(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.section("plans")
	p.give(func() { p.press(button("Open a plan file")) }, p.file("full.geojson", fullPlan(t)))
	p.sees("INVENTED full day")
	full := p.fresh()
	for _, s := range formSections {
		if len(full[s]) < 4 {
			t.Fatalf("only %d fields in section %s", len(full[s]), s)
		}
		p.changeAll(s)
		changed := p.heldAtRest(s)
		if s == "boat" {
			p.anew()
			p.sameFields(s+", loaded again", p.held(s), changed)
		}
		p.steps(s, "Undo")
		p.sameFields(s+", undone", p.held(s), full[s])
		p.steps(s, "Redo")
		p.sameFields(s+", done again", p.held(s), changed)
		p.steps(s, "Undo")
	}

	p.section("plans")
	p.press(button("New plan"))
	p.sees("This day has no route yet.")
	beside := p.allHeld()
	empty := p.fresh()
	p.section("plans")
	p.press(button("Open INVENTED full day"))
	p.sees("INVENTED full day")
	again := p.allHeld()
	for _, s := range formSections {
		p.sameFields(s+" of a new plan", beside[s], empty[s])
		p.sameFields(s+" of the plan opened again", again[s], full[s])
	}
}

// What was refused and then emptied stays empty, whatever is done afterwards.
func TestRefusedTextDoesNotComeBack(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.section("boat")
	was := p.value(css("#field-length"))
	for _, leave := range []string{kb.Tab, kb.Enter} {
		p.fill(css("#field-length"), "2,5 ft", leave)
		p.listed("#field-length-wrong", "type metres")
		p.fill(css("#field-length"), "", leave)
		p.until("nothing wrong", func() bool { return p.words("#field-length-wrong") == "" })
		p.holds(css("#field-length"), "")
		p.fill(css("#field-length"), "2,5 ft", leave)
		p.press(button("Undo"))
		p.holds(css("#field-length"), was)
		p.press(button("Redo"))
		p.holds(css("#field-length"), "")
		p.press(button("Undo"))
		p.holds(css("#field-length"), was)
	}
	// A number spelt otherwise is shown as the plan has it.
	p.fill(css("#field-length"), strings.Replace(was, ".", ",", 1)+"0", kb.Tab)
	p.holds(css("#field-length"), was)
}
