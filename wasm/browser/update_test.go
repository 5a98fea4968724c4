//go:build !js

package browser

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// newerProgram is the program with another letter in a comment of a script that
// it serves: another version of the app.
func newerProgram(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	was, is := []byte("// What is kept on this device"), []byte("// What is saved on this devic")
	if n := bytes.Count(data, was); n != 1 {
		t.Fatalf("the comment in store.js is %d times in the program; once is wanted", n)
	}
	path := filepath.Join(t.TempDir(), "newer")
	if err := os.WriteFile(path, bytes.Replace(data, was, is, 1), 0o755); err != nil {
		t.Fatal(err)
	}
	return path
}

// build is the version that the page says it is.
func (p *tab) build() string {
	p.t.Helper()
	p.section("about")
	for _, line := range p.lines("#panel .hint") {
		if after, ok := strings.CutPrefix(line, "Build "); ok {
			return after
		}
	}
	p.t.Fatal("the page names no build")
	return ""
}

// A newer version is offered, used when it is asked for, and finds every plan.
func TestNewerVersion(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		s := serve(t)
		b := open(t, s.origin())
		b.book.allowOffline()
		p := b.first(s.url(), v)
		p.keptForOffline()
		p.draught("1.1")
		p.saved("one earlier state")
		was := p.build()

		s.kill()
		s.program = newerProgram(t)
		s.start()
		p.reload() // still the old one, which finds the newer
		p.aboard()
		p.sees("A newer version of Keelroom is ready.")
		if now := p.build(); now != was {
			t.Errorf("the page is of build %s before the newer one was asked for; it was %s", now, was)
		}
		p.accessible()
		p.shot("newer-" + v.name())
		p.press(button("Use it now"))
		p.until("the newer version", func() bool {
			return !strings.Contains(p.text(), "A newer version") && strings.Contains(p.text(), demoVerdict) && p.build() != was
		})
		p.section("boat")
		p.holds(css("#field-draught"), "1.1")
		p.saved("one earlier state")
		s.kill()
		p.reload()
		p.aboard()
		if now := p.build(); now == was {
			t.Error("without a network the old version is back")
		}
	})
}
