package hazards

import (
	"cmp"
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

// poorer is a way in which what is known of a day may be less than it was.
type poorer struct {
	name   string
	change func(day, waters document) bool // false: there is nothing to change
	// caution, if it is set, must stand in the report: what is missing is then
	// stated there and judged by the skipper.
	caution string
	// floor, if it is set, is the least severity that is left of what was not
	// clear; else NoData.
	floor plan.Severity
	// verdictOnly: the figures may change either way, as she is elsewhere at
	// another time.
	verdictOnly bool
}

// TestLessIsNeverBetter takes something out of random days and waters, makes it
// coarser or spoils it, one thing at a time: that must give neither a better verdict
// nor a better figure, unless the file is refused. What was not clear may
// become "no data", since what it was found from is gone.
func TestLessIsNeverBetter(t *testing.T) {
	rnd := rand.New(rand.NewSource(20260719))
	const days, share = 20, 4 // of the ways, one in four is tried on each day
	tried, refused := 0, 0
	for i := range days {
		day, waters := randomDay(rnd), document{}
		waters = randomWaters(rnd, day)
		rich := read(t, day, waters)
		if rich.report == nil {
			t.Fatalf("day %d is refused: %s", i, rich.refused)
		}
		for _, w := range append(waysOf(day, waters, rnd), anchorWays()...) {
			d, l := day.copied(), waters.copied()
			if rnd.Intn(share) > 0 || !w.change(d, l) {
				continue
			}
			tried++
			poor := read(t, d, l)
			if poor.report == nil {
				refused++
				continue
			}
			for _, fault := range better(rich.report, poor.report, w) {
				t.Errorf("day %d, %s: %s", i, w.name, fault)
			}
		}
	}
	t.Logf("%d poorer files, %d refused", tried, refused)
	if tried < 450 || refused > tried/2 {
		t.Errorf("%d poorer files, %d refused: too few are tried", tried, refused)
	}
}

// better says in what the poorer report is better than the richer one.
func better(rich, poor *plan.Report, w poorer) (faults []string) {
	if w.caution != "" {
		if text := strings.ToLower(strings.Join(poor.Cautions, "\n")); !strings.Contains(text, w.caution) {
			faults = append(faults, fmt.Sprintf("no caution speaks of %q", w.caution))
		}
		return faults
	}
	if floor := min(rich.Verdict, cmp.Or(w.floor, plan.NoData)); poor.Verdict < floor {
		faults = append(faults, fmt.Sprintf("verdict %s, %s with more known", poor.Verdict, rich.Verdict))
	}
	if !w.verdictOnly {
		faults = append(faults, betterFigures(rich, poor)...)
	}
	return faults
}

// betterFigures says which figures of the poorer report promise more. Each is
// allowed what the last digit of a report may hide.
func betterFigures(rich, poor *plan.Report) (faults []string) {
	const digit = 0.0051
	more := func(name string, a, b *float64, sign float64) {
		if b != nil && (a == nil || sign*(*b-*a) > digit) {
			faults = append(faults, fmt.Sprintf("%s %s, %s with more known", name, figure(b), figure(a)))
		}
	}
	const promisesMore, promisesLess = 1, -1
	more("least clearance", clearanceOf(rich), clearanceOf(poor), promisesMore)
	more("fuel", rich.FuelL, poor.FuelL, promisesLess)
	for i := range min(len(rich.Legs), len(poor.Legs)) {
		more(fmt.Sprintf("leg %d: least clearance", i+1), rich.Legs[i].LeastClearanceM, poor.Legs[i].LeastClearanceM, promisesMore)
	}
	for i := range min(len(rich.Stays), len(poor.Stays)) {
		a, b := &rich.Stays[i], &poor.Stays[i]
		more("stay: least depth", a.DepthLeastM, b.DepthLeastM, promisesMore)
		more("stay: greatest depth", a.DepthGreatestM, b.DepthGreatestM, promisesLess)
		more("stay: least clearance", a.ClearanceLeastM, b.ClearanceLeastM, promisesMore)
		more("stay: radius", a.RadiusM, b.RadiusM, promisesLess)
		more("stay: room", a.RoomM, b.RoomM, promisesMore)
		more("stay: lee room", a.LeeRoomM, b.LeeRoomM, promisesMore)
		more("stay: greatest sea", a.SeaGreatestM, b.SeaGreatestM, promisesLess)
	}
	return faults
}

func clearanceOf(r *plan.Report) *float64 {
	if r.LeastClearance == nil {
		return nil
	}
	return r.LeastClearance.ClearanceM
}

func figure(v *float64) string {
	if v == nil {
		return "unknown"
	}
	return fmt.Sprintf("%.3f m", *v)
}

// waysOf lists what can be taken from a day and its waters.
func waysOf(day, waters document, rnd *rand.Rand) []poorer {
	return append(append(planWays(), tableWays(rnd)...), layerWays(waters)...)
}

// anchorWays are about what a boat lies at anchor with. They are none of waysOf, by which
// the days of the golden reports are made.
func anchorWays() []poorer {
	var out []poorer
	for _, path := range []string{"boat.length_m", "boat.rode"} {
		out = append(out, poorer{name: "without " + path, change: withoutMember(path)})
	}
	return out
}

// planOf is the member "plan".
func planOf(d document) object { return d.root["plan"].(object) }

// without takes a member out, named by its path.
func withoutMember(path string) func(day, _ document) bool {
	return func(day, _ document) bool {
		at, names := planOf(day), strings.Split(path, ".")
		for _, name := range names[:len(names)-1] {
			at, _ = at[name].(object)
		}
		last := names[len(names)-1]
		if _, ok := at[last]; !ok {
			return false
		}
		delete(at, last)
		return true
	}
}

// rows keeps of a series those rows that keep names.
func rows(name string, keep func(i, n int) bool) func(day, _ document) bool {
	return func(day, _ document) bool {
		list, _ := planOf(day)[name].([]any)
		var out []any
		for i, row := range list {
			if keep(i, len(list)) {
				out = append(out, row)
			}
		}
		if len(out) == len(list) {
			return false
		}
		planOf(day)[name] = out
		return true
	}
}

func planWays() []poorer {
	var out []poorer
	for _, path := range []string{"tide", "tide.datum", "tide.height_datum_m", "wind", "boat.beam_m", "boat.air_draught_m", "boat.fuel", "boat.fuel.burn", "boat.fuel.in_tank_l", "buoyage_region",
		"boat.length_m", "boat.rode.chain_m", "boat.rode.chain_kg_per_m"} {
		out = append(out, poorer{name: "without " + path, change: withoutMember(path)})
	}
	out = append(out, poorer{name: "without swell", change: withoutMember("swell"), caution: "swell"},
		poorer{name: "without stream", change: withoutMember("stream"), caution: "stream"},
		poorer{name: "without rode", change: withoutMember("boat.rode"), caution: "what rode the boat has is not given"},
		poorer{name: "without holding", change: withoutMember("boat.holding_n"), caution: "what her anchor holds is not given"})
	for _, name := range []string{"wind", "swell", "stream"} {
		moves := name == "stream" // she is elsewhere then
		out = append(out, poorer{name: name + ": every second row", verdictOnly: moves, change: rows(name, func(i, _ int) bool { return i%2 == 0 })},
			poorer{name: name + ": every fourth row", verdictOnly: moves, change: rows(name, func(i, _ int) bool { return i%4 == 0 })},
			poorer{name: name + ": first and last row", verdictOnly: moves, change: rows(name, func(i, n int) bool { return i == 0 || i == n-1 })},
			poorer{name: name + ": ends early", verdictOnly: moves, change: rows(name, func(i, _ int) bool { return i < 6 })},
			poorer{name: name + ": begins late", verdictOnly: moves, change: rows(name, func(i, _ int) bool { return i > 5 })})
	}
	return out
}

// tableWays takes waters out of a tide table, also that of a reference port.
func tableWays(rnd *rand.Rand) []poorer {
	var out []poorer
	table := func(name string, keep func(i, n int) bool, kinds bool) {
		out = append(out, poorer{name: name, change: func(day, _ document) bool {
			holder, _ := planOf(day)["tide"].(object)
			if ref, ok := holder["reference"].(object); ok {
				holder = ref
			}
			list, _ := holder["events"].([]any)
			var left []any
			for i, e := range list {
				if keep(i, len(list)) {
					if !kinds {
						delete(e.(object), "kind")
					}
					left = append(left, e)
				}
			}
			holder["events"] = left
			return len(list) > 0
		}})
	}
	for i := range 10 {
		table(fmt.Sprintf("tide table without water %d", i), func(k, _ int) bool { return k != i }, true)
		table(fmt.Sprintf("tide table without water %d, kinds not stated", i), func(k, _ int) bool { return k != i }, false)
		table(fmt.Sprintf("tide table without waters %d and %d", i, i+1), func(k, _ int) bool { return k != i && k != i+1 }, true)
		table(fmt.Sprintf("tide table ends with water %d", i), func(k, _ int) bool { return k <= i }, true)
		table(fmt.Sprintf("tide table begins with water %d", i), func(k, _ int) bool { return k >= i }, true)
	}
	return out
}

// safetyMembers are the members of a layer's features that say what is safe; names,
// texts and shapes do not.
var safetyMembers = []string{"objectClass", "DRVAL1", "VALSOU", "WATLEV", "CATOBS", "EXPSOU", "CATZOC", "CATCOV", "CATLAM", "CATCAM", "CATBRG",
	"VERCLR", "VERCCL", "VERCSA", "HORCLR", "RESTRN", "CATREA", "PERSTA", "PEREND", "DSPM_SDAT", "DSPM_VDAT", "DSPM_HDAT"}

// layerWays takes each fact of each feature out, or makes it unreadable.
func layerWays(waters document) []poorer {
	var out []poorer
	for i, f := range waters.root["features"].([]any) {
		properties := f.(object)["properties"].(object)
		for _, fact := range safetyMembers {
			if _, ok := properties[fact]; !ok || fact == "objectClass" && !telling(properties) {
				continue
			}
			for _, how := range []struct {
				name  string
				value any
			}{{"missing", nil}, {"null", nil}, {"empty", ""}, {"a word", "unreadable"}} {
				// How good a survey is widens the corridor: not known, nothing does, and a care says so.
				unsurveyed := properties["objectClass"] == "M_QUAL"
				out = append(out, poorer{floor: floorOf(fact, how.name != "a word"), verdictOnly: unsurveyed, name: fmt.Sprintf("features[%d] (%v).%s %s", i, properties["objectClass"], fact, how.name),
					change: func(_, waters document) bool {
						p := waters.root["features"].([]any)[i].(object)["properties"].(object)
						if how.name == "missing" {
							delete(p, fact)
						} else {
							p[fact] = how.value
						}
						return true
					}})
			}
		}
	}
	return out
}

// telling tells whether a feature holds a fact beside its class. What has none
// is a shape without a meaning once its class is gone: it is drawn, with a
// warning, and nothing can be known of it.
func telling(properties object) bool {
	for _, fact := range safetyMembers {
		if _, ok := properties[fact]; ok && fact != "objectClass" {
			return true
		}
	}
	return false
}

// floorOf is the least severity that may be left of what was not clear. A
// restricted area that does not say what is restricted is a care: it is there to
// be seen, and the chart is asked for nothing more (layer profile, section 2).
func floorOf(fact string, missing bool) plan.Severity {
	if missing && (fact == "RESTRN" || fact == "CATREA") {
		return plan.Care
	}
	return plan.NoData
}
