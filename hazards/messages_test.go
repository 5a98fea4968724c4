package hazards

import (
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// The report lists the first 20 messages of one code and cause, of all charts
// together, and counts the others.
func TestMessagesOfManyChartsAreCounted(t *testing.T) {
	var sets []*chart.Set
	for i := range 90 {
		s := layered(fmt.Sprint("cell ", i), chart.Derived, 12_000+i)
		for k := range 20 {
			s.Messages = append(s.Messages, chart.Message{Level: chart.Warning, Code: "W-RING", File: s.Title, Path: fmt.Sprint("feature ", k), Found: "a ring that is not closed", Wanted: "closed rings"})
		}
		sets = append(sets, s)
	}
	r := mustCheckOn(t, chart.New(sets...), day())
	if n := len(r.Messages); n != 21 || !strings.Contains(r.Messages[n-1], "1780 more like these") {
		t.Errorf("%d messages, the last %q; want 20 and the count of 1780", n, r.Messages[n-1])
	}
}
