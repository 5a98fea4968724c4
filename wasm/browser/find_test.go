//go:build !js

package browser

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
)

// place names something on the page: by role and name, as assistive technology
// sees it, or by a CSS selector. The number-th one counts, from 0.
type place struct {
	role, name string
	part       bool // the name need only contain the text
	css        string
	number     int
}

func button(name string) place   { return place{role: "button", name: name} }
func field(name string) place    { return place{role: "textbox", name: name} }
func checkbox(name string) place { return place{role: "checkbox", name: name} }
func choice(name string) place   { return place{role: "combobox", name: name} }
func heading(name string) place  { return place{role: "heading", name: name} }
func css(selector string) place  { return place{css: selector} }

// like is the place with a name that contains the text.
func (a place) like() place { a.part = true; return a }

func (a place) nth(n int) place { a.number = n; return a }

func (a place) String() string {
	s := fmt.Sprintf("%s %q", a.role, a.name)
	if a.css != "" {
		s = a.css
	}
	if a.number > 0 {
		s += fmt.Sprintf(" (number %d)", a.number)
	}
	return s
}

// find looks a place up once; nil is nowhere.
func (p *tab) find(a place) *runtime.RemoteObject {
	p.t.Helper()
	if a.css != "" {
		return p.object(fmt.Sprintf(`document.querySelectorAll(%s)[%d]`, quoted(a.css), a.number))
	}
	document := p.object("document")
	if document == nil {
		return nil
	}
	query := accessibility.QueryAXTreeParams{ObjectID: document.ObjectID, Role: a.role}
	if !a.part {
		query.AccessibleName = a.name
	}
	answer, err := try(p, accessibility.QueryAXTree, query)
	if err != nil {
		return nil // the document has been replaced meanwhile
	}
	skip := a.number
	for _, n := range answer.Nodes {
		if n.Ignored || a.part && !strings.Contains(axText(n.Name), a.name) {
			continue
		}
		if skip--; skip < 0 {
			resolved, err := try(p, dom.ResolveNode, dom.ResolveNodeParams{BackendNodeID: n.BackendDOMNodeID})
			if err != nil {
				return nil
			}
			return resolved.Object
		}
	}
	return nil
}

func axText(v *accessibility.Value) string {
	var s string
	if v != nil {
		_ = json.Unmarshal(v.Value, &s) // a name is a string; anything else is none
	}
	return s
}

func quoted(s string) string {
	b, _ := json.Marshal(s) // a string always marshals
	return string(b)
}

// object is what an expression refers to; nil where it refers to nothing.
func (p *tab) object(expression string) *runtime.RemoteObject {
	p.t.Helper()
	r, err := try(p, runtime.Evaluate, runtime.EvaluateParams{Expression: expression})
	if err != nil || r.Result.ObjectID == "" {
		return nil
	}
	return r.Result
}

// ask calls a function that only reads on something found, as `this`.
func ask[T any](p *tab, on *runtime.RemoteObject, function string) (v T, ok bool) {
	yes := true
	r, err := try(p, runtime.CallFunctionOn, runtime.CallFunctionOnParams{
		FunctionDeclaration: function, ObjectID: on.ObjectID, ReturnByValue: &yes,
	})
	if err != nil || r.ExceptionDetails != nil {
		return v, false
	}
	return v, json.Unmarshal(r.Result.Value, &v) == nil
}

// box is where something is on the screen, in CSS pixels.
type box struct{ X, Y, W, H float64 }

func (b box) middle() spot { return spot{b.X + b.W/2, b.Y + b.H/2} }

// at is the spot at fractions of the width and height.
func (b box) at(x, y float64) spot { return spot{b.X + x*b.W, b.Y + y*b.H} }

// where is the box of a place, once it is there and visible.
func (p *tab) where(a place) (b box) {
	p.t.Helper()
	p.until(a.String()+" to be visible", func() bool {
		o := p.find(a)
		if o == nil {
			return false
		}
		var ok bool
		b, ok = ask[box](p, o, `function() {
			const r = this.getBoundingClientRect();
			return { X: r.x, Y: r.y, W: r.width, H: r.height };
		}`)
		return ok && b.W > 0 && b.H > 0
	})
	return b
}

// has says whether a place is there now.
func (p *tab) has(a place) bool { p.t.Helper(); return p.find(a) != nil }

// gone waits until a place is there no more.
func (p *tab) gone(a place) {
	p.t.Helper()
	p.until(a.String()+" to go", func() bool { return !p.has(a) })
}

// reachable is the middle of a place, scrolled into view and at rest, and
// whether a pointer there would meet it and nothing that covers it.
const reachable = `function() {
	const r = this.getBoundingClientRect();
	const x = r.x + r.width / 2, y = r.y + r.height / 2;
	const hit = document.elementFromPoint(x, y);
	const free = hit !== null && (this.contains(hit) || (hit.closest("label")?.control === this));
	return { X: x, Y: y, W: r.width, H: r.height, Free: free, Off: this.disabled === true,
		Over: hit === null ? "nothing: it is off the screen" : hit.outerHTML.slice(0, 120) };
}`

// reach waits until a pointer can meet a place, and tells where.
func (p *tab) reach(a place) spot {
	p.t.Helper()
	type state struct {
		box
		Free, Off bool
		Over      string
	}
	var before, now state
	why := "it is not there"
	wait(p.t, a.String()+" to be in reach", func() bool {
		o := p.find(a)
		if o == nil {
			why = "it is not there"
			return false
		}
		if _, err := try(p, dom.ScrollIntoViewIfNeeded, dom.ScrollIntoViewIfNeededParams{ObjectID: o.ObjectID}); err != nil {
			why = "it is not visible"
			return false
		}
		var ok bool
		before = now
		if now, ok = ask[state](p, o, reachable); !ok {
			return false
		}
		why = fmt.Sprintf("free %v, disabled %v, at its place is %s", now.Free, now.Off, now.Over)
		if !now.Free && now == before {
			// At the edge of what scrolls it may lie under what stays there.
			_, _ = ask[bool](p, o, `function() { this.scrollIntoView({ block: "center", inline: "center" }); return true; }`)
		}
		return now.Free && !now.Off && now == before
	}, func() string { return why + "; the page shows: " + p.text() })
	return spot{now.X, now.Y}
}
