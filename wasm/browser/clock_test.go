//go:build !js

package browser

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"
)

// A clock time that occurs twice is asked about, and one that does not occur is
// refused. Summer time in Lisbon ends on the last Sunday of October and begins on
// that of March, both at 01:00 UTC (Directive 2000/84/EC, articles 2 and 3): at
// 02:00 and 01:00 by the clock there.
func TestClocksGoBackAndForward(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.anyTimeBack()
	p.fill(css("#field-zone"), "Europe/Lisbon", kb.Tab)
	p.section("route")
	p.fill(css("#field-depart-day"), "2026-10-25", kb.Tab)
	p.holds(css("#field-depart-day"), "2026-10-25")
	was := p.value(css("#field-depart"))
	p.fill(css("#field-depart"), "01:30", kb.Tab)
	p.listed("#field-depart-wrong", "occurs twice on 2026-10-25")
	p.accessible()
	p.press(button("01:30 (UTC+00:00)"))
	p.until("the question to go", func() bool { return p.words("#field-depart-wrong") == "" })
	p.departs("2026-10-25T01:30:00Z", "2026-10-25T01:30:00+00:00")

	p.section("route")
	p.fill(css("#field-depart"), "05:00", kb.Tab)
	p.listed(".facts-few", "Leave 05:00")
	p.fill(css("#field-depart"), "01:30", kb.Tab)
	p.press(button("01:30 (UTC+01:00)"))
	p.until("the question to go", func() bool { return p.words("#field-depart-wrong") == "" })
	p.departs("2026-10-25T01:30:00+01:00")

	p.section("route")
	p.fill(css("#field-depart"), was, kb.Tab)
	p.fill(css("#field-depart-day"), "2026-03-29", kb.Tab)
	p.holds(css("#field-depart-day"), "2026-03-29")
	kept := p.exported()
	p.section("route")
	p.fill(css("#field-depart"), "01:30", kb.Tab)
	p.listed("#field-depart-wrong", "does not occur on 2026-03-29", "the clocks go forward from 01:00 to 02:00")
	sameJSON(t, "the plan after a time that does not occur", p.exported(), kept)
}

// anyTimeBack takes the time to be back out of the plan, in the section of the day.
func (p *tab) anyTimeBack() {
	p.t.Helper()
	p.section("day")
	p.fill(css("#field-back-by"), "", kb.Tab)
	p.holds(css("#field-back-by"), "")
}

// A day that is moved to another date takes its time to be back with it: left
// behind, that time would forbid every later day, and warn on no earlier one.
func TestDayMovesWhole(t *testing.T) {
	t.Parallel()
	for _, date := range []string{"2026-07-25", "2026-07-11"} {
		t.Run(date, func(t *testing.T) {
			t.Parallel()
			p := atSea(t, desk)
			p.section("route")
			p.fill(css("#field-depart-day"), date, kb.Tab)
			p.saved("one earlier state")
			sent := strings.ReplaceAll(string(p.exported()), " ", "")
			for _, want := range []string{`"depart":"` + date + `T09:30:00-02:00"`, `"back_by":"` + date + `T18:00:00-02:00"`} {
				if !strings.Contains(sent, want) {
					t.Errorf("the plan moved to %s lacks %s", date, want)
				}
			}
		})
	}
}

// departs waits until the plan leaves at an instant, written in one of the ways.
func (p *tab) departs(ways ...string) {
	p.t.Helper()
	sent := string(p.exported())
	for _, w := range ways {
		if strings.Contains(strings.ReplaceAll(sent, " ", ""), `"depart":"`+w+`"`) {
			return
		}
	}
	p.t.Errorf("the plan does not leave at %v: %.300s", ways, sent[strings.Index(sent, `"depart"`):])
}

// slots are the departures of the ribbon, once all are there for the plan as it is
// now: they are worked out anew a moment after the plan rests, and while
// they are, they are fewer than those of the whole day.
func (p *tab) slots() (labels []string) {
	p.t.Helper()
	for end := time.Now().Add(time.Second); time.Now().Before(end); time.Sleep(pollEvery) {
		if len(p.lines(".strip-ribbon [role=option]")) < wholeDay {
			break
		}
	}
	p.until("a ribbon of the whole day", func() bool {
		labels = read[[]string](p, `[...document.querySelectorAll(".strip-ribbon [role=option]")].map((e) => e.getAttribute("aria-label"))`)
		return len(labels) == wholeDay
	})
	return labels
}

// slotSpot is where a departure is on the strip, which shows two days where she
// comes back on the next.
func (p *tab) slotSpot(i int) spot {
	p.t.Helper()
	const pad, slotS = 10, 600 // CSS pixels at both ends, where no hour is; seconds of a slot
	r := p.where(css(".strip-ribbon"))
	whole := read[float64](p, `(() => { const e = document.querySelector(".strip-cursor"); return e.ariaValueMax - e.ariaValueMin; })()`)
	return spot{r.X + pad + (float64(i)+0.5)*slotS/whole*(r.W-2*pad), r.Y + r.H/2}
}

// wholeDay is how many departures a day of 24 hours has, one every 10 minutes.
const wholeDay = 24 * 6

// sentences are the verdicts by the ribbon's words.
var sentences = map[string]string{"clear": isClear, "care": isCare, "not clear": isNotClear, "not known": isUnknown}

// What the ribbon says of a departure is what the check says when it is taken.
func TestRibbonKeepsItsWord(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.anyTimeBack()
	p.saved("one earlier state")
	p.verdict(isCare)
	random := rand.New(rand.NewPCG(20, 26))
	first := p.slots()
	for range 20 {
		i := random.IntN(wholeDay)
		labels := p.slots()
		if labels[i] != first[i] {
			t.Errorf("the ribbon said %q, and says %q now that she leaves at another time", first[i], labels[i])
		}
		clock, rest, _ := strings.Cut(labels[i], ", ")
		word, title, _ := strings.Cut(rest, ": ")
		sentence := sentences[word]
		if sentence == "" {
			t.Fatalf("a departure in unknown words: %q", labels[i])
		}
		p.click(p.slotSpot(i))
		p.listed(`[aria-label="This departure"]`, fmt.Sprintf("Leaving at %s: ", clock), title)
		p.press(button("Leave then"))
		p.listed(".facts-few", "Leave "+clock)
		p.verdict(sentence)
	}
}
