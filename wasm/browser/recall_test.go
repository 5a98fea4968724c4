//go:build !js

package browser

import (
	"strings"
	"testing"
)

const recalledWords = "as it was when last open, being checked anew"

// noteSheet notes the words of the verdict each time that they change.
const noteSheet = `(() => {
	const seen = (window.__sheet = []);
	const look = () => {
		const now = document.querySelector(".verdict")?.innerText.replace(/\s+/g, " ");
		if (now && now !== seen.at(-1)) seen.push(now);
	};
	new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
})()`

// slowWorker holds the check back, so that there is time to look at what stands before it.
const slowWorker = `(() => {
	const Plain = window.Worker;
	const gate = new Promise((done) => (window.__letWorker = done));
	window.Worker = class extends Plain {
		postMessage(message, ...rest) {
			gate.then(() => super.postMessage(message, ...rest));
		}
	};
})()`

// stored waits until the checked day is stored for the next start.
func (p *tab) stored() {
	p.t.Helper()
	p.until("the day to be stored", func() bool {
		return read[bool](p, `(async () => {
			if (!(await indexedDB.databases()).some((d) => d.name === "keelroom-last-day")) return false;
			const db = await new Promise((done, fail) => { const r = indexedDB.open("keelroom-last-day"); r.onsuccess = () => done(r.result); r.onerror = fail; });
			const day = await new Promise((done) => { const r = db.transaction("days").objectStore("days").get("last"); r.onsuccess = () => done(r.result); });
			db.close();
			return Boolean(day);
		})()`)
	})
}

func (p *tab) sheetSeen() []string { return read[[]string](p, "window.__sheet ?? []") }

// A reload shows the day of the last time, marked as that, then the day checked anew.
func TestLastDayIsShownAtOnce(t *testing.T) {
	s := serve(t)
	for _, c := range screens {
		t.Run(c.name, func(t *testing.T) {
			b := open(t, s.origin())
			p := b.tab(s.url(), c.view)
			p.aboard()
			p.press(button("Close hints"))
			p.keptForOffline()
			p.stored()

			p = b.blank(c.view)
			p.before(noteSheet + ";" + slowWorker)
			p.open(s.url())
			p.until("the day of the last time", func() bool { return read[bool](p, `Boolean(document.querySelector(".recalled"))`) })
			shown := squeeze(read[string](p, `document.querySelector(".sheet").innerText`))
			for _, want := range []string{recalledWords, demoVerdict} {
				if !strings.Contains(shown, want) {
					t.Errorf("the sheet lacks %q: %s", want, shown)
				}
			}
			if strings.Contains(p.text(), demoVerdict) {
				t.Error("the tests would take the last day for one that is checked")
			}
			if line := p.words(".hourline"); !strings.Contains(line, "As it was when last open, being checked anew.") {
				t.Errorf("the chart is not marked: %q", line)
			}
			p.shot("recalled-" + c.name)
			const firstAt = `document.querySelector(".panel .finding").getBoundingClientRect().top`
			was := read[float64](p, firstAt)
			p.accessible()
			read[bool](p, "(window.__letWorker(), true)")
			p.sees(demoTitle, demoVerdict)
			for _, words := range p.sheetSeen() {
				if strings.Contains(words, demoVerdict) {
					if !strings.Contains(words, recalledWords) {
						t.Errorf("the last day was first shown as %q", words)
					}
					break
				}
			}
			if now := read[float64](p, firstAt); now != was {
				t.Errorf("the list moved from %v to %v when the day was confirmed", was, now)
			}
			if now := p.words(".verdict"); strings.Contains(now, recalledWords) {
				t.Errorf("after the check the verdict still says %q", now)
			}
			p.shot("checked-anew-" + c.name)
		})
	}
}

// After a change of the plan the day before it is never shown, though the page is left
// before the changed one is checked.
func TestLastDayIsNotThatOfAnotherPlan(t *testing.T) {
	s := serve(t)
	b := open(t, s.origin())
	p := b.tab(s.url(), desk)
	p.aboard()
	p.press(button("Close hints"))
	p.stored()
	p.section("boat")
	p.fill(css("#field-draught"), "3.5", "\t")
	p.until("the plan to be kept", func() bool { return read[bool](p, `keelroomStore.idle().then(() => keelroomUnsaved() === "")`) })

	p = b.blank(desk)
	p.before(noteSheet)
	p.open(s.url())
	p.sees("Not clear")
	for _, words := range p.sheetSeen() {
		if strings.Contains(words, demoVerdict) {
			t.Errorf("the verdict of the plan before was shown: %q", words)
		}
	}
}
