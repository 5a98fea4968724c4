//go:build !js

package browser

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// mostStops is more than any section has stops for the Tab key.
const mostStops = 150

// stop is what has the focus, and why it cannot be seen, if so.
type stop struct{ What, Wrong string }

// focusSeen tells what has the focus and whether it can be seen: WCAG 2.2,
// 2.4.7 (focus visible) and 2.4.11 (focus not obscured).
const focusSeen = `(() => {
	const e = document.activeElement;
	const what = e.outerHTML.slice(0, 110);
	if (e === document.body || e === document.documentElement) return { What: "", Wrong: "" };
	const r = e.getBoundingClientRect(), s = getComputedStyle(e);
	const drawn = (s) => (s.outlineStyle !== "none" && parseFloat(s.outlineWidth) > 0) || s.boxShadow !== "none";
	const inner = [...e.children].some((c) => drawn(getComputedStyle(c)));
	const after = drawn(getComputedStyle(e, "::after"));
	if (!drawn(s) && !inner && !after) return { What: what, Wrong: "no outline" };
	const left = Math.max(0, r.left), right = Math.min(innerWidth, r.right), top = Math.max(0, r.top), bottom = Math.min(innerHeight, r.bottom);
	if (right - left < 1 || bottom - top < 1) return { What: what, Wrong: "off the screen" };
	// One spot of its own is enough: what is partly covered can be seen. Things
	// that nothing is painted on, such as handles, cover nothing.
	const bare = (o) => { const s = getComputedStyle(o); return /, 0\)$|transparent/.test(s.backgroundColor) && s.backgroundImage === "none" && !o.textContent.trim(); };
	for (const f of [0.5, 0.1, 0.9]) for (const g of [0.5, 0.1, 0.9]) {
		const hit = document.elementsFromPoint(left + f * (right - left), top + g * (bottom - top)).find((o) => o === e || !bare(o));
		if (hit && (e.contains(hit) || hit.contains(e))) return { What: what, Wrong: "" };
	}
	return { What: what, Wrong: "covered by other things" };
})()`

// next presses Tab, and fails the test where the focus cannot be seen.
func (p *tab) next() (s stop) {
	p.t.Helper()
	p.keys(kb.Tab)
	s = read[stop](p, focusSeen)
	if s.Wrong != "" {
		p.t.Errorf("%d by %d: the focus cannot be seen, %s: %s", p.view.wide, p.view.high, s.Wrong, s.What)
	}
	return s
}

// tabTo goes to a place by the Tab key alone.
func (p *tab) tabTo(a place) {
	p.t.Helper()
	for range mostStops {
		if p.focused(a) {
			return
		}
		p.next()
	}
	p.t.Fatalf("%s is not reached by the Tab key", a)
}

// turnTo goes to a section by the keys of tabs (WAI-ARIA Authoring Practices,
// tabs: arrows go from one to the next).
func (p *tab) turnTo(id string) {
	p.t.Helper()
	p.tabTo(css(`[role="tab"][aria-selected="true"]`))
	want := css(`#tab-` + id + `[aria-selected="true"]`)
	for range 8 {
		if p.has(want) {
			break
		}
		was := p.words(`[role="tab"][aria-selected="true"]`)
		p.keys(kb.ArrowRight)
		p.until("the next section", func() bool { return p.words(`[role="tab"][aria-selected="true"]`) != was })
	}
	p.until("the focus on section "+id, func() bool { return p.has(want) && p.focused(want) })
}

// A whole day by the keyboard alone.
func TestKeyboardAlone(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)

	p.turnTo("boat")
	p.tabTo(css("#field-draught"))
	p.keys("1.1")
	p.keys(kb.Tab)
	p.holds(css("#field-draught"), "1.1")
	p.verdict(isCare)

	p.tabTo(css(".strip-cursor"))
	p.hour("09:30")
	p.keys(kb.ArrowRight)
	p.hour("09:40")
	p.keys(kb.PageUp)
	p.hour("10:40")
	p.keys(kb.Home)
	p.hour("00:00")

	p.tabTo(css(".strip-hold-shift"))
	for range 3 {
		p.keys(kb.ArrowRight)
	}
	p.keys(kb.Enter)
	p.listed(".facts-few", "Leave 10:00")
	p.verdict("")

	p.tabTo(css(".strip-ribbon"))
	p.until("a ribbon of the whole day", func() bool { return len(p.lines(".strip-ribbon [role=option]")) == 144 })
	p.keys(kb.ArrowRight)
	p.sees("Leaving at 10:00:")
	p.keys(kb.ArrowRight)
	p.sees("Leaving at 10:10:")
	p.keys(kb.Enter)
	p.listed(".facts-few", "Leave 10:10")
	p.saved("three earlier states")
	p.keys("z", chromedp.ModifierCtrl)
	p.listed(".facts-few", "Leave 10:00")
	p.keys("z", chromedp.ModifierCtrl)
	p.listed(".facts-few", "Leave 09:30")
	p.keys("z", chromedp.ModifierCtrl)
	p.turnTo("boat")
	p.holds(css("#field-draught"), "0.9")
}

// hour waits until the hour's handle tells a time, to eyes and to others.
func (p *tab) hour(clock string) {
	p.t.Helper()
	p.listed(".strip-flag", clock)
	p.until("the handle at "+clock, func() bool { return p.has(css(fmt.Sprintf(".strip-cursor[aria-valuetext^=%q]", clock))) })
}

// The line on the chart tells the hour that the water is coloured for, at once.
func TestHourLineFollows(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.listed(".hourline", "Water at 09:30")
		p.focus(css(".strip-cursor"))
		p.keys(kb.ArrowRight)
		p.hour("09:40")
		p.listed(".hourline", "Water at 09:40")
		at := p.where(css(".strip-flag")).middle()
		p.pull(at, at.plus(60, 0))
		p.until("the hour to be moved", func() bool { return !strings.Contains(p.words(".strip-flag"), "09:40") })
		clock := strings.Fields(p.words(".strip-flag"))[0]
		p.listed(".hourline", "Water at "+clock)
	})
}

// A route drawn, changed and taken back by the keyboard alone.
func TestSketchByKeyboard(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.turnTo("plans")
	p.tabTo(button("New plan"))
	p.keys(kb.Enter)
	p.sees("This day has no route yet.")

	p.tabTo(button("Sketch route"))
	p.keys(kb.Enter)
	p.sees("Tap the chart, point by point.")
	p.tabTo(css(".keelroom-chart"))
	p.keys(kb.Enter)
	p.listed(".bar-sketch", "One point")
	p.keys(kb.ArrowRight)
	p.keys(kb.Enter)
	p.listed(".bar-sketch", "Two points")
	p.keys(kb.ArrowDown)
	p.tabTo(button("Add at the cross"))
	p.keys(kb.Enter)
	p.listed(".bar-sketch", "Three points")
	p.tabTo(button("Done"))
	p.keys(kb.Enter)
	p.listed(".routeform summary", "three waypoints")

	p.tabTo(css(".keelroom-chart"))
	p.keys("n")
	p.listed(".bar-chosen", "Waypoint 1")
	p.keys("n")
	p.listed(".bar-chosen", "Waypoint 2")
	before := p.words(".bar-chosen")
	p.keys(kb.ArrowUp, chromedp.ModifierShift)
	p.until("the waypoint to move", func() bool { return p.words(".bar-chosen") != before })
	p.keys("z", chromedp.ModifierCtrl)
	p.until("the waypoint to be back", func() bool { return p.words(".bar-chosen") == before })
	p.keys(kb.Delete)
	p.listed(".routeform summary", "two waypoints")
	p.keys("z", chromedp.ModifierCtrl)
	p.listed(".routeform summary", "three waypoints")
	p.keys("z", chromedp.ModifierCtrl)
	p.sees("This day has no route yet.")
	p.keys("z", chromedp.ModifierCtrl, chromedp.ModifierShift)
	p.listed(".routeform summary", "three waypoints")
}

// Every stop of the Tab key in every section can be seen.
func TestFocusIsSeenEverywhere(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		for _, s := range sections {
			p.section(s)
			p.focus(css("#tab-" + s))
			seen := map[string]bool{}
			for range mostStops {
				at := p.next()
				if at.What == "" || seen[at.What] {
					break
				}
				seen[at.What] = true
			}
			if len(seen) < 2 {
				t.Errorf("section %s: only %d stops of the Tab key", s, len(seen))
			}
		}
	})
}

// sections are the ids of the sheet's.
var sections = []string{"watch", "route", "stays", "day", "boat", "charts", "plans", "about"}

// Nothing serious is in the way of anybody, in any section and size, and all is
// readable in every palette, with a form, messages and a refused chart on the screen.
func TestEverySectionIsAccessible(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("charts")
		p.press(button("Sketch a zone"))
		p.sees("Tap the corners of the zone.")
		p.dab(p.spots(3))
		p.accessible()
		p.press(button("Done"))
		p.sees("The zone you sketched")
		p.opened(p.file("half.geojson", bank[:len(bank)/2]))
		p.sees("was refused as a whole")
		for _, palette := range []struct{ label, id string }{{"Day", "day"}, {"Bright sun", "bright"}, {"Night", "night"}} {
			p.pick(choice("Colours"), palette.label)
			p.until("the colours "+palette.id, func() bool { return p.has(css(fmt.Sprintf("html[data-palette=%q]", palette.id))) })
			for _, s := range sections {
				p.section(s)
				t.Run(palette.id+" "+s, func(t *testing.T) {
					p.in(t)
					if palette.id == "day" {
						p.accessible()
						return
					}
					p.readable()
				})
			}
			p.shot("about-" + palette.id + "-" + v.name())
		}
	})
}
