//go:build !js

package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// cli runs the command line as a shell would.
func cli(args ...string) (status int, out, diag string) {
	var o, d bytes.Buffer
	status = Run(args, &o, &d)
	return status, o.String(), d.String()
}

// refused wants exit status 2, nothing on standard output, and every text in
// what is said on standard error, each line of which names the command.
func refused(t *testing.T, args []string, wants ...string) {
	t.Helper()
	status, out, diag := cli(args...)
	if status != statusError {
		t.Errorf("exit status %d, want %d", status, statusError)
	}
	if out != "" {
		t.Errorf("standard output is not empty: %.80q", out)
	}
	for _, want := range wants {
		if !strings.Contains(diag, want) {
			t.Errorf("no %q in what is said:\n%s", want, diag)
		}
	}
	for line := range strings.Lines(diag) {
		if !strings.HasPrefix(line, "keelroom "+args[0]+": ") {
			t.Errorf("a line of what is said does not begin with the command: %q", line)
		}
	}
}

// scratch writes a file that ends with the test.
func scratch(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// changed is a text with one change, which must find its place.
func changed(t *testing.T, text, old, now string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("no %q in the text to change", old)
	}
	return strings.Replace(text, old, now, 1)
}

func TestUsage(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
		out    bool // usage on standard output, else on standard error
	}{
		{nil, 2, false},
		{[]string{"help"}, 0, true},
		{[]string{"--help"}, 0, true},
		{[]string{"check", "-h"}, 0, true},
		{[]string{"sail"}, 2, false},
	} {
		status, out, diag := cli(test.args...)
		said, silent := diag, out
		if test.out {
			said, silent = out, diag
		}
		if status != test.status || !strings.Contains(said, "planning aid, not a chart") || silent != "" {
			t.Errorf("%q: status %d, out %.40q, diag %.40q", test.args, status, out, diag)
		}
	}
}

// full is a device without room, as /dev/full is.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// What cannot be written is an error, told by the command's name.
func TestStandardOutputIsFull(t *testing.T) {
	for _, args := range [][]string{
		{"help"}, {"-h"}, {"--help"}, {"check", "-h"}, {"site", "-help"},
		{"check", "-chart", "testdata/chart", "testdata/plan.geojson"},
		{"tide", "-from", "2026-07-01", "-days", "1", "Newlyn"},
	} {
		var diag bytes.Buffer
		status := Run(args, full{}, &diag)
		if status == statusOK || !strings.Contains(diag.String(), syscall.ENOSPC.Error()) {
			t.Errorf("%q: status %d, said %.200q; an error about room is wanted", args, status, diag.String())
		}
	}
}

func TestUsageErrors(t *testing.T) {
	for _, test := range []struct {
		name string
		args []string
		want string
	}{
		{"no plan", []string{"check", "-chart", "testdata/chart"}, "0 plan files after the flags; one is wanted"},
		{"two plans", []string{"check", "-chart", "testdata/chart", "a", "b"}, "2 plan files"},
		{"flag after plan", []string{"check", "testdata/plan.geojson", "-chart", "testdata/chart"}, "3 plan files"},
		{"no chart", []string{"check", "testdata/plan.geojson"}, "at least one -chart PATH is wanted"},
		{"unknown flag", []string{"check", "-map", "x", "y"}, "-map"},
		{"no station", []string{"tide", "-from", "2026-07-01", "-days", "1"}, "0 stations after the flags; one is wanted"},
		{"no days", []string{"tide", "-from", "2026-07-01", "Newlyn"}, "-days 0; 1 to 3653 are wanted"},
		{"days below nought", []string{"tide", "-from", "2026-07-01", "-days", "-3", "Newlyn"}, "-days -3"},
		{"no from", []string{"tide", "-days", "1", "testdata/plan.geojson"}, `-from ""; a day such as 2026-07-01 is wanted`},
		{"no such day", []string{"tide", "-from", "2026-02-30", "-days", "1", "testdata/plan.geojson"}, `-from "2026-02-30"`},
		{"no such zone", []string{"tide", "-from", "2026-07-01", "-days", "1", "-zone", "Sea/Nowhere", "testdata/plan.geojson"}, `-zone "Sea/Nowhere"; an IANA zone`},
		{"the machine's zone", []string{"tide", "-from", "2026-07-01", "-days", "1", "-zone", "Local", "testdata/plan.geojson"}, `-zone "Local"`},
		{"serve with a word", []string{"serve", "now"}, `"now" after the flags`},
		{"serve nowhere", []string{"serve", "-addr", "nowhere"}, ""},
		{"site without folder", []string{"site"}, "0 folders after the flags; one is wanted"},
		{"site with bad base", []string{"site", "-base", "here", "x"}, `-base "here"; a path such as / or /keelroom/ is wanted`},
	} {
		t.Run(test.name, func(t *testing.T) { refused(t, test.args, test.want) })
	}
}
