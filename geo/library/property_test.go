package library

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// stateOf is the state that a cell comes to when its parts are read: the base, and the
// updates as far as they follow each other. Each file's contents say what it is.
func stateOf(t *testing.T, h Holding) *Open {
	t.Helper()
	var files []Candidate
	for _, f := range h.Parts() {
		files = append(files, cellFile(t, string(f.Data.Bytes())))
	}
	a := Arrange(files)
	if a.Base < 0 {
		return nil
	}
	if len(a.Left) > 0 {
		t.Errorf("two copies are stored: %s", h)
	}
	s := SequenceOf(files[a.Base].State())
	for _, i := range a.Updates {
		switch step := s.Next(files[i].CellFile); step {
		case Apply:
			s.Applied(files[i].CellFile)
		case Gap:
			s.Stop()
		case OtherEdition:
			t.Errorf("an update of another edition is part of the chart: %s", h)
		}
	}
	return &Open{Is: State{s.Base.Edition, s.Last}, Base: s.Base}
}

// randomDrop is some files of a cell, a base among them or not.
func randomDrop(t *testing.T, random *rand.Rand) *Given {
	t.Helper()
	g := &Given{Cell: "XX5INVNT"}
	add := func(format string, numbers ...any) {
		spec := fmt.Sprintf(format, numbers...)
		c := cellFile(t, spec)
		c.Data = Bytes(spec)
		g.Files = append(g.Files, c.CellFile)
	}
	if random.IntN(2) == 0 {
		add("%d.%d", 1+random.IntN(3), random.IntN(4))
	}
	for range random.IntN(4) {
		if random.IntN(5) == 0 {
			add("0.%du", 1+random.IntN(4))
		} else {
			add("%d.%du", 1+random.IntN(3), 1+random.IntN(4))
		}
	}
	return g
}

// lost is what is gone from a holding though it must stay: a cancellation, or an update
// that waits for an edition that has not come. "" is nothing.
func lost(before, after Holding, is State) string {
	for _, f := range before.Files {
		stays := cancels(f.Name) || Waits(f.Name) && editionOf(f.Name) > is.Edition
		if stays && !slices.ContainsFunc(after.Files, func(o File) bool { return o.Name == f.Name }) {
			return f.Name
		}
	}
	return ""
}

// Whatever is dropped in whatever order: a cell never becomes older, the same files once
// more change nothing, an update that waits is not lost before its edition has come, and
// a cancellation never is.
func TestJoinInAnyOrder(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	joined := 0
	for round := range 3000 {
		var h Holding
		var is *Open
		for range 1 + random.IntN(6) {
			g := randomDrop(t, random)
			if WayOf(is != nil, h, g) != JoinThem {
				continue
			}
			joined++
			c := Join(h, is, g)
			now := stateOf(t, c.Holding)
			switch {
			case now == nil, is != nil && now.Is.Compare(is.Is) < 0:
				t.Fatalf("round %d: %v after %v: %s, given %v", round, now, is, c.Holding, g.Files)
			case lost(h, c.Holding, now.Is) != "":
				t.Fatalf("round %d: %s is gone from %s: %s", round, lost(h, c.Holding, now.Is), h, c.Holding)
			case Join(c.Holding, now, g).Any:
				t.Fatalf("round %d: the same once more changes %s, given %v", round, c.Holding, g.Files)
			}
			h, is = c.Holding, now
		}
	}
	if joined < 3000 {
		t.Errorf("only %d drops joined a cell", joined)
	}
}
