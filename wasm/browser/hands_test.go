//go:build !js

package browser

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A page that tells what was done to it.
var handsPage = map[string]string{
	"/": `<!doctype html><html lang="en"><link rel="icon" href="data:,"><title>hands</title>
<link rel="stylesheet" href="/page.css">
<body><h1>Hands</h1>
<div id="pad" tabindex="0" role="application" aria-label="Pad"></div>
<p id="seen"></p>
<button id="late" hidden>Late</button>
<button aria-label="Covered"></button><div id="cover"></div>
<label>Draught <input id="draught" value="0.9"></label>
<label>Kind <select id="kind"><option>Anchor<option>Mooring<option>Berth</select></label>
<button id="pick">Pick a file</button>
<a id="get" href="/plan.txt" download="plan.txt">Get</a>
<button id="store">Store</button>
<script src="/page.js"></script></body></html>`,
	"/page.css": `#pad { width: 300px; height: 200px; border: 1px solid; touch-action: none } button { min-width: 48px; min-height: 48px }
#cover { position: fixed; left: 0; bottom: 0; width: 10px; height: 10px }`,
	"/plan.txt": "a plan",
	"/page.js": `"use strict";
const tell = (words) => { seen.textContent += " | " + words; };
const held = new Map();
let from = null, far = 0, apart = 0, timer = 0;
pad.addEventListener("pointerdown", (e) => {
  held.set(e.pointerId, e);
  from = e; far = 0; apart = 0;
  clearTimeout(timer);
  timer = setTimeout(() => tell("long " + e.pointerType), 600);
});
pad.addEventListener("pointermove", (e) => {
  if (!held.has(e.pointerId)) return;
  held.set(e.pointerId, e);
  far = Math.hypot(e.clientX - from.clientX, e.clientY - from.clientY);
  if (far > 5) clearTimeout(timer);
  if (held.size === 2) { const [a, b] = [...held.values()]; apart = Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY); }
});
pad.addEventListener("pointerup", (e) => {
  clearTimeout(timer);
  if (held.size === 2) tell("pinch " + Math.round(apart));
  else if (apart === 0) tell((far > 5 ? "drag " + Math.round(far) : "press") + " " + e.pointerType);
  held.delete(e.pointerId);
});
pad.addEventListener("dblclick", () => tell("double"));
pad.addEventListener("wheel", (e) => tell("wheel " + e.deltaY));
pad.addEventListener("keydown", (e) => tell("key " + (e.ctrlKey ? "Ctrl+" : "") + e.key));
draught.addEventListener("change", () => { tell("draught " + draught.value); setTimeout(() => { late.hidden = false; }, 100); });
late.addEventListener("click", () => tell("late"));
kind.addEventListener("change", () => tell("kind " + kind.value));
pick.addEventListener("click", () => {
  const input = document.createElement("input");
  input.type = "file";
  input.multiple = true;
  input.addEventListener("change", async () => { for (const f of input.files) tell(f.name + " " + await f.text()); });
  input.click();
});
const worker = new Worker("/worker.js");
worker.onerror = (e) => { e.preventDefault(); tell("worker failed"); };
worker.onmessage = (e) => tell("worker " + e.data);
store.addEventListener("click", () => {
  worker.postMessage("ping");
  const opening = indexedDB.open("x", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("s");
  opening.onsuccess = () => {
    const db = opening.result;
    const change = db.transaction("s", "readwrite");
    change.objectStore("s").put(new Uint8Array(3e6), "big");
    change.oncomplete = () => { tell("stored"); db.close(); };
    change.onabort = () => { tell("refused " + change.error?.name); db.close(); };
  };
});`,
	"/worker.js": `onmessage = (e) => postMessage("pong");`,
}

// The hands of the rig must do what a skipper's do.
func TestHands(t *testing.T) {
	s := pages(t, handsPage)
	b := open(t, s.URL)

	t.Run("mouse and keys", func(t *testing.T) {
		p := b.in(t).tab(s.URL+"/", desk)
		pad := p.where(css("#pad"))
		p.click(pad.middle())
		p.sees("press mouse")
		p.drag(pad.at(0.1, 0.5), pad.at(0.1, 0.5).plus(120, 0))
		p.sees("drag 120 mouse")
		p.doubleClick(pad.middle())
		p.sees("double")
		p.wheel(pad.middle(), -120)
		p.sees("wheel -120")
		p.hold(pad.middle(), "a long press", func() bool { return strings.Contains(p.text(), "long mouse") })
		p.focus(css("#pad"))
		p.keys(kb.ArrowRight)
		p.keys("z", chromedp.ModifierCtrl)
		p.sees("key ArrowRight", "key Ctrl+z")
		p.shot("hands")
	})
	t.Run("fingers", func(t *testing.T) {
		p := b.in(t).tab(s.URL+"/", phone)
		pad := p.where(css("#pad"))
		p.tap(pad.middle())
		p.sees("press touch")
		p.swipe(pad.at(0.1, 0.5), pad.at(0.1, 0.5).plus(100, 0))
		p.sees("drag 100 touch")
		p.pinch(pad.middle(), 40, 160)
		p.sees("pinch 160")
		p.hold(pad.middle(), "a long press", func() bool { return strings.Contains(p.text(), "long touch") })
	})
	t.Run("forms", func(t *testing.T) {
		p := b.in(t).tab(s.URL+"/", phone)
		p.fill(field("Draught"), "1.1", kb.Tab)
		p.sees("draught 1.1")
		p.holds(field("Draught"), "1.1")
		p.press(button("Late"))
		p.sees("| late")
		p.fill(field("Draught"), "", kb.Enter)
		p.pick(choice("Kind"), "Mooring")
		p.sees("kind Mooring")
	})
	t.Run("files", func(t *testing.T) {
		p := b.in(t).tab(s.URL+"/", desk)
		p.give(func() { p.press(button("Pick a file")) }, p.file("a.json", "one"), p.file("b.json", "two"))
		p.sees("a.json one", "b.json two")
		got := p.downloaded(func() { p.press(css("#get")) })
		if got.name != "plan.txt" || string(got.data) != "a plan" {
			t.Errorf("handed over: %s %q", got.name, got.data)
		}
		if !bytes.HasPrefix(p.printed(), []byte("%PDF-")) {
			t.Error("what is printed is no PDF")
		}
	})
	t.Run("no room to store", func(t *testing.T) {
		p := b.in(t).tab(s.URL+"/", desk)
		p.quota(p.used() + 100e3)
		p.press(button("Store"))
		p.sees("refused QuotaExceededError")
		p.quota(0)
		p.press(button("Store"))
		p.sees("stored")
	})
	t.Run("a worker that dies", func(t *testing.T) {
		p := b.in(t).tab(s.URL+"/", desk)
		p.press(button("Store"))
		p.sees("worker pong")
		p.killWorkers("worker.js")
	})
	t.Run("the browser closed and opened", func(t *testing.T) {
		before, err := os.ReadDir(b.profile)
		if err != nil || len(before) == 0 {
			t.Fatalf("no profile: %v", err)
		}
		b.in(t).again()
		p := b.tab(s.URL+"/", desk)
		if n := read[int](p, `indexedDB.databases().then((all) => all.length)`); n != 1 {
			t.Errorf("%d data bases after the browser was opened again; 1 was stored", n)
		}
	})
}

// What the rig says of accessibility must not be nothing on a bad page.
func TestBadPageIsFoundInaccessible(t *testing.T) {
	s := pages(t, map[string]string{
		"/":         `<!doctype html><link rel="icon" href="data:,"><link rel="stylesheet" href="/page.css"><body><img src="data:,"><button></button><p id="pale">Pale</p>`,
		"/page.css": `#pale { color: #ccc; background: #fff }`,
	})
	b := open(t, s.URL)
	p := b.tab(s.URL+"/", desk)
	found := map[string]bool{}
	for _, v := range p.violations() {
		found[v.ID] = true
	}
	// Rule names are those of axe-core's list of rules.
	for _, want := range []string{"image-alt", "button-name", "color-contrast", "html-has-lang"} {
		if !found[want] {
			t.Errorf("axe-core does not tell of %s; it tells %v", want, found)
		}
	}
}
