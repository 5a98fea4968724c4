package plan

import (
	"fmt"
	"strings"
	"testing"
)

// A tide table that lacks a water keeps a plan from being checked, whoever's table it is: the
// plan's, or a secondary port's reference. It opens all the same, so that it can be mended.
// The waters are invented; the rules are the plan-file contract's, "A tide table must be whole".
func TestTideTableWhole(t *testing.T) {
	for name, c := range map[string]struct{ table, path, says string }{
		"whole":                       {"01:00 0.5, 07:10 4, 13:20 0.6, 19:30 4.1", "", ""},
		"whole, stated":               {"01:00 0.5 LW, 07:10 4 HW, 13:20 0.6 LW, 19:30 4.1 HW", "", ""},
		"a low water left out":        {"01:00 0.5 LW, 07:10 4 HW, 19:30 4.1 HW", "events[2]", "between 07:10 and 19:30 a water seems to be missing (11 Jul 2026, UTC+00)"},
		"the same, not stated":        {"01:00 0.5, 07:10 4, 19:30 4.1", "events[1]", "say of each water whether it is high or low"},
		"two left out":                {"01:00 0.5 LW, 07:10 4 HW, 25:50 0.6 LW", "events[2]", "between 07:10 on 11 Jul and 01:50 on 12 Jul a water seems to be missing"},
		"the same, not stated either": {"01:00 0.5, 07:10 4, 25:50 0.6", "events[2]", "say of each water whether it is high or low"},
		"a double high water":         {"00:10 0.5 LW, 04:50 4 HW d, 07:00 4.1 HW d, 12:20 0.6 LW", "", ""},
		"half of one":                 {"00:10 0.5 LW, 04:50 4 HW d, 12:20 0.6 LW", "events[1]", "the other of the two is not beside it"},
		"one water":                   {"01:00 0.5 LW", "events", "at least one high and one low water"},
	} {
		table := tableText(t, c.table)
		for path, member := range map[string]string{
			"plan.tide.":           table,
			"plan.tide.reference.": `{"reference":` + table + `,"high":{"minutes":-12,"factor":0.8},"low":{"minutes":5,"metres":-0.2}}`,
		} {
			text := change(t, string(readFile(t, "testdata/smallest.geojson")), `"boat"`, `"tide":`+member+`,"boat"`)
			_, err := Decode([]byte(text))
			if c.says == "" && err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if c.says != "" && (err == nil || !strings.Contains(err.Error(), path+c.path) || !strings.Contains(err.Error(), c.says)) {
				t.Errorf("%s: %v; want %q at %s", name, err, c.says, path+c.path)
			}
			p, err := DecodeDraft([]byte(text))
			if err != nil {
				t.Errorf("%s does not open: %v", name, err)
			} else if _, err := DecodeDraft([]byte(mustEncode(t, p))); err != nil {
				t.Errorf("%s does not open when written again: %v", name, err)
			}
		}
	}
}

// tableText writes a table's member: clock, height, kind, and d for double, on 11 July 2026 or,
// from 24:00, the day after.
func tableText(t *testing.T, table string) string {
	t.Helper()
	var events []string
	for line := range strings.SplitSeq(table, ", ") {
		var hour, minute int
		var height, kind, double string
		if n, _ := fmt.Sscanf(line, "%d:%d %s %s %s", &hour, &minute, &height, &kind, &double); n < 3 {
			t.Fatalf("%q is no line", line)
		}
		e := fmt.Sprintf(`{"time":"2026-07-%dT%02d:%02d:00Z","height_m":%s`, 11+hour/24, hour%24, minute, height)
		if kind != "" {
			e += `,"kind":"` + kind + `"`
		}
		if double != "" {
			e += `,"double":true`
		}
		events = append(events, e+"}")
	}
	return `{"datum":23,"events":[` + strings.Join(events, ",") + `]}`
}
