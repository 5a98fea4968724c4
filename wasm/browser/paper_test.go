//go:build !js

package browser

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
)

// asPaper has the page believe that it is printed.
func (p *tab) asPaper(on bool) {
	p.t.Helper()
	medium := "print"
	if !on {
		medium = ""
	}
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium})
}

// standing are words of the cautions that no sheet may be without.
var standing = []string{"not a chart", "official charts", "lookout"}

// The printed sheet holds the whole report with its cautions, and nothing that
// only a screen can use.
func TestPrintedSheet(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("plans") // whatever section is open
		p.asPaper(true)
		p.sees("Legs", "Stays") // it is drawn after the screen
		paper := p.text()
		for _, want := range append([]string{demoTitle, isCare, "What to watch", "Stays", "Tide and daylight", "Legs", "Cautions", "invented",
			"INVENTED out to Elbow Bay", "INVENTED Bar Bay", "All times are in the zone Etc/GMT+2"}, standing...) {
			if !strings.Contains(paper, want) {
				t.Errorf("the printed sheet lacks %q", want)
			}
		}
		for _, not := range []string{"Undo", "Export the plan", "Whole day", "Close"} {
			if strings.Contains(paper, not) {
				t.Errorf("the printed sheet has %q, which is no use on paper", not)
			}
		}
		p.asPaper(false)
		pdf := p.printed()
		if !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(pdf) < 20e3 {
			t.Errorf("what is printed is no sheet: %d bytes", len(pdf))
		}
		p.readPDF(pdf)
	})
}

// readPDF looks into a PDF where there is a program that can.
func (p *tab) readPDF(pdf []byte) {
	p.t.Helper()
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		return
	}
	file := filepath.Join(p.t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		p.t.Fatal(err)
	}
	text, err := exec.Command(reader, file, "-").Output()
	if err != nil {
		p.t.Fatalf("pdftotext: %v", err)
	}
	for _, want := range append([]string{demoTitle}, standing...) {
		if !strings.Contains(squeeze(string(text)), want) {
			p.t.Errorf("the PDF lacks %q", want)
		}
	}
}

// Where motion is not welcome nothing moves by itself: no animation and no
// transition anywhere, and the chart goes to a place at once.
func TestReducedMotion(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk) // whose pages are without motion
	if !read[bool](p, `matchMedia("(prefers-reduced-motion: reduce)").matches`) {
		t.Fatal("the page is not told to be without motion")
	}
	for _, s := range sections {
		p.section(s)
		moving := read[[]string](p, `[...document.querySelectorAll("*")].filter((e) => {
			const s = getComputedStyle(e);
			const long = (list) => list.split(",").some((d) => parseFloat(d) > 0.01);
			return long(s.transitionDuration) || (s.animationName !== "none" && long(s.animationDuration)) || s.scrollBehavior === "smooth";
		}).map((e) => e.outerHTML.slice(0, 100)).slice(0, 5)`)
		for _, e := range moving {
			t.Errorf("section %s: moves by itself: %s", s, e)
		}
	}
	p.section("watch")
	p.press(css("li.finding button"))
	if n := read[int](p, `document.getAnimations().length`); n > 0 {
		t.Errorf("%d animations after going to a finding", n)
	}
}
