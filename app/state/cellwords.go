package state

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/app/entry"
	"keelroom/app/phrase"
)

func wasWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// WaitsWords stand beside updates whose base is not there.
const WaitsWords = "Waits for its base, the file that ends in .000: these updates are kept till then."

func isAre(n int) string {
	if n == 1 {
		return "is an update"
	}
	return "are updates"
}

// CancelledWords stand beside a cell that is no longer in force.
func CancelledWords(c *engine.CellInfo) string {
	return fmt.Sprintf("Its producer cancelled this cell (%s): it is no chart in force. The checks let it add dangers, and take no depth and no coverage from it beside another chart. Open what replaces it, or remove it.", c.Cancelled)
}

// boxAbout is the box about two boxes, of which either may be nil.
func boxAbout(a, b *[4]float64) *[4]float64 {
	if a == nil || b == nil {
		return cmp.Or(a, b)
	}
	return &[4]float64{min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])}
}

func editionWords(c *engine.CellInfo) string {
	words := "edition " + c.Edition
	if c.Update != "" && c.Update != "0" {
		words += " with updates to " + c.Update
	}
	return words
}

// Unapplied names the update files that were not applied.
func (s *ChartSet) Unapplied() (files []string) {
	for _, m := range s.Info.Messages {
		if m.Code == "W-UPDATE" && !slices.Contains(files, m.File) {
			files = append(files, m.File)
		}
	}
	return files
}

// Texts are the names of the text files that came with a cell.
func (s *ChartSet) Texts() []string {
	if s.cell == "" {
		return nil
	}
	return s.holding().Texts()
}

// showText shows a text file that came with a cell, or puts it away: its set's id and
// its name.
func (cs *Charts) showText(arg string) {
	id, name, _ := strings.Cut(arg, " ")
	_, s := cs.FindSet(id)
	if s == nil || s.Text == name {
		if s != nil {
			s.Text, s.TextShown = "", ""
		}
		cs.ports.redraw()
		return
	}
	if i := slices.IndexFunc(s.Files, func(f File) bool { return f.Name == name }); i >= 0 {
		s.Text, s.TextShown = name, string(s.Files[i].Data.Bytes())
	}
	cs.ports.redraw()
}

// CopyWords stand beside every cell.
const CopyWords = "A copy, not the official chart: the producer's terms and its notices to mariners hold, and what was changed since is not in it."

// CellLine describes a cell in a sentence or two.
func CellLine(c *engine.CellInfo, now time.Time) string {
	line := c.Name + ", " + editionWords(c)
	if c.IssueDate != "" {
		line += ", issued " + c.IssueDate + ageWords(c.IssueDate, now)
	}
	line += fmt.Sprintf(". A cell for %s use, 1:%d", purposeWords(c.Purpose), c.Scale)
	if c.Producer != "" {
		line += ", made by " + c.Producer
	}
	if b := c.Bounds; b != nil {
		line += fmt.Sprintf(", from %s to %s", entry.FormatPosition(orb.Point{b[0], b[1]}), entry.FormatPosition(orb.Point{b[2], b[3]}))
	}
	if c.DatumName != "" {
		line += ". Depths below " + c.DatumName
	}
	if c.Comment != "" {
		line += ". It says: " + c.Comment
	}
	return strings.TrimSuffix(line, ".") + "."
}

func purposeWords(purpose string) string {
	if purpose == "not stated" {
		return "no stated"
	}
	return purpose
}

// ageWords says how old a date is: " (2 years old)".
func ageWords(date string, now time.Time) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return ""
	}
	days := int(now.Sub(t).Hours() / 24)
	switch {
	case days < 0:
		return " (later than this device's date)"
	case days < 60:
		return " (" + phrase.Counted(days, "day", "days") + " old)"
	case days < 730:
		return fmt.Sprintf(" (%d months old)", days*12/365)
	}
	return fmt.Sprintf(" (%d years old)", days*100/36525)
}
