//go:build unix

package cli

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A pipe that nobody writes to, or a device, among the files of a chart is refused in
// words: opening it would wait for ever, or never end.
func TestPipesAndDevicesAreRefused(t *testing.T) {
	pipe := func(path string) error { return syscall.Mkfifo(path, 0o600) }
	endless := func(path string) error { return os.Symlink("/dev/zero", path) }
	for _, test := range []struct {
		name, file string
		make       func(string) error
		folder     bool
		want       string
	}{
		{"a pipe as a layer of a folder", "DEPARE.geojson", pipe, true, "is a pipe"},
		{"a pipe as a cell of a folder", "XX5INVNT.000", pipe, true, "is a pipe"},
		{"a pipe called almost like a cell", "XX5INVNT (1).000", pipe, true, "is a pipe"},
		{"a pipe as the chart", "chart.geojson", pipe, false, "is a pipe"},
		{"a device as a layer of a folder", "DEPARE.geojson", endless, true, "is a device"},
		{"a device as an archive", "set.zip", endless, true, "is a device"},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), test.file)
			if err := test.make(path); err != nil {
				t.Fatal(err)
			}
			chart := path
			if test.folder {
				chart = filepath.Dir(path)
			}
			done := make(chan struct{})
			var status int
			var out, diag string
			go func() {
				defer close(done)
				status, out, diag = cli("check", "-chart", chart, goodPlan)
			}()
			select {
			case <-done:
			case <-time.After(time.Minute):
				t.Fatal("no answer within a minute")
			}
			if status != statusError || out != "" || !strings.Contains(diag, test.want) {
				t.Errorf("status %d, %q; want it refused with %q", status, diag, test.want)
			}
		})
	}
}
