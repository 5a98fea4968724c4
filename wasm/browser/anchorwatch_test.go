//go:build !js

package browser

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// movedClock is a clock of the page that a test moves on, so that minutes pass at once: the times
// of positions go with it. It stays moved over a reload.
const movedClock = `(() => {
  let shift = Number(sessionStorage.getItem("clock") ?? 0);
  const Was = Date, perf = performance.now.bind(performance);
  globalThis.Date = class extends Was {
    constructor(...given) { given.length ? super(...given) : super(Was.now() + shift); }
    static now() { return Was.now() + shift; }
  };
  performance.now = () => perf() + shift;
  globalThis.clockOn = (ms) => { shift += ms; sessionStorage.setItem("clock", String(shift)); };
  const stamped = (take) => (p) => take({ coords: p.coords, timestamp: p.timestamp + shift });
  for (const name of ["watchPosition", "getCurrentPosition"]) {
    const was = Geolocation.prototype[name];
    Geolocation.prototype[name] = function (take, ...rest) { return was.call(this, stamped(take), ...rest); };
  }
})();`

// bayLat and bayLon are where the tests anchor: in the demo's invented bay.
const bayLon, bayLat = -36.1500, 43.0900

// aboardAt is a page with a moved clock, positions permitted, in the section with the watch.
func aboardAt(t *testing.T, v view) *tab {
	t.Helper()
	p, _ := aboardOn(t, v)
	return p
}

// aboardOn is aboardAt, with the program that serves the page.
func aboardOn(t *testing.T, v view) (*tab, *server) {
	t.Helper()
	s := serve(t)
	b := open(t, s.origin())
	b.permit(s.origin(), true)
	p := b.blank(v)
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: movedClock})
	p.media("prefers-reduced-motion", "reduce")
	p.open(s.url())
	p.aboard()
	p.press(button("Close hints"))
	p.gone(button("Close hints"))
	p.lies(0, 0, 5)
	p.section("stays")
	return p, s
}

// unseen has the receiver find no position.
func (p *tab) unseen() {
	p.t.Helper()
	call(p, emulation.SetGeolocationOverride, emulation.SetGeolocationOverrideParams{})
}

// permit lets pages of an origin have positions, or not.
func (b *chrome) permit(origin string, yes bool) {
	b.t.Helper()
	setting := browser.PermissionSettingDenied
	if yes {
		setting = browser.PermissionSettingGranted
	}
	if _, err := chromedp.CallBrowser(b.ctx, browser.SetPermission, browser.SetPermissionParams{
		Permission: &browser.PermissionDescriptor{Name: "geolocation"}, Setting: setting, Origin: origin}); err != nil {
		b.t.Fatal(err)
	}
}

// lies puts the device so many metres east and north of the bay.
func (p *tab) lies(east, north, accuracy float64) {
	p.t.Helper()
	lat := bayLat + north/111120
	lon := bayLon + east/(111320*math.Cos(bayLat*math.Pi/180))
	call(p, emulation.SetGeolocationOverride, emulation.SetGeolocationOverrideParams{Latitude: &lat, Longitude: &lon, Accuracy: &accuracy})
}

// clockOn moves the page's clock on.
func (p *tab) clockOn(seconds float64) {
	p.t.Helper()
	p.run(fmt.Sprintf("clockOn(%v)", seconds*1000))
}

// drawnWatch is what the chart shows of the watch.
type drawnWatch struct {
	Anchor  *[2]float64  `json:"anchor"`
	RadiusM float64      `json:"radius_m"`
	Boat    *[2]float64  `json:"boat"`
	Track   [][2]float64 `json:"track"`
	Alarm   bool         `json:"alarm"`
}

func (p *tab) watched() (d drawnWatch) {
	p.t.Helper()
	text := read[string](p, `document.querySelector(".keelroom-chart")?.dataset.watch ?? ""`)
	if text != "" {
		if err := json.Unmarshal([]byte(text), &d); err != nil {
			p.t.Fatal(err)
		}
	}
	return d
}

// seen has a position come some seconds after the last, and waits until the watch has it. A
// tenth of a metre makes it another one than before.
func (p *tab) seen(east, north, accuracy, after float64) {
	p.t.Helper()
	p.clockOn(after)
	p.lies(east, north, accuracy)
	lat := bayLat + north/111120
	p.until("the position to be taken in", func() bool {
		b := p.watched().Boat
		return b != nil && math.Abs(b[1]-lat) < 1e-7
	})
}

// drops lets the anchor go and has its place taken.
func (p *tab) drops() {
	p.t.Helper()
	p.fill(css("#field-watch-rode"), "25", kb.Tab)
	p.fill(css("#field-watch-depth"), "3", kb.Tab)
	p.press(button("Anchor is down here"))
	for i := range 5 {
		p.seen(0, float64(i%2)*0.2, 5, 20)
	}
	p.until("the anchor's place", func() bool { return p.watched().Anchor != nil })
}

// graph is what of the sounds is in the audio graph.
type graph struct {
	Alarm bool
	Tone  float64 // seconds ahead
	State string
	Peak  float64 // of the last 0.7 s that were sounded
}

// listenIn puts an analyser beside the loudspeaker.
const listenIn = `(() => {
  const { audio, out } = keelroomWatch.graph();
  globalThis.ear ??= (() => { const a = audio.createAnalyser(); a.fftSize = 32768; out.connect(a); return a; })();
  globalThis.heard ??= () => { const s = new Float32Array(32768); ear.getFloatTimeDomainData(s); return s.reduce((m, v) => Math.max(m, Math.abs(v)), 0); };
})()`

func (p *tab) sounds() (g graph) {
	p.t.Helper()
	p.run(listenIn)
	text := read[string](p, `(() => { const g = keelroomWatch.graph(); return JSON.stringify({ Alarm: g.alarm, Tone: g.toneIn ?? -1, State: g.audio?.state ?? "", Peak: heard() }); })()`)
	if err := json.Unmarshal([]byte(text), &g); err != nil {
		p.t.Fatal(err)
	}
	return g
}

// Drop, swing, a shift of wind, drag: no alarm but for the last, which is seen, heard and
// acknowledged.
func TestAnchorWatchFromDropToDrag(t *testing.T) {
	screened(t, func(t *testing.T, v view) {
		p := aboardAt(t, v)
		p.sees("A browser can be stopped by the device at any time", "Keep an anchor watch of your own", "localhost", "The browser then asks")
		p.accessible()
		p.run(`document.querySelector(".anchorwatch").scrollIntoView()`)
		p.shot(fmt.Sprintf("watch-start-%d", v.wide))
		p.drops()
		for i := range 8 { // she swings, and the wind goes round
			a := float64(i) * math.Pi / 8
			p.seen(25*math.Cos(a), 25*math.Sin(a), 6, 30)
		}
		p.sees("In the circle")
		if g := p.sounds(); g.State != "running" || g.Alarm || g.Tone < 100 || g.Tone > 150 || g.Peak > 0.001 {
			t.Errorf("while she holds: %+v", g)
		}
		p.accessible()
		p.shot(fmt.Sprintf("watch-holds-%d", v.wide))
		for north := 0.0; north > -120 && !p.watched().Alarm; north -= 6 {
			p.seen(0, north, 6, 8)
		}
		p.sees("Anchor dragging", "beyond the circle")
		if b := p.watched(); (bayLat-b.Boat[1])*111120-b.RadiusM > 40 {
			t.Errorf("told %.0f m beyond the circle", (bayLat-b.Boat[1])*111120-b.RadiusM)
		}
		p.until("the alarm to be heard", func() bool { g := p.sounds(); return g.Alarm && g.Peak > 0.5 })
		if r := p.where(css("#watch-acknowledge")); r.H < 64 || r.W < 64 {
			t.Errorf("the button has %v by %v px", r.W, r.H)
		}
		p.accessible()
		p.shot(fmt.Sprintf("watch-drags-%d", v.wide))
		p.night()
		p.readable()
		p.shot(fmt.Sprintf("watch-night-%d", v.wide))
		p.until("the button to have the focus", func() bool { return read[string](p, `document.activeElement.id`) == "watch-acknowledge" })
		p.keys(kb.Enter)
		p.gone(css("#watch-acknowledge"))
		p.until("silence", func() bool { return !p.sounds().Alarm && p.sounds().Peak < 0.001 })
		p.run(`document.querySelector(".anchorwatch").scrollIntoView()`)
		p.shot(fmt.Sprintf("watch-acknowledged-%d", v.wide))
		p.press(button("Anchor is up: end the watch"))
		p.press(button("End the watch now"))
		p.until("the watch to end", func() bool { return p.watched().Anchor == nil })
	})
}

// night puts the page into the palette that keeps dark adaptation.
func (p *tab) night() {
	p.t.Helper()
	p.run(`(() => { const e = document.querySelector("#field-palette"); e.value = "night"; e.dispatchEvent(new Event("change", { bubbles: true })); })()`)
	p.until("the night palette", func() bool { return read[string](p, `document.documentElement.dataset.palette`) == "night" })
}

// A gap, positions that are too poor, a reload, and a permission that ends.
func TestAnchorWatchGoesBlind(t *testing.T) {
	p := aboardAt(t, phone)
	p.drops()
	p.unseen()
	p.clockOn(40)
	p.sees("The watch is blind", "Take the device where it sees the sky")
	if p.has(css("#watch-acknowledge")) {
		t.Error("the alarm comes before two minutes are over")
	}
	p.clockOn(80)
	p.sees("Nobody is watching")
	p.until("the alarm to be heard", func() bool { return p.sounds().Alarm })
	p.shot("watch-blind-390")
	p.seen(1, 1, 5, 1)
	p.gone(css("#watch-acknowledge"))
	p.sees("Not seen for")

	p.clockOn(130)
	p.lies(2, 2, 500)
	p.sees("less accurate than the circle is wide")
	p.seen(3, 3, 5, 1)
	p.gone(css("#watch-acknowledge"))

	anchor := p.watched().Anchor
	p.until("the watch to be kept", func() bool { p.seen(3, 3+math.Mod(p.watched().RadiusM, 1), 5, 6); return true })
	p.clockOn(45)
	p.reload()
	p.aboard()
	p.until("the watch to go on", func() bool { return p.watched().Anchor != nil })
	if now := p.watched().Anchor; *now != *anchor {
		t.Errorf("after a reload the anchor lies at %v, not %v", *now, *anchor)
	}
	p.press(button("Touch to go on watching")) // a touch lets the sound come
	p.until("the sound", func() bool { return p.sounds().State == "running" })
	p.section("stays")
	p.sees("The page was loaded again with the watch running: she was not seen for")
	p.shot("watch-resumed-390")
	p.b.permit(strings.TrimSuffix(read[string](p, `location.origin`), "/"), false)
	p.sees("Nobody is watching", "may no longer know where the device is")
}

// A device that lies still sends nothing by itself: it is asked, and is never blind.
func TestStillDeviceIsAsked(t *testing.T) {
	p := aboardAt(t, desk)
	p.drops()
	for range 10 {
		p.clockOn(16)
		p.until("a position that was asked for", func() bool {
			return holdsAny(p.words(".anchorwatch .facts"), "0 seconds ago", "one second ago", "two seconds ago", "three seconds ago")
		})
	}
	if p.has(css("#watch-acknowledge")) {
		t.Error("there is an alarm")
	}
	p.seesNone("Not seen for")
}

func holdsAny(text string, parts ...string) bool {
	for _, part := range parts {
		if strings.Contains(text, part) {
			return true
		}
	}
	return false
}

// Without a network the watch begins, goes on over a reload, and finds that she drags.
func TestAnchorWatchOffline(t *testing.T) {
	p, s := aboardOn(t, phone)
	p.keptForOffline()
	s.kill()
	p.drops()
	p.seen(2, 2, 5, 6)
	p.reload()
	p.aboard()
	p.until("the watch to go on", func() bool { return p.watched().Anchor != nil })
	for north := 0.0; north > -140 && !p.watched().Alarm; north -= 6 {
		p.seen(0, north, 6, 8)
	}
	p.sees("Anchor dragging", "touch the page to hear the alarm")
}

// A page that is refused the position says so, and watches nothing.
func TestAnchorWatchRefused(t *testing.T) {
	p := aboardAt(t, desk)
	p.b.permit(read[string](p, `location.origin`), false)
	p.fill(css("#field-watch-rode"), "25", kb.Tab)
	p.press(button("Anchor is down here"))
	p.sees("Nobody is watching", "Allow it in the browser's settings")
}

// Without rode there is no circle, and the words say what to do.
func TestAnchorWatchWithoutRode(t *testing.T) {
	p := aboardAt(t, desk)
	p.fill(css("#field-watch-rode"), "", kb.Tab)
	p.press(button("Anchor is down here"))
	p.sees("How much rode is laid is not given; type its metres")
	if read[bool](p, `keelroomWatch.graph().audio !== null`) {
		t.Error("the device was asked")
	}
}

// The dead man's tone sounds though no script runs: the page's thread is held for three
// seconds, and the tone that was set one second ahead is heard within them.
func TestToneSoundsThoughScriptsStop(t *testing.T) {
	p := aboardAt(t, desk)
	p.drops()
	if g := p.sounds(); g.Peak > 0.001 || g.State != "running" {
		t.Fatalf("before: %+v", g)
	}
	peak := read[float64](p, `(() => {
		keelroomWatch.healthy(1);
		const { audio } = keelroomWatch.graph(), real = Date.now();
		while (Date.now() - real < 3000);
		return heard();
	})()`)
	if peak < 0.5 {
		t.Errorf("the loudest of the last moments is %v", peak)
	}
	p.run(`keelroomWatch.healthy(150)`)
	p.until("silence once it is put back", func() bool { return p.sounds().Peak < 0.001 })
	p.measureFrozen()
}

// measureFrozen says what becomes of the tone in a page that the browser freezes, as it may one that is
// long out of sight: that is the browser's to decide, so it is told and not tested.
func (p *tab) measureFrozen() {
	p.t.Helper()
	before := read[float64](p, `(keelroomWatch.healthy(1), keelroomWatch.graph().audio.currentTime)`)
	call(p, page.SetWebLifecycleState, page.SetWebLifecycleStateParams{State: page.SetWebLifecycleStateStateFrozen})
	time.Sleep(3 * time.Second)
	call(p, page.SetWebLifecycleState, page.SetWebLifecycleStateParams{State: page.SetWebLifecycleStateStateActive})
	after := read[[]float64](p, `[keelroomWatch.graph().audio.currentTime, heard()]`)
	p.t.Logf("frozen for 3 s: the audio graph went on by %.1f s, and the loudest of its last moments is %.2f", after[0]-before, after[1])
}

// hide has the page believe that it is hidden, or not: a headless browser hides none.
func (p *tab) hide(yes bool) {
	p.t.Helper()
	state := map[bool]string{true: "hidden", false: "visible"}[yes]
	p.run(`Object.defineProperty(document, "visibilityState", { value: "` + state + `", configurable: true }); document.dispatchEvent(new Event("visibilitychange"))`)
}

// A hidden page is an alarm at once, and ends with it in front again.
func TestAnchorWatchHidden(t *testing.T) {
	p := aboardAt(t, desk)
	p.drops()
	p.hide(true)
	p.until("the alarm", func() bool { return p.sounds().Alarm })
	p.hide(false)
	p.seen(1, 1, 5, 1)
	p.until("silence", func() bool { return !p.sounds().Alarm })
	p.sees("the page was not in front")
}
