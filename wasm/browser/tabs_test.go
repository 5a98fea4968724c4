//go:build !js

package browser

import (
	"encoding/json"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// What is done in one tab is shown in the other.
func TestOtherTabFollows(t *testing.T) {
	t.Parallel()
	first, second := twoTabs(t)
	second.section("boat")
	first.draught("1.1")
	second.sees("Another tab changed this plan; this is its newest state.")
	second.holds(css("#field-draught"), "1.1")
	second.saved("one earlier state")
	second.draught("1.2") // and back
	first.holds(css("#field-draught"), "1.2")
	first.press(button("Undo"))
	second.section("boat")
	second.holds(css("#field-draught"), "1.1")
}

func twoTabs(t *testing.T) (first, second *tab) {
	t.Helper()
	s := serve(t)
	b := open(t, s.origin())
	first = b.first(s.url(), desk)
	first.saved("no earlier states")
	second = b.tab(s.url(), desk)
	second.aboard()
	second.saved("no earlier states")
	return first, second
}

// Edits at the same moment in two tabs are both kept: in one plan, or in the
// plan and a copy of it.
func TestBothTabsAtOnce(t *testing.T) {
	t.Parallel()
	first, second := twoTabs(t)
	for round, edit := range []struct{ draught, cruise string }{{"1.1", "21"}, {"1.2", "20"}, {"1.3", "19"}} {
		first.section("boat")
		second.section("boat")
		first.typeInto(css("#field-draught"), edit.draught)
		second.typeInto(css("#field-cruise"), edit.cruise)
		var both sync.WaitGroup
		for _, p := range []*tab{first, second} {
			both.Go(func() { p.keys(kb.Tab) })
		}
		both.Wait()
		first.until("both edits to be kept", func() bool {
			return first.isSaved() && second.isSaved() && keptSomewhere(first, second, `"draught_m":`+edit.draught, `"cruise_kn":`+edit.cruise)
		})
		t.Logf("round %d: a copy was made: %v", round+1, strings.Contains(first.text()+second.text(), "copy from another tab"))
	}
	// And all of it is still there for a page that begins anew.
	first.reload()
	first.aboard()
	for _, want := range []string{`"draught_m":1.1`, `"draught_m":1.2`, `"draught_m":1.3`, `"cruise_kn":21`, `"cruise_kn":20`, `"cruise_kn":19`} {
		if !strings.Contains(strings.Join(first.archived(), "\n"), want) {
			t.Errorf("%s is lost: it is in no plan and in no earlier state of one", want)
		}
	}
}

// typeInto types into a field and does not leave it.
func (p *tab) typeInto(a place, text string) {
	p.t.Helper()
	p.press(a)
	p.until(a.String()+" to have the focus", func() bool { return p.focused(a) })
	p.command("selectAll")
	p.keys(text)
}

func (p *tab) isSaved() bool {
	p.t.Helper()
	p.section("plans")
	return strings.Contains(p.text(), "Saved on this device")
}

// keptSomewhere says whether each text is in a plan or an earlier state that the
// tabs would hand over.
func keptSomewhere(a, b *tab, texts ...string) bool {
	kept := strings.Join(append(a.archived(), b.archived()...), "\n")
	return holdsAll(kept, texts)
}

// archived are all plans that the page hands over, with their other states.
func (p *tab) archived() (states []string) {
	p.t.Helper()
	p.section("plans")
	got := p.downloaded(func() { p.press(button("Export everything")) })
	var a struct {
		Plans []struct {
			Plan         string
			Past, Future []string
		}
	}
	if err := json.Unmarshal(got.data, &a); err != nil {
		p.t.Fatalf("the archive cannot be read: %v", err)
	}
	for _, plan := range a.Plans {
		states = append(append(append(states, plan.Plan), plan.Past...), plan.Future...)
	}
	return states
}
