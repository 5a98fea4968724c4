package tide

import (
	"fmt"
	"io"
	"time"
)

// csvHeader is the first line of WriteCSV.
const csvHeader = "time,kind,height_m"

// WriteCSV writes the high and low waters of days days from the instant from, a local midnight of
// loc, as comma-separated values with the header time,kind,height_m: RFC 3339 times in loc to the
// nearest second, kind HW or LW, metres above the tide's datum with 3 decimals. The days end at a
// local midnight too, so that one in which clocks change has 23 or 25 hours. Waters outside what
// the tide covers are not there: ask Covers first.
func WriteCSV(w io.Writer, t Tide, from time.Time, days int, loc *time.Location) error {
	if _, err := fmt.Fprintln(w, csvHeader); err != nil {
		return err
	}
	end := from.In(loc).AddDate(0, 0, days)
	for _, e := range t.Events(from.Add(-time.Second), end) {
		at := e.Time.Round(time.Second)
		if at.Before(from) || !at.Before(end) {
			continue
		}
		_, err := fmt.Fprintf(w, "%s,%s,%s\n", at.In(loc).Format(time.RFC3339), e.Kind(), metres(e.HeightM))
		if err != nil {
			return err
		}
	}
	return nil
}

// metres writes a height with 3 decimals and no negative nought.
func metres(h float64) string {
	if s := fmt.Sprintf("%.3f", h); s != "-0.000" {
		return s
	}
	return "0.000"
}
