//go:build budgets && !js

package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"

	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// Figures of the app in a real browser, beside their budgets. Nothing is asserted:
// machines are shared and noisy, and only ratios within one run say something.
// `make bench` runs them.

// wiretap keeps the time of every request to the worker until its last reply, of every
// place that a point is dragged to until the worker's answer, and from when the pointer
// was there until the frame with that answer is on the screen.
const wiretap = `(() => {
  const log = (window.__wire = { trips: {}, sent: new Map(), moves: [], painted: [], asked: new Map() });
  const post = MessagePort.prototype.postMessage;
  MessagePort.prototype.postMessage = function (message, ...rest) {
    if (Array.isArray(message) && message.length === 9) log.asked.set(message[0], performance.now());
    return post.call(this, message, ...rest);
  };
  const hears = Object.getOwnPropertyDescriptor(MessagePort.prototype, "onmessage");
  Object.defineProperty(MessagePort.prototype, "onmessage", {
    ...hears,
    set(take) {
      hears.set.call(this, (event) => {
        const seq = typeof event.data === "string" && Number(/^{"seq":(\d+),"state":"done"/.exec(event.data)?.[1]);
        if (seq && log.asked.has(seq)) log.moves.push(performance.now() - log.asked.get(seq));
        return take.call(this, event);
      });
    },
  });
  let last = 0;
  const after = new MessageChannel(); // its messages come once the frame is painted
  const frames = [];
  after.port1.onmessage = () => log.painted.push(performance.now() - frames.shift());
  new MutationObserver(() => {
    const text = document.querySelector(".keelroom-chart")?.dataset.painted;
    if (!text) return;
    const { at, legs } = JSON.parse(text);
    if (!at || at === last || legs.includes("unchecked")) return;
    last = at;
    frames.push(at);
    post.call(after.port2, 0);
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-painted"] });
  const Plain = window.Worker;
  window.Worker = class extends Plain {
    constructor(...args) {
      super(...args);
      this.addEventListener("message", (event) => {
        try {
          const head = JSON.parse(event.data.head);
          const sent = log.sent.get(head.id);
          if (head.state !== "progress" && sent !== undefined) {
            log.sent.delete(head.id);
            if (head.state === "done") (log.trips[head.kind] ??= []).push(performance.now() - sent);
          }
        } catch {}
      });
    }
    postMessage(message, ...rest) {
      try {
        log.sent.set(JSON.parse(message.head).id, performance.now());
      } catch {}
      return super.postMessage(message, ...rest);
    }
  };
})()`

func tapped(b *chrome, at string, v view) *tab {
	p := b.blank(v)
	p.media("prefers-reduced-motion", "reduce")
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: wiretap})
	p.open(at)
	p.aboard()
	p.press(button("Close hints"))
	return p
}

func (p *tab) trips(kind string) []float64 {
	return read[[]float64](p, "window.__wire.trips["+quoted(kind)+"] ?? []")
}

// forty is the real-chart test plan with its legs cut to forty.
func forty(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(root, "testdata", "plans", "roads-day.geojson"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	legs := 0
	for _, r := range p.Routes() {
		legs += r.Legs()
	}
	for _, r := range p.Routes() {
		for legs < 40 {
			long := 0
			for i := range r.Legs() {
				if d := r.Points[i+1][0] - r.Points[i][0]; d*d > (r.Points[long+1][0]-r.Points[long][0])*(r.Points[long+1][0]-r.Points[long][0]) {
					long = i
				}
			}
			a, c := r.Points[long], r.Points[long+1]
			a[0], a[1] = (a[0]+c[0])/2, (a[1]+c[1])/2
			r.Points = slices.Insert(r.Points, long+1, a)
			if r.SpeedsKn != nil {
				r.SpeedsKn = slices.Insert(r.SpeedsKn, long, r.SpeedsKn[long])
			}
			legs++
		}
	}
	out, err := plan.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// TestCellBudget is the cell's part alone.
func TestCellBudget(t *testing.T) {
	cells(t, func(name, measured, budget string) { fmt.Printf("%-58s %-26s %s\n", name, measured, budget) })
}

func TestBudgets(t *testing.T) {
	fmt.Printf("%-58s %-26s %s\n", "in headless Chromium, software rendering", "measured", "budget")
	load, _ := os.ReadFile("/proc/loadavg")
	fmt.Printf("load average %s", load)
	row := func(name, measured, budget string) { fmt.Printf("%-58s %-26s %s\n", name, measured, budget) }
	starts(t, row)
	b, p := fortyLegs(t, row)
	dragging(p, row)
	frames(p, row)
	row("memory of the page with that cell (Pss)", fmt.Sprintf("%d MB", rendererMB(t, b)), "250 MB")
	b.quit()
	cells(t, row)
}

// TestDragBudget is the drag's part alone.
func TestDragBudget(t *testing.T) {
	row := func(name, measured, budget string) { fmt.Printf("%-58s %-26s %s\n", name, measured, budget) }
	load, _ := os.ReadFile("/proc/loadavg")
	fmt.Printf("load average %s", load)
	_, p := fortyLegs(t, row)
	dragging(p, row)
}

// fortyLegs is a page with a real cell and a day of forty legs on it.
func fortyLegs(t *testing.T, row func(name, measured, budget string)) (*chrome, *tab) {
	t.Helper()
	s := serve(t)
	b := open(t, s.origin())
	p := tapped(b, s.url(), desk)
	cell := geojson(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	p.opened(cell...)
	p.until("the cell to be drawn", func() bool { return len(p.trips("put-set")) > 1 && !strings.Contains(p.text(), "Being read") })
	row("load of the US5MA12M set, request to reply (worker)", ms(p.trips("put-set")[1]), "1000 ms, drawing included")
	p.opened(p.file("forty.geojson", forty(t)))
	p.sees("forty.geojson is opened as a plan of its own")
	p.until("the departures", func() bool { return len(p.trips("ribbon")) > 0 })
	return b, p
}

// cells times a real cell with three updates (shared/charts/US5MA11M): in the
// browser's worker, which also draws it, natively, and in ogrinfo of GDAL, which
// must count the same objects.
func cells(t *testing.T, row func(name, measured, budget string)) {
	folder := beside.File(t, "charts", "US5MA11M")
	names, err := filepath.Glob(filepath.Join(folder, "US5MA11M.0*"))
	if err != nil || len(names) != 4 {
		t.Fatalf("%d files, %v", len(names), err)
	}
	s := serve(t)
	p := tapped(open(t, s.origin()), s.url(), desk)
	p.opened(names...)
	p.until("the cell to be drawn", func() bool { return len(p.trips("put-set")) > 1 && !strings.Contains(p.text(), "Being read") })
	inWorker := p.trips("put-set")[1]

	var files []layer.File
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, layer.File{Name: filepath.Base(n), Data: b})
	}
	began := time.Now()
	sets, messages := enc.Decode(files)
	native := time.Since(began)
	if len(sets) != 1 {
		t.Fatal(messages)
	}

	began = time.Now()
	peer := exec.Command("ogrinfo", "-al", names[0])
	peer.Env = append(os.Environ(), "OGR_S57_OPTIONS=SPLIT_MULTIPOINT=ON,ADD_SOUNDG_DEPTH=ON,UPDATES=APPLY")
	out, err := peer.Output()
	theirs := time.Since(began)
	if err != nil {
		t.Fatal(err)
	}
	n, class := 0, ""
	for l := range strings.Lines(string(out)) {
		f := strings.Fields(l)
		switch {
		case strings.HasPrefix(l, "Layer name:"):
			class = f[2]
		case strings.HasPrefix(l, "Feature Count:") && !slices.Contains([]string{"DSID", "C_AGGR", "C_ASSO"}, class): // those have no place
			v, _ := strconv.Atoi(f[2])
			n += v
		}
	}
	if want := len(sets[0].Features); n != want {
		t.Errorf("ogrinfo counts %d objects with a place, we %d", n, want)
	}
	row("US5MA11M with 3 updates, S-57, in the worker, drawn too", ms(inWorker), "500 ms")
	row("the same natively, not drawn", ms(native.Seconds()*1000), "")
	row("the same in ogrinfo -al (prints all)", ms(theirs.Seconds()*1000), fmt.Sprintf("%d objects, as ours", n))
}

func ms(v float64) string { return fmt.Sprintf("%.1f ms", v) }

func quantile(v []float64, q float64) float64 {
	v = slices.Clone(v)
	slices.Sort(v)
	return v[min(int(q*float64(len(v))), len(v)-1)]
}

func dragging(p *tab, row func(name, measured, budget string)) {
	p.section("watch")
	var file struct {
		Features []struct {
			Properties struct{ Role string }
			Geometry   struct{ Coordinates json.RawMessage }
		}
	}
	if err := json.Unmarshal(p.exported(), &file); err != nil {
		p.t.Fatal(err)
	}
	var line [][]float64
	for _, f := range file.Features {
		if f.Properties.Role == "route" {
			_ = json.Unmarshal(f.Geometry.Coordinates, &line)
			break
		}
	}
	p.press(button("Whole day"))
	at := p.pixel(line[len(line)/2][0], line[len(line)/2][1])
	checks, swept := len(p.trips("check")), len(p.trips("ribbon"))
	p.down(at)
	p.move(at.plus(9, 0))
	p.until("the drag to begin", func() bool { return read[int](p, "window.__wire.painted.length") > 0 })
	read[bool](p, "((window.__wire.moves.length = 0), (window.__wire.painted.length = 0), true)")
	for i := range 98 {
		p.move(at.plus(float64(i%30)/2, float64(i%17)))
	}
	p.until("the last answer", func() bool { return read[bool](p, "window.__wire.moves.length > 20") })
	time.Sleep(300 * time.Millisecond)
	during := len(p.trips("check")) - checks
	painted, trips := read[[]float64](p, "window.__wire.painted"), read[[]float64](p, "window.__wire.moves")
	p.up(at)
	p.until("the check of the drop", func() bool { return len(p.trips("check")) > checks+during })
	row(fmt.Sprintf("pointer move to painted answer, 40 legs, 98 moves (%d)", len(painted)),
		fmt.Sprintf("p50 %.1f, p95 %.1f ms", quantile(painted, 0.5), quantile(painted, 0.95)), "p95 16 ms")
	row(fmt.Sprintf("worker's round trip of a move (%d)", len(trips)),
		fmt.Sprintf("p50 %.1f, p95 %.1f ms", quantile(trips, 0.5), quantile(trips, 0.95)), "p95 6 ms")
	row("texts of a plan or report that passed in that drag", fmt.Sprint(during), "0")
	p.until("the departures of the plan as it was dropped", func() bool { return len(p.trips("ribbon")) > swept })
	row("departure ribbon, 24 h at 10 min, 40 legs, new plan", ms(p.trips("ribbon")[swept]), "250 ms")
	p.press(button("Undo"))
}

func frames(p *tab, row func(name, measured, budget string)) {
	for _, act := range []struct {
		name string
		do   func()
	}{
		{"panning", func() {
			mid := p.chart().Box.middle()
			for i := range 6 {
				to := mid.plus(150-float64(i%2)*300, 60)
				p.down(mid.plus(0, 40))
				for _, s := range mid.between(to, 25) {
					p.move(s)
				}
				p.up(to)
			}
		}},
		{"zooming", func() {
			mid := p.chart().Box.middle()
			for i := range 24 {
				p.wheel(mid, 120-float64(i/6%2)*240)
				time.Sleep(60 * time.Millisecond)
			}
		}},
	} {
		read[bool](p, `(() => { const f = (window.__frames = []); window.__stop = false; let last = performance.now();
			const tick = (now) => { f.push(now - last); last = now; if (!window.__stop) requestAnimationFrame(tick); }; requestAnimationFrame(tick); return true; })()`)
		act.do()
		f := read[[]float64](p, "(window.__stop = true, window.__frames)")
		row(act.name+" that cell, frame times", fmt.Sprintf("p95 %.1f, worst %.1f ms", quantile(f, 0.95), quantile(f, 1)), "p95 33, worst 100 ms")
	}
}

// starts measures cold and warm starts and what a first visit downloads, of the
// app and of the least app of the same framework.
func starts(t *testing.T, row func(name, measured, budget string)) {
	for _, a := range []struct{ name, ready, wantCold, wantWarm, wantBytes string }{
		{"Keelroom", demoVerdict, "3 s", "1 s", "3.0 MB"}, {"hello page", "Hello from the least app", "", "", ""},
	} {
		var upstream *url.URL
		if a.name == "Keelroom" {
			upstream, _ = url.Parse(serve(t).url())
		} else {
			upstream = helloServer(t)
		}
		var bytes atomic.Int64
		proxy := httputil.NewSingleHostReverseProxy(upstream)
		proxy.ModifyResponse = func(r *http.Response) error { r.Body = counted{r.Body, &bytes}; return nil }
		front := httptest.NewServer(proxy)
		defer front.Close()
		b := open(t, front.URL)
		b.book.allow(".*") // the hello page has no icon
		p := b.blank(desk)
		cold := time.Now()
		p.open(front.URL + "/")
		p.sees(a.ready)
		row("cold start, "+a.name, time.Since(cold).Round(10*time.Millisecond).String(), a.wantCold)
		p.until("the files to be kept", func() bool { return read[bool](p, "!!navigator.serviceWorker.controller || performance.now() > 6000") })
		time.Sleep(2 * time.Second)
		row("first visit downloads, "+a.name, fmt.Sprintf("%.2f MB", float64(bytes.Load())/1e6), a.wantBytes)
		b.again()
		p = b.blank(desk)
		warm := time.Now()
		p.open(front.URL + "/")
		p.until(a.ready, func() bool { return strings.Contains(read[string](p, `document.body?.innerText ?? ""`), a.ready) })
		row("warm start to the day of the last time, "+a.name, time.Since(warm).Round(10*time.Millisecond).String(), a.wantWarm)
		p.sees(a.ready)
		row("warm start to the day checked anew, "+a.name, time.Since(warm).Round(10*time.Millisecond).String(), a.wantWarm)
		row("memory, "+a.name, fmt.Sprintf("%d MB", rendererMB(t, b)), "")
		b.quit()
	}
}

type counted struct {
	body interface {
		Read([]byte) (int, error)
		Close() error
	}
	n *atomic.Int64
}

func (c counted) Read(b []byte) (int, error) {
	n, err := c.body.Read(b)
	c.n.Add(int64(n))
	return n, err
}
func (c counted) Close() error { return c.body.Close() }

// helloServer builds and serves the least app.
func helloServer(t *testing.T) *url.URL {
	t.Helper()
	dir := t.TempDir()
	build := func(out string, env ...string) {
		cmd := exec.Command("go", "-C", "testdata/bench", "build", "-trimpath", "-ldflags=-s -w", "-o", out, "./hello")
		cmd.Dir, cmd.Env = root, append(os.Environ(), env...)
		if text, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
	}
	build(filepath.Join(dir, "web", "app.wasm"), "GOOS=js", "GOARCH=wasm")
	build(filepath.Join(dir, "hello"))
	l, err := net.Listen("tcp", "localhost:0")
	if err != nil {
		t.Fatal(err)
	}
	addr := l.Addr().String()
	l.Close()
	ctx, stop := context.WithCancel(t.Context())
	cmd := exec.CommandContext(ctx, filepath.Join(dir, "hello"), "-addr", addr, dir)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { stop(); _ = cmd.Wait() })
	at, _ := url.Parse("http://" + addr)
	wait(t, "the hello page", func() bool { r, err := http.Get(at.String()); return err == nil && r.Body.Close() == nil }, func() string { return "" })
	return at
}

// rendererMB is the proportional set size of the browser's largest renderer.
func rendererMB(t *testing.T, b *chrome) int {
	t.Helper()
	most := 0
	pids, _ := filepath.Glob("/proc/[0-9]*")
	for _, dir := range pids {
		line, _ := os.ReadFile(filepath.Join(dir, "cmdline"))
		if !strings.Contains(string(line), "--type=renderer") || !descends(dir, b.profile) {
			continue
		}
		text, _ := os.ReadFile(filepath.Join(dir, "smaps_rollup"))
		for _, l := range strings.Split(string(text), "\n") {
			if f := strings.Fields(l); len(f) > 1 && f[0] == "Pss:" {
				kb, _ := strconv.Atoi(f[1])
				most = max(most, kb/1024)
			}
		}
	}
	return most
}

// descends says whether a process comes from the browser with a profile.
func descends(dir, profile string) bool {
	for range 6 {
		line, _ := os.ReadFile(filepath.Join(dir, "cmdline"))
		if strings.Contains(string(line), profile) {
			return true
		}
		stat, _ := os.ReadFile(filepath.Join(dir, "stat"))
		_, rest, found := strings.Cut(string(stat), ") ")
		f := strings.Fields(rest)
		if !found || len(f) < 2 {
			return false
		}
		dir = "/proc/" + f[1]
	}
	return false
}
