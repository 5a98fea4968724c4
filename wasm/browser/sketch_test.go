//go:build !js

package browser

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"
)

// position is where a spot of the screen is, by the inverse of northing (Snyder
// 1987, eq. 7-4 on the sphere).
func (c chart) position(at spot) lonLat {
	x, y := (at.x-c.Box.X)/c.Box.W, (at.y-c.Box.Y)/c.Box.H
	n := northing(c.North) - y*(northing(c.North)-northing(c.South))
	return lonLat{c.West + x*(c.East-c.West), math.Atan(math.Sinh(n)) * 180 / math.Pi}
}

// slack is how far apart, in degrees, a spot and what is drawn there may be:
// two pixels and the rounding of a field.
func (c chart) slack() float64 { return 2*(c.East-c.West)/c.Box.W + 0.00001 }

var degreesMinutes = regexp.MustCompile(`^(\d+)°(\d+\.\d+)['′] ?([NS]) +(\d+)°(\d+\.\d+)['′] ?([EW])$`)

// typed reads a position as it stands in a field: degrees and decimal minutes.
func (p *tab) typed(id string) lonLat {
	p.t.Helper()
	text := p.value(css("#" + id))
	m := degreesMinutes.FindStringSubmatch(text)
	if m == nil {
		p.t.Fatalf("%s holds %q, which is no position in degrees and minutes", id, text)
	}
	of := func(degrees, minutes, letter, negative string) float64 {
		d, _ := strconv.ParseFloat(degrees, 64)
		min, _ := strconv.ParseFloat(minutes, 64)
		if letter == negative {
			return -d - min/60
		}
		return d + min/60
	}
	return lonLat{of(m[4], m[5], m[6], "W"), of(m[1], m[2], m[3], "S")}
}

// spots are spots of the chart with nothing over them, far enough from each
// other to be different points under a finger.
func (p *tab) spots(n int) (list []spot) {
	p.t.Helper()
	c := p.chart()
	for _, f := range [][2]float64{{.3, .45}, {.45, .6}, {.62, .5}, {.75, .62}, {.5, .45}, {.35, .62}, {.85, .5}, {.2, .55}, {.6, .7}, {.75, .4}, {.4, .75}, {.15, .4}} {
		if at := c.Box.at(f[0], f[1]); p.free(at) && len(list) < n {
			list = append(list, at)
		}
	}
	if len(list) < n {
		p.t.Fatalf("only %d spots of the chart are free; %d are wanted", len(list), n)
	}
	return list
}

// pause lets the time pass, by the page's own clock, in which a second tap would
// make a double one.
func (p *tab) pause() {
	p.t.Helper()
	read[bool](p, `new Promise((done) => setTimeout(() => done(true), 300))`)
}

// dab presses spots of the chart one after the other, not too quickly, and waits
// for the count.
func (p *tab) dab(at []spot) {
	p.t.Helper()
	for i, s := range at {
		p.poke(s)
		p.listed(".bar-sketch", countWords[i])
		p.pause()
	}
}

var countWords = []string{"One point", "Two points", "Three points", "Four points"}

// dabMore presses one more spot.
func (p *tab) dabMore(at spot, count string) {
	p.t.Helper()
	p.poke(at)
	p.listed(".bar-sketch", count)
	p.pause()
}

// poke presses a spot with what the page's screen has.
func (p *tab) poke(at spot) {
	p.t.Helper()
	if p.view.touch {
		p.tap(at)
		return
	}
	p.click(at)
}

// near compares two positions.
func (p *tab) near(what string, got, want lonLat, slack float64) {
	p.t.Helper()
	if math.Abs(got.lon-want.lon) > slack || math.Abs(got.lat-want.lat) > slack {
		p.t.Errorf("%s is at %v, wanted %v within %v", what, got, want, slack)
	}
}

// newDay begins an empty plan.
func (p *tab) newDay() {
	p.t.Helper()
	p.section("plans")
	p.press(button("New plan"))
	p.sees("This day has no route yet.")
	p.verdict(isNotWhole)
}

// unfold opens what is folded, where it is not open.
func (p *tab) unfold(selector string) {
	p.t.Helper()
	if !read[bool](p, fmt.Sprintf(`document.querySelector(%s)?.open === true`, quoted(selector))) {
		p.press(css(selector + " > summary"))
	}
}

// A day drawn with finger or mouse: out, a stay, the way back; and all of it
// taken back again.
func TestSketchADay(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.newDay()
		p.press(button("Sketch route").nth(0))
		p.sees("Tap the chart, point by point.")
		p.shot("sketching-" + v.name())
		c, at := p.chart(), p.spots(4)
		p.dab(at[:3])
		p.press(button("Last point back"))
		p.listed(".bar-sketch", "Two points")
		p.dabMore(at[2], "Three points")
		p.press(button("Done"))

		p.until("the Route section", func() bool { return p.has(css(`#tab-route[aria-selected="true"]`)) })
		p.listed(".routeform summary", "three waypoints")
		p.unfold(".routeform")
		var want []lonLat
		for i, s := range at[:3] {
			want = append(want, c.position(s))
			p.near(fmt.Sprintf("waypoint %d", i+1), p.typed(fmt.Sprintf("field-at-0-%d", i)), want[i], c.slack())
		}
		p.press(button("Add a stay here"))
		p.until("the Stays section", func() bool { return p.has(css(`#tab-stays[aria-selected="true"]`)) })
		p.holds(css("#field-name-1"), "Stay 1")
		p.near("the stay", p.typed("field-at-1"), want[2], c.slack())
		p.section("route")
		p.press(button("Add the way back along the last route"))
		p.until("the way back", func() bool { return len(p.lines(".routeform")) == 2 })
		slices.Reverse(want)
		p.unfold(".routeform:nth-of-type(2)")
		for i := range want {
			p.near(fmt.Sprintf("waypoint %d of the way back", i+1), p.typed(fmt.Sprintf("field-at-2-%d", i)), want[i], c.slack())
		}
		// Without a tide, wind or draught checked otherwise, nothing is clear.
		p.until("a verdict that is not clear", func() bool { return p.has(css(".verdict-no-data, .verdict-not-clear")) })
		p.saved("three earlier states")
		p.section("route")
		if n := p.undoAll(); n != 3 {
			t.Errorf("%d undos to the empty day; three edits were made", n)
		}
		p.sees("This day has no route yet.")
		p.verdict(isNotWhole)
	})
}

// Two points set quickly are two points, wherever they are, and no sign that the
// sketch is finished.
func TestQuickTapsSketchOn(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.newDay()
		p.press(button("Sketch route").nth(0))
		p.sees("Tap the chart, point by point.")
		for _, at := range p.spots(3) {
			p.poke(at)
		}
		p.listed(".bar-sketch", "Three points")
		p.press(button("Done"))
		p.listed(".routeform summary", "three waypoints")
	})
}
