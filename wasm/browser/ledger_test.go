//go:build !js

package browser

import (
	"fmt"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/audits"
	"github.com/chromedp/cdproto/inspector"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/serviceworker"
)

// ledger keeps what pages and workers did that no page of the app may do.
type ledger struct {
	mu      sync.Mutex
	origins map[string]bool // that may be asked
	faults  []string
	heard   []string // everything written to a console, for a failed test
	allowed []*regexp.Regexp
}

// allow lets faults that a pattern matches pass, for a test that causes them.
func (l *ledger) allow(pattern string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.allowed = append(l.allowed, regexp.MustCompile(pattern))
}

func (l *ledger) allowOrigin(of string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if u, err := url.Parse(of); err == nil {
		l.origins[u.Scheme+"://"+u.Host] = true
	}
}

// wrong are the faults that nothing allows.
func (l *ledger) wrong() (faults []string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, f := range l.faults {
		if !l.lets(f) {
			faults = append(faults, f)
		}
	}
	return faults
}

func (l *ledger) lets(fault string) bool {
	for _, a := range l.allowed {
		if a.MatchString(fault) {
			return true
		}
	}
	return false
}

// close fails the test for every fault that nothing allows.
func (l *ledger) close(t *testing.T) {
	for _, f := range l.wrong() {
		t.Errorf("the browser tells: %s", f)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if t.Failed() && len(l.heard) > 0 {
		t.Logf("consoles:\n%s", strings.Join(l.heard, "\n"))
	}
}

func (l *ledger) fault(who, format string, args ...any) {
	words := who + ": " + fmt.Sprintf(format, args...)
	l.mu.Lock()
	defer l.mu.Unlock()
	l.faults = append(l.faults, words)
	l.heard = append(l.heard, words)
}

func (l *ledger) note(who, format string, args ...any) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.heard = append(l.heard, who+": "+fmt.Sprintf(format, args...))
}

// ear hears the events of one page or worker.
func (l *ledger) ear(who string) func(ev any) {
	return func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventConsoleAPICalled:
			l.console(who, ev)
		case *runtime.EventExceptionThrown:
			l.fault(who, "uncaught: %s", exceptionWords(ev.ExceptionDetails))
		case *log.EventEntryAdded:
			l.entry(who, ev.Entry)
		case *audits.EventIssueAdded:
			l.issue(who, ev.Issue)
		case *serviceworker.EventWorkerErrorReported:
			l.fault("service worker", "%s", ev.ErrorMessage.ErrorMessage)
		case *network.EventRequestWillBeSent:
			l.request(who, ev.Request.URL)
		case *network.EventWebSocketCreated:
			l.fault(who, "a web socket to %s", ev.URL)
		case *network.EventWebTransportCreated:
			l.fault(who, "web transport to %s", ev.URL)
		case *inspector.EventTargetCrashed:
			l.fault(who, "the page crashed")
		}
	}
}

func (l *ledger) console(who string, ev *runtime.EventConsoleAPICalled) {
	var words []string
	for _, a := range ev.Args {
		words = append(words, valueWords(a))
	}
	text := fmt.Sprintf("console.%s: %s", ev.Type, strings.Join(words, " "))
	switch ev.Type {
	case runtime.ConsoleAPICalledTypeError, runtime.ConsoleAPICalledTypeAssert:
		l.fault(who, "%s", text)
	default:
		l.note(who, "%s", text)
	}
}

func valueWords(a *runtime.RemoteObject) string {
	if len(a.Value) > 0 {
		return string(a.Value)
	}
	return a.Description
}

func exceptionWords(d *runtime.ExceptionDetails) string {
	if d.Exception != nil {
		return d.Text + " " + valueWords(d.Exception)
	}
	return d.Text
}

func (l *ledger) entry(who string, e *log.Entry) {
	text := fmt.Sprintf("%s %s: %s %s", e.Source, e.Level, e.Text, e.URL)
	if e.Level == log.EntryLevelError {
		l.fault(who, "%s", text)
		return
	}
	l.note(who, "%s", text)
}

func (l *ledger) issue(who string, i *audits.InspectorIssue) {
	d := i.Details
	if d == nil || d.ContentSecurityPolicyIssueDetails == nil {
		l.note(who, "issue %s", i.Code)
		return
	}
	p := d.ContentSecurityPolicyIssueDetails
	l.fault(who, "content security policy: %s by %s %s", p.ViolatedDirective, p.ContentSecurityPolicyViolationType, p.BlockedURL)
}

func (l *ledger) request(who, to string) {
	u, err := url.Parse(to)
	if err != nil {
		l.fault(who, "asks for what is no address: %s", to)
		return
	}
	switch u.Scheme {
	case "data", "blob", "about":
		return
	}
	l.mu.Lock()
	known := l.origins[u.Scheme+"://"+u.Host]
	l.mu.Unlock()
	if !known {
		l.fault(who, "asks another origin: %s", to)
	}
}

// allowOffline lets pass that files cannot be had, for a test without a server.
func (l *ledger) allowOffline() {
	l.allow(`net::ERR_CONNECTION_REFUSED|net::ERR_CONNECTION_RESET|net::ERR_INTERNET_DISCONNECTED`)
}

// tail keeps the end of what is written to it.
type tail struct {
	mu   sync.Mutex
	text []byte
}

const tailHolds = 8 << 10

func (k *tail) Write(p []byte) (int, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.text = append(k.text, p...)
	if over := len(k.text) - tailHolds; over > 0 {
		k.text = append(k.text[:0], k.text[over:]...)
	}
	return len(p), nil
}

func (k *tail) String() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return string(k.text)
}
