package tide

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
)

// TestCSV: columns, offsets and local days, over a change of clocks (Europe/Oslo, 2026-10-25: 25
// hours). The waters are invented.
func TestCSV(t *testing.T) {
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	local := func(day, hour, min, sec int) time.Time {
		return time.Date(2026, 10, day, hour, min, sec, 0, oslo)
	}
	tb := mustTable(t,
		Event{Time: local(24, 23, 59, 59), HeightM: 1},
		Event{Time: local(25, 5, 30, 0).Add(400 * time.Millisecond), HeightM: -0.0004},
		Event{Time: local(25, 11, 40, 0), HeightM: 1.2}, Event{Time: local(25, 17, 50, 0), HeightM: 0.1},
		Event{Time: local(25, 23, 59, 0), HeightM: 1.2345},
		Event{Time: local(26, 0, 0, 0), HeightM: 0.2})
	var out bytes.Buffer
	if err := WriteCSV(&out, tb, local(25, 0, 0, 0), 1, oslo); err != nil {
		t.Fatal(err)
	}
	want := "time,kind,height_m\n2026-10-25T05:30:00+01:00,LW,0.000\n2026-10-25T11:40:00+01:00,HW,1.200\n2026-10-25T17:50:00+01:00,LW,0.100\n2026-10-25T23:59:00+01:00,HW,1.234\n"
	if got := out.String(); got != want && got != strings.Replace(want, "1.234", "1.235", 1) {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if err := WriteCSV(failing{}, tb, local(25, 0, 0, 0), 1, oslo); err == nil {
		t.Error("a failing writer goes unnoticed")
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("full") }
