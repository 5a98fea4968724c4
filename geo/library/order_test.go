package library

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// cellFile is a file of an invented cell: "2.0" is a base of edition 2, "2.1u" an update
// of it, "0.3u" one that cancels the cell. Its contents are told apart by a word, "p" in
// front of which says that a catalogue proves them.
func cellFile(t *testing.T, spec string) Candidate {
	t.Helper()
	state, content, _ := strings.Cut(spec, " ")
	edition, update, _ := strings.Cut(strings.TrimSuffix(state, "u"), ".")
	base := !strings.HasSuffix(state, "u")
	f := CellFile{Cell: "XX5INVNT", Role: RoleOf(base, edition), Edition: edition, Update: Number(update), Data: Bytes(content)}
	n := f.Update
	if base {
		n = 0
	}
	f.Name = fmt.Sprintf("XX5INVNT.%03d", n)
	if f.Role == Cancellation {
		f.Name = CancelFolder + f.Name
	}
	data, proved := strings.CutPrefix(content, "p-")
	f.Data = Bytes(data)
	return Candidate{f, proved}
}

// The order of a cell's files, and which of two stays.
func TestArrange(t *testing.T) {
	for _, c := range []struct {
		name  string
		files []string
		want  string // the files in order
		left  []string
	}{
		{"nothing", nil, "", nil},
		{"in disorder", []string{"2.2u", "2.10u", "2.0", "2.1u"}, "2.0 2.1u 2.2u 2.10u", nil},
		{"updates alone", []string{"2.2u", "2.1u"}, "2.1u 2.2u", nil},
		{"a copy", []string{"2.0 a", "2.0 a"}, "2.0", []string{"1 for 0: the same"}},
		{"a copy with other bytes", []string{"2.0 a", "2.0 b"}, "2.0", []string{"1 for 0: unclear"}},
		{"the second is proved", []string{"2.0 a", "2.0 p-b"}, "2.0", []string{"0 for 1: damaged"}},
		{"the first is proved", []string{"2.0 p-a", "2.0 b"}, "2.0", []string{"1 for 0: damaged"}},
		{"two editions", []string{"2.0", "3.0"}, "3.0", []string{"0 for 1: older"}},
		{"a reissue with updates in it", []string{"2.0", "2.4"}, "2.4", []string{"0 for 1: older"}},
		{"editions by their number", []string{"9.0", "10.0"}, "10.0", []string{"0 for 1: older"}},
		{"a later edition before updates in it", []string{"2.9", "3.0"}, "3.0", []string{"0 for 1: older"}},
		{"copies of an update", []string{"2.0", "2.1u a", "2.1u b", "2.1u p-c"}, "2.0 2.1u", []string{"1 for 3: damaged", "2 for 3: damaged"}},
		{"updates of two editions", []string{"3.1u", "2.1u", "2.2u"}, "2.1u 3.1u 2.2u", nil},
		{"a cancellation has the number of an update", []string{"2.0", "2.3u", "0.3u"}, "2.0 0.3u 2.3u", nil},
	} {
		var files []Candidate
		for _, s := range c.files {
			files = append(files, cellFile(t, s))
		}
		a := Arrange(files)
		var got, left []string
		if a.Base >= 0 {
			got = append(got, strings.Fields(c.files[a.Base])[0])
		}
		for _, i := range a.Updates {
			got = append(got, strings.Fields(c.files[i])[0])
		}
		for _, l := range a.Left {
			left = append(left, fmt.Sprintf("%d for %d: %s", l.File, l.Kept, [...]string{"the same", "damaged", "unclear", "older"}[l.Why]))
		}
		if strings.Join(got, " ") != c.want || !slices.Equal(left, c.left) {
			t.Errorf("%s: %q, left out %q", c.name, got, left)
		}
	}
}

// Updates are applied strictly one after the other (ENC Product Specification, 5.7).
func TestSequence(t *testing.T) {
	const bad = "!" // it does not fit
	for _, c := range []struct {
		base    string
		updates []string
		want    string
	}{
		{"2.0", []string{"2.1u", "2.2u", "2.3u"}, "apply apply apply"},
		{"2.0", []string{"2.2u", "2.3u"}, "gap stopped"},
		{"2.0", []string{"2.1u", "2.3u", "2.4u"}, "apply gap stopped"},
		{"2.0", []string{"2.1u", "2.1u"}, "apply repeated"},
		{"2.3", []string{"2.1u", "2.3u", "2.4u"}, "in-base in-base apply"},
		{"2.0", []string{"1.1u", "3.1u", "2.1u"}, "other other apply"},
		{"2.0", []string{"2.1u" + bad, "2.2u", "3.3u"}, "apply stopped other"},
		{"2.0", []string{"0.1u", "2.1u"}, "cancel apply"},
		{"2.0", []string{"2.2u", "0.3u"}, "gap cancel"},
		{"2.0", []string{"00.1u"}, "cancel"},
	} {
		s := SequenceOf(cellFile(t, c.base).State())
		var got []string
		for _, u := range c.updates {
			u, misfit := strings.CutSuffix(u, bad)
			f := cellFile(t, u).CellFile
			step := s.Next(f)
			got = append(got, [...]string{"apply", "in-base", "other", "stopped", "repeated", "gap", "cancel"}[step])
			switch {
			case step == Gap, step == Apply && misfit:
				s.Stop()
			case step == Apply:
				s.Applied(f)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s with %q: %q, want %q", c.base, c.updates, got, c.want)
		}
	}
}

// A base that was issued after a cancellation is in force; where a date is not known it
// is not.
func TestCancelledBy(t *testing.T) {
	for _, c := range []struct {
		cancelled, base string
		want            bool
	}{
		{"20200101", "20191231", true},
		{"20200101", "20200101", true},
		{"20200101", "20200102", false},
		{"", "20200102", true},
		{"20200101", "", true},
		{"2020    ", "20210101", true},
	} {
		if CancelledBy(c.cancelled, c.base) != c.want {
			t.Errorf("cancelled on %q, the base of %q: want %v", c.cancelled, c.base, c.want)
		}
	}
}

func TestReplaces(t *testing.T) {
	for _, c := range []struct {
		is, becomes State
		by          string
		want        Replacement
	}{
		{State{2, 1}, State{2, 1}, "A", Allowed},
		{State{2, 1}, State{2, 2}, "A", Allowed},
		{State{2, 9}, State{3, 0}, "A", Allowed},
		{State{2, 1}, State{2, 0}, "A", OlderState},
		{State{2, 0}, State{1, 9}, "A", OlderState},
		{State{2, 0}, State{3, 0}, "B", AnotherChart},
	} {
		if got := Replaces("A", c.is, c.by, c.becomes); got != c.want {
			t.Errorf("%v by %v of %s: %d, want %d", c.is, c.becomes, c.by, got, c.want)
		}
	}
}
