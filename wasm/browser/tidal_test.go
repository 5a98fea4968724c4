//go:build !js

package browser

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// event is a high or low water as the sheet tells it.
type event struct {
	kind   string
	minute int // of the local day
	m      float64
}

var eventLine = regexp.MustCompile(`^(High|Low) water (\d\d):(\d\d), ([-−]?\d+\.\d) m$`)

// tides are the high and low waters that the sheet lists.
func (p *tab) tides() (list []event) {
	p.t.Helper()
	p.section("watch")
	for _, line := range p.lines("#panel .fact") {
		if m := eventLine.FindStringSubmatch(line); m != nil {
			h, _ := strconv.Atoi(m[2])
			min, _ := strconv.Atoi(m[3])
			metres, _ := strconv.ParseFloat(strings.Replace(m[4], "−", "-", 1), 64)
			list = append(list, event{m[1], 60*h + min, metres})
		}
	}
	return list
}

// The high and low waters of Boston on 31 March 2025 in its own zone (UTC-4):
// neaps tide-predictor 0.11.0 (MIT) with the constituents of station
// noaa/8443970, in shared/reference/tide_noaa_8443970.json, whose tolerance is
// 6 minutes and 0.05 m; the sheet rounds to 0.1 m.
var bostonTides = []event{{"High", 56, 3.577}, {"Low", 7*60 + 16, -0.562}, {"High", 13*60 + 29, 3.335}, {"Low", 19*60 + 34, -0.289}}

const (
	toleranceMin = 6
	toleranceM   = 0.05 + 0.05
)

func (p *tab) tidesNear(want []event) {
	p.t.Helper()
	var got []event
	near := func() bool {
		if got = p.tides(); len(got) != len(want) {
			return false
		}
		for i, w := range want {
			g := got[i]
			if g.kind != w.kind || g.minute < w.minute-toleranceMin || g.minute > w.minute+toleranceMin || g.m < w.m-toleranceM || g.m > w.m+toleranceM {
				return false
			}
		}
		return true
	}
	wait(p.t, fmt.Sprintf("the tides %v", want), near, func() string { return fmt.Sprintf("the sheet lists %v", got) })
}

// A station is found by name and near the chart, and its heights are those that
// are published for it.
func TestTideOfAStation(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("day")
		p.fill(css("#field-zone"), "America/New_York", kb.Tab)
		p.fill(css("#field-depart-day"), "2025-03-31", kb.Tab)
		p.holds(css("#field-depart-day"), "2025-03-31")
		p.unfold("#panel details.way:nth-of-type(1)")
		p.press(button("Search")) // the nearest to the chart, in the middle of the Atlantic
		p.until("stations near the chart", func() bool { return len(p.lines(".stations li")) > 0 })
		p.ascending()
		p.fill(css("#field-station-search"), "Boston", kb.Enter)
		p.listed(".stations li", "Boston, United States", "above MLLW")
		p.press(button("Boston, United States").like())
		p.listed("#tide-line", "Boston", "harmonic constituents", "above MLLW")
		p.sees("Heights of tide are those of Boston")
		p.tidesNear(bostonTides)
		// The chart's depths are below another datum: nothing is computed of the two.
		p.listed("li.finding-no-data", "Not known", "datum")
		p.until("a verdict that is not clear", func() bool { return p.has(css(".verdict-no-data, .verdict-not-clear")) })
		p.accessible()
	})
}

var kilometres = regexp.MustCompile(`(\d+) km`)

// ascending fails the test unless the stations are listed nearest first.
func (p *tab) ascending() {
	p.t.Helper()
	last := 0
	for _, line := range p.lines(".stations li") {
		m := kilometres.FindStringSubmatch(line)
		if m == nil {
			p.t.Errorf("a station without its distance: %q", line)
			continue
		}
		km, _ := strconv.Atoi(m[1])
		if km < last {
			p.t.Errorf("%q is listed after one that is %d km away", line, last)
		}
		last = km
	}
}

// paste replaces what an area of text holds, and leaves it.
func (p *tab) paste(a place, text string) {
	p.t.Helper()
	p.fill(a, text, kb.Tab)
}

const table = "2026-07-18 03:12 0.4\n2026-07-18 09:20 2.9\n2026-07-18 15:31 0.5\n2026-07-18 21:40 3.1\n"

// A tide table is used when its zone, its datum and metres are given, and asked
// for them until then.
func TestTideOfATable(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("day")
		before := p.words("#tide-line")
		p.unfold("#panel details.way:nth-of-type(2)")
		p.fill(css("#field-draft-tide-name"), "INVENTED Quay", kb.Tab)
		p.paste(css("#field-draft-tide"), table)
		p.press(button("Use this table"))
		p.sees("Choose the zone that the times of the table are in")
		p.pick(css("#field-draft-tide-zone"), "the plan's zone, with")
		p.listed(".readings li", "Line 1 is read as", "03:12")
		p.press(button("Use this table"))
		p.sees("Choose what the heights are above")
		p.pick(css("#field-draft-tide-datum"), "LAT")
		p.paste(css("#field-draft-tide"), strings.ReplaceAll(table, "\n", " ft\n"))
		p.press(button("Use this table"))
		p.sees("feet")
		if now := p.words("#tide-line"); now != before {
			t.Errorf("a table in feet was used: %s", now)
		}
		p.paste(css("#field-draft-tide"), table)
		p.press(button("Use this table"))
		p.listed("#tide-line", "INVENTED Quay", "a table of four high and low waters", "above LAT")
		// The sheet lists what was typed.
		p.tidesNear([]event{{"Low", 192, 0.4}, {"High", 560, 2.9}, {"Low", 931, 0.5}, {"High", 1300, 3.1}})

		p.section("day")
		p.unfold("#panel details.way:nth-of-type(3)")
		p.fill(css("#field-draft-second-name"), "INVENTED Creek", kb.Tab)
		for id, text := range map[string]string{"hw-min": "20", "hw-m": "-0.3", "lw-min": "35", "lw-m": "0.1"} {
			p.fill(css("#field-draft-"+id), text, kb.Tab)
		}
		p.press(button("Use the secondary port"))
		p.listed("#tide-line", "INVENTED Creek", "a secondary port")
		p.tidesNear([]event{{"Low", 227, 0.5}, {"High", 580, 2.6}, {"Low", 966, 0.6}, {"High", 1320, 2.8}})
	})
}
