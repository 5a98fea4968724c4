package layer

import (
	"fmt"
	"testing"

	"keelroom/geo/chart"
)

// Messages of one code and cause are counted after the first 20, over several sets
// too, and none is lost from the count; those of another cause are listed beside
// them.
func TestMessagesOfOneCauseAreCounted(t *testing.T) {
	var all []chart.Message
	for set := range 90 {
		var log Log
		for i := range 30 {
			log.Add(chart.Message{Level: chart.Warning, Code: "W-CLASS", File: fmt.Sprintf("CELL%d.000", set), Path: fmt.Sprintf("feature %d", i),
				Found: fmt.Sprintf("class %d, which S-57 does not list", i), Wanted: fmt.Sprintf("the number of an S-57 class, 1 to %d", i)})
		}
		log.Add(chart.Message{Level: chart.Warning, Code: "W-CLASS", Found: "a restricted area that does not say what", Wanted: "RESTRN or CATREA"})
		all = append(all, log.Messages()...)
	}
	if len(all) != 90*(Listed+2) {
		t.Fatalf("%d messages of 90 sets", len(all))
	}
	counted := Counted(all)
	listed, more := map[string]int{}, map[string]int{}
	for _, m := range counted {
		cause := "class"
		if m.Wanted == "RESTRN or CATREA" {
			cause = "rule"
		}
		if m.More > 0 {
			more[cause] += m.More
		} else {
			listed[cause]++
		}
	}
	if listed["class"] != Listed || more["class"] != 90*30-Listed || listed["rule"] != Listed || more["rule"] != 90-Listed || len(counted) != 2*(Listed+1) {
		t.Errorf("%d messages: listed %v, counted %v", len(counted), listed, more)
	}
	again := Counted(counted)
	if len(again) != len(counted) || again[len(again)-1] != counted[len(counted)-1] {
		t.Errorf("counted twice: %d messages, of once counted %d", len(again), len(counted))
	}
}

// However many causes a code has, they end.
func TestCausesEnd(t *testing.T) {
	var log Log
	for i := range 5000 {
		log.Add(chart.Message{Level: chart.FeatureError, Code: "E-NUM", Found: "x", Wanted: fmt.Sprintf("%c%c%c", 'a'+i%26, 'a'+i/26%26, 'a'+i/676)})
	}
	n := 0
	for _, m := range log.Messages() {
		n += max(1, m.More)
	}
	if list := log.Messages(); len(list) > (mostCauses+1)*(Listed+1) || n != 5000 {
		t.Errorf("%d messages for %d", len(list), n)
	}
}
