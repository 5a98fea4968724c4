//go:build !js

package browser

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/page"
)

// before has a script run in every document of the page, before its own.
func (p *tab) before(script string) {
	p.t.Helper()
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
}

// A store of the device that never answers is told after a while, with what to do,
// and nothing is shown as if it were kept.
func TestStoreNeverAnswers(t *testing.T) {
	t.Parallel()
	s := serve(t)
	p := open(t, s.origin()).blank(phone)
	p.before(`IDBFactory.prototype.open = () => new EventTarget()`)
	p.open(s.url())
	p.listed(".notice-grave", "The device has not opened what is kept on it.", "Close other tabs and windows")
	p.seesNone("Saved")
	if !p.has(button("Load again")) {
		t.Error("nothing is offered that loads the page again")
	}
	p.accessible()
}

// A newer version that changes how things are kept goes ahead, and the older page
// says that it can save no more, and what helps: not that room would.
func TestNewerVersionChangesWhatIsKept(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, s.origin())
	p := b.first(s.url(), desk)
	p.draught("1.1")
	p.saved("one earlier state")
	p.sees("Saved for now") // a browser without a head promises nothing
	b.book.allow(`favicon\.ico|status of 404`)
	newer := b.tab(s.url()+"nothing", desk) // of the same origin, and no page of the app
	if at := read[int](newer, `new Promise((done, fail) => {
		const request = indexedDB.open("keelroom", 2);
		request.onsuccess = () => { done(request.result.version); request.result.close(); };
		request.onerror = () => fail(request.error);
	})`); at != 2 {
		t.Fatalf("the newer version has come to %d", at)
	}
	p.listed(".notice-grave", "From now on nothing is saved here", "newer Keelroom")
	p.readAll()
	p.draught("1.2")
	p.listed(".notice-grave", "Not saved", "newer Keelroom", "Export this plan to a file, then load this page again")
	p.seesNone("make room")
	p.sees("Not saved")
}

// What another app's share sheet sends without a file in it is answered in words.
func TestSharedWithoutAFile(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := open(t, s.origin())
	p := b.first(s.url(), phone)
	p.keptForOffline()
	for _, c := range []struct{ name, kind, fields string }{
		{"a text", "text/plain", `<input name="text" value="INVENTED words">`},
		{"nothing", "multipart/form-data", ``},
		{"an empty field", "multipart/form-data", `<input type="file" name="files">`},
		{"words in a form", "application/x-www-form-urlencoded", `<input name="files" value="INVENTED words">`},
	} {
		elsewhere := pages(t, map[string]string{"/": fmt.Sprintf(
			`<!doctype html><link rel="icon" href="data:,"><title>x</title><form method="post" enctype="%s" action="%sshare">%s<button>Send</button></form>`, c.kind, s.url(), c.fields)})
		b.book.allowOrigin(elsewhere.URL)
		p.open(elsewhere.URL)
		p.press(button("Send"))
		p.aboard()
		p.listed(".notice-grave", "Nothing was opened.", "Share the plan or the chart as a file")
		t.Logf("%s is answered", c.name)
	}
}
