//go:build !js

package browser

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"
)

// What a skipper does again and again, for tests that tell a story of many steps.

// The words that begin a verdict.
const (
	isClear    = "Clear on the data given"
	isCare     = "Care is needed"
	isUnknown  = "Not known to be clear"
	isNotClear = "Not clear"
	isNotWhole = "Not checked: the plan is not complete."
)

// atSea serves the app, opens it in a browser of its own, and puts away what a
// first visit shows.
func atSea(t *testing.T, v view) *tab {
	t.Helper()
	s := serve(t)
	return open(t, s.origin()).first(s.url(), v)
}

// first opens the first page of a browser. Without motion, for then the chart
// is where it says it is.
func (b *chrome) first(at string, v view) *tab {
	b.t.Helper()
	p := b.blank(v)
	p.media("prefers-reduced-motion", "reduce")
	p.open(at)
	p.aboard()
	p.press(button("Close hints"))
	p.gone(button("Close hints"))
	return p
}

// screened runs a part of a test on both screens, each with a browser of its own.
func screened(t *testing.T, run func(t *testing.T, v view)) {
	for _, c := range screens {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			run(t, c.view)
		})
	}
}

// section opens a section of the sheet, by the id of its tab.
func (p *tab) section(id string) {
	p.t.Helper()
	chosen := css(`#tab-` + id + `[aria-selected="true"]`)
	if p.has(chosen) {
		return
	}
	p.until("section "+id, func() bool { // while a page loads, what is pressed may move away from under the pointer
		p.press(css("#tab-" + id))
		for end := time.Now().Add(5 * time.Second); !p.has(chosen) && time.Now().Before(end); time.Sleep(pollEvery) {
		}
		return p.has(chosen)
	})
}

// verdict waits for a verdict on the plan as it is now.
func (p *tab) verdict(want string) {
	p.t.Helper()
	p.until("the verdict "+want, func() bool {
		words := p.words(".verdict")
		return strings.Contains(words, want) && !strings.Contains(words, "being checked again")
	})
}

// words are what is shown in the first element of a selector, "" without one.
func (p *tab) words(selector string) string {
	p.t.Helper()
	return squeeze(read[string](p, fmt.Sprintf(`document.querySelector(%s)?.innerText ?? ""`, quoted(selector))))
}

// lines are the words of every element of a selector.
func (p *tab) lines(selector string) (all []string) {
	p.t.Helper()
	for _, s := range read[[]string](p, fmt.Sprintf(`[...document.querySelectorAll(%s)].map((e) => e.innerText)`, quoted(selector))) {
		all = append(all, squeeze(s))
	}
	return all
}

// listed waits until an element of a selector contains all of the texts.
func (p *tab) listed(selector string, texts ...string) {
	p.t.Helper()
	p.until(fmt.Sprintf("%s with %q", selector, texts), func() bool {
		for _, line := range p.lines(selector) {
			if holdsAll(line, texts) {
				return true
			}
		}
		return false
	})
}

func holdsAll(line string, texts []string) bool {
	for _, s := range texts {
		if !strings.Contains(line, s) {
			return false
		}
	}
	return true
}

// saved waits until the page says that the plan is kept, after so many edits.
func (p *tab) saved(edits string) {
	p.t.Helper()
	p.section("plans")
	p.sees("Saved on this device, with " + edits)
}

// exported is the plan file that the page hands over.
func (p *tab) exported() []byte {
	p.t.Helper()
	p.section("plans")
	return p.downloaded(func() { p.press(button("Export the plan")) }).data
}

// undo presses Undo until there is nothing left to undo, and tells how often.
func (p *tab) undoAll() (times int) {
	p.t.Helper()
	for ; p.has(css(`button.press:not([disabled])`)) && p.enabled(button("Undo")); times++ {
		before := p.rest()
		p.press(button("Undo"))
		p.until("the undo to be done", func() bool { return !p.enabled(button("Undo")) || p.rest() != before })
	}
	return times
}

// rest is what the header and the chart's plan show, to tell two states apart.
func (p *tab) rest() string {
	p.t.Helper()
	return p.words(".verdict") + p.words("#panel") + strings.Join(read[[]string](p, `[...document.querySelectorAll("#panel input")].map((e) => e.value)`), "|")
}

// enabled says whether a button can be pressed.
func (p *tab) enabled(a place) bool {
	p.t.Helper()
	o := p.find(a)
	if o == nil {
		return false
	}
	off, ok := ask[bool](p, o, `function() { return this.disabled; }`)
	return ok && !off
}

// opened gives files to the page by its file chooser.
func (p *tab) opened(files ...string) {
	p.t.Helper()
	p.section("charts")
	p.give(func() { p.press(button("Open charts")) }, files...)
}

// chart is where the chart is: its bounds in degrees and its box on the screen.
type chart struct {
	West, South, East, North float64
	Box                      box
}

// chart waits until the chart rests and tells where it is.
func (p *tab) chart() (c chart) {
	p.t.Helper()
	before := ""
	p.until("the chart to rest", func() bool {
		now := read[string](p, `(() => {
			const e = document.querySelector(".keelroom-chart"), r = e?.getBoundingClientRect();
			return e?.dataset.bounds ? JSON.stringify({ bounds: e.dataset.bounds, box: { X: r.x, Y: r.y, W: r.width, H: r.height } }) : "";
		})()`)
		defer func() { before = now }()
		if now == "" || now != before {
			return false
		}
		var seen struct {
			Bounds string
			Box    box
		}
		if json.Unmarshal([]byte(now), &seen) != nil {
			return false
		}
		n, _ := fmt.Sscanf(seen.Bounds, "%f,%f,%f,%f", &c.West, &c.South, &c.East, &c.North)
		c.Box = seen.Box
		return n == 4 && seen.Box.W > 0
	})
	return c
}

// northing is the y of the Mercator projection on the sphere (Snyder, Map
// Projections: A Working Manual, 1987, eq. 7-2), of a unit radius.
func northing(lat float64) float64 { return math.Log(math.Tan(math.Pi/4 + lat*math.Pi/360)) }

// pixel is the spot of a position on the screen.
func (p *tab) pixel(lon, lat float64) spot {
	p.t.Helper()
	c := p.chart()
	x := (lon - c.West) / (c.East - c.West)
	y := (northing(c.North) - northing(lat)) / (northing(c.North) - northing(c.South))
	if x < 0 || x > 1 || y < 0 || y > 1 {
		p.t.Fatalf("%v, %v is not on the chart, which shows %+v", lon, lat, c)
	}
	return c.Box.at(x, y)
}

// free says whether a pointer at a spot meets the chart and nothing over it.
func (p *tab) free(at spot) bool {
	p.t.Helper()
	return read[bool](p, fmt.Sprintf(`document.elementFromPoint(%v, %v)?.closest(".keelroom-chart") != null`, at.x, at.y))
}

// point presses a position on the chart.
func (p *tab) point(lon, lat float64) {
	p.t.Helper()
	at := p.pixel(lon, lat)
	if !p.free(at) {
		p.t.Fatalf("something lies over the chart at %v, %v", lon, lat)
	}
	if p.view.touch {
		p.tap(at)
		return
	}
	p.click(at)
}

// grasp takes hold of something on the chart, with finger or mouse, and leads
// it to another spot without letting go.
func (p *tab) grasp(from, to spot) {
	p.t.Helper()
	way := from.between(to, dragSteps)
	if p.view.touch {
		p.touch(from)
		for _, s := range way {
			p.slide(s)
		}
		return
	}
	p.down(from)
	for _, s := range way {
		p.move(s)
	}
}

func (p *tab) letGo(at spot) {
	p.t.Helper()
	if p.view.touch {
		p.lift()
		return
	}
	p.up(at)
}

// sameJSON fails the test where two documents differ in more than how they are
// written, and tells where.
func sameJSON(t *testing.T, what string, got, want []byte) {
	t.Helper()
	var a, b any
	for _, c := range []struct {
		text []byte
		into *any
	}{{got, &a}, {want, &b}} {
		d := json.NewDecoder(bytes.NewReader(c.text))
		d.UseNumber()
		if err := d.Decode(c.into); err != nil {
			t.Fatalf("%s: %v in %.200s", what, err, c.text)
		}
	}
	for _, d := range differences("$", a, b) {
		t.Errorf("%s: %s", what, d)
	}
}

// differences are at most ten, each with its JSON path.
func differences(path string, got, want any) (list []string) {
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok {
			break
		}
		for _, k := range keysOf(g, w) {
			list = append(list, differences(path+"."+k, g[k], w[k])...)
		}
		return list[:min(len(list), 10)]
	case []any:
		g, ok := got.([]any)
		if !ok || len(g) != len(w) {
			break
		}
		for i := range w {
			list = append(list, differences(fmt.Sprintf("%s[%d]", path, i), g[i], w[i])...)
		}
		return list[:min(len(list), 10)]
	}
	if reflect.DeepEqual(got, want) {
		return nil
	}
	return []string{fmt.Sprintf("%s is %.300v, wanted %.300v", path, got, want)}
}

func keysOf(maps ...map[string]any) (keys []string) {
	seen := map[string]bool{}
	for _, m := range maps {
		for k := range m {
			if !seen[k] {
				seen[k] = true
				keys = append(keys, k)
			}
		}
	}
	return keys
}

// removeDemo is the button that takes the demo's chart out, which its title names.
var removeDemo = button("Remove INVENTED WATERS").like()
