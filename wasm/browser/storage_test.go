//go:build !js

package browser

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// give does what makes the page ask for files, and gives it these.
func (p *tab) give(act func(), files ...string) {
	p.t.Helper()
	call(p, page.SetInterceptFileChooserDialog, page.SetInterceptFileChooserDialogParams{Enabled: true})
	defer call(p, page.SetInterceptFileChooserDialog, page.SetInterceptFileChooserDialogParams{})
	ctx, done := p.limit()
	defer done()
	asked := chromedp.Events(ctx, page.FileChooserOpened)
	act()
	for ev, err := range asked {
		if err != nil {
			p.t.Fatalf("the page does not ask for files: %v", err)
		}
		call(p, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: files, BackendNodeID: ev.BackendNodeID})
		return
	}
}

// file writes a file for give.
func (p *tab) file(name, text string) string {
	p.t.Helper()
	path := filepath.Join(p.t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		p.t.Fatal(err)
	}
	return path
}

// download is a file that a page has handed over.
type download struct {
	name string
	data []byte
}

// downloads keeps those under way, by their id.
type downloads struct {
	mu     sync.Mutex
	folder string
	names  map[string]string
	ready  []string
}

func (b *chrome) catchDownloads() {
	b.t.Helper()
	if b.downloads.folder == "" {
		b.downloads.folder = b.t.TempDir()
		b.downloads.names = map[string]string{}
	}
	on := true
	_, err := chromedp.CallBrowser(b.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllowAndName, DownloadPath: b.downloads.folder, EventsEnabled: &on,
	})
	if err != nil {
		b.t.Fatal(err)
	}
}

func (d *downloads) event(ev any) {
	d.mu.Lock()
	defer d.mu.Unlock()
	switch ev := ev.(type) {
	case *browser.EventDownloadWillBegin:
		d.names[ev.GUID] = ev.SuggestedFilename
	case *browser.EventDownloadProgress:
		if ev.State == browser.DownloadProgressStateCompleted {
			d.ready = append(d.ready, ev.GUID)
		}
	}
}

// take takes the oldest that is ready.
func (d *downloads) take() (id, name string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.ready) == 0 {
		return "", ""
	}
	id, d.ready = d.ready[0], d.ready[1:]
	return id, d.names[id]
}

// downloaded does what makes the page hand over a file, and takes it.
func (p *tab) downloaded(act func()) (got download) {
	p.t.Helper()
	act()
	p.until("a file to be handed over", func() bool {
		id, name := p.b.downloads.take()
		if id == "" {
			return false
		}
		data, err := os.ReadFile(filepath.Join(p.b.downloads.folder, id))
		if err != nil {
			p.t.Fatal(err)
		}
		got = download{name, data}
		return true
	})
	return got
}

// quota limits what the page's origin may store, in bytes, counted with what is
// there already; 0 lifts the limit.
func (p *tab) quota(bytes float64) {
	p.t.Helper()
	limit := storage.OverrideQuotaForOriginParams{Origin: read[string](p, "location.origin")}
	if bytes > 0 {
		limit.QuotaSize = &bytes
	}
	call(p, storage.OverrideQuotaForOrigin, limit)
}

// used is how much the page's origin stores, in bytes.
func (p *tab) used() float64 {
	p.t.Helper()
	return read[float64](p, `navigator.storage.estimate().then((e) => e.usage)`)
}

// workers are those of the page that live and whose address contains a text.
func (p *tab) workers(part string) (ids []target.ID) {
	p.b.mu.Lock()
	defer p.b.mu.Unlock()
	own := chromedp.FromContext(p.ctx).Target.TargetID
	for id, w := range p.b.workers {
		if w.page == own && strings.Contains(w.url, part) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids
}

// eachWorker waits until there is such a worker, and evaluates in each.
func (p *tab) eachWorker(part, expression string) (ids []target.ID) {
	p.t.Helper()
	p.until("a worker of "+part, func() bool { ids = p.workers(part); return len(ids) > 0 })
	for _, id := range ids {
		if err := p.b.inWorker(id, expression); err != nil {
			p.t.Fatalf("in a worker of %s: %v", part, err)
		}
	}
	return ids
}

// inWorker evaluates in a worker, to make it fail.
func (b *chrome) inWorker(id target.ID, expression string) error {
	b.mu.Lock()
	w := b.workers[id]
	b.mu.Unlock()
	_, err := chromedp.Call(w.ctx, runtime.Evaluate, runtime.EvaluateParams{Expression: expression})
	return err
}

// killWorkers ends the page's workers whose address contains a text. They fall
// silent, and the page is told nothing.
func (p *tab) killWorkers(part string) {
	p.t.Helper()
	ids := p.eachWorker(part, "close()")
	p.until("the workers to end", func() bool {
		left := p.workers(part)
		return !slices.ContainsFunc(ids, func(id target.ID) bool { return slices.Contains(left, id) })
	})
}

// breakWorkers makes every further turn of the program in the page's workers
// fail, as a mistake in it would: the page is told by an error event. Time is
// what the Go runtime asks for at every turn.
func (p *tab) breakWorkers(part string) {
	p.t.Helper()
	p.eachWorker(part, `performance.now = () => { throw new Error("broken by the test") }`)
}
