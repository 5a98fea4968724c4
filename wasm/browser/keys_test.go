//go:build !js

package browser

import (
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// keys types characters, or keys of package kb, to what has the focus.
func (p *tab) keys(keys string, with ...chromedp.Modifier) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(keys, chromedp.KeyModifiers(with...)))
}

// focus gives a place the focus, as reaching it by Tab would.
func (p *tab) focus(a place) {
	p.t.Helper()
	p.reach(a)
	p.until(a.String()+" to take the focus", func() bool {
		o := p.find(a)
		if o == nil {
			return false
		}
		_, err := try(p, dom.Focus, dom.FocusParams{ObjectID: o.ObjectID})
		return err == nil
	})
}

// fill replaces what a field holds and leaves the field by a key: Tab or Enter.
func (p *tab) fill(a place, text, leave string) {
	p.t.Helper()
	p.until(a.String()+" to have the focus", func() bool {
		if !p.focused(a) { // the page may have moved it from under the pointer
			p.press(a)
		}
		return p.focused(a)
	})
	p.command("selectAll")
	if text == "" {
		p.command("deleteBackward")
	} else {
		call(p, input.InsertText, input.InsertTextParams{Text: text})
	}
	p.keys(leave)
}

func (p *tab) focused(a place) bool {
	p.t.Helper()
	o := p.find(a)
	if o == nil {
		return false
	}
	is, ok := ask[bool](p, o, `function() { return document.activeElement === this; }`)
	return ok && is
}

// command gives an editing command, as the shortcut of a keyboard does.
func (p *tab) command(name string) {
	p.t.Helper()
	call(p, input.DispatchKeyEvent, input.DispatchKeyEventParams{
		Type: input.DispatchKeyEventTypeRawKeyDown, Commands: []string{name},
	})
}

// value is what a field holds.
func (p *tab) value(a place) (held string) {
	p.t.Helper()
	p.until(a.String(), func() bool {
		o := p.find(a)
		if o == nil {
			return false
		}
		var ok bool
		held, ok = ask[string](p, o, `function() { return this.value; }`)
		return ok
	})
	return held
}

// holds waits until a field holds a text.
func (p *tab) holds(a place, want string) {
	p.t.Helper()
	p.until(fmt.Sprintf("%s to hold %q", a, want), func() bool { return p.value(a) == want })
}

// pick chooses an option of a select by typing its label, as a keyboard does.
func (p *tab) pick(a place, label string) {
	p.t.Helper()
	p.focus(a)
	p.keys(label)
	p.until(fmt.Sprintf("%s to show %q", a, label), func() bool {
		o := p.find(a)
		if o == nil {
			return false
		}
		shown, ok := ask[string](p, o, `function() { return this.selectedOptions[0]?.label ?? ""; }`)
		return ok && strings.HasPrefix(squeeze(shown), squeeze(label))
	})
}
