package hazards

import (
	"cmp"
	"fmt"
	"strings"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// unread is the finding for a feature of the chart that was left out, as what it is:
// its place counts as unknown, whatever it would have said. Things to pass under are
// told by the check of them.
func unread(f *chart.Feature) plan.Finding {
	kind := f.Meant()
	out := plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Source: sourceOf(f),
		Code: "not-read", Title: capital(classWords(kind)) + " could not be read"}
	if kind.Overhead() {
		out.Check = plan.CheckBridge
	}
	out.Detail = fmt.Sprintf("It is features[%d] of %s and was left out (%s): %s", f.Index, cmp.Or(f.File, "the layer"), f.Info, notKnownWithout(kind))
	return out
}

// notKnownWithout says what is not known where a feature of a class was left out.
func notKnownWithout(k chart.Class) string {
	switch {
	case k.Overhead():
		return "the room under it is not known, and unknown room is never taken as enough."
	case k == chart.RESARE || k.SpecialWater() || k == chart.GATCON:
		return "what holds there, a speed limit or that one must not enter, is not known."
	case k == chart.MCOVR:
		return "where the data end is not known."
	case k.NoGo(), k.Shoreline(), k.CloseBy(), k == chart.LNDARE:
		return "it may lie in the way."
	}
	return "the depth there is not known, and unknown water is never taken as deep."
}

// unreadNames are what classes are called that have no name as a thing in the way.
var unreadNames = map[chart.Class]string{
	chart.DEPARE: "a depth area", chart.DRGARE: "a dredged area", chart.UNSARE: "an unsurveyed area", chart.DEPCNT: "a depth contour",
	chart.SOUNDG: "a sounding", chart.RESARE: "a restricted area", chart.CBLARE: "a cable area", chart.CBLSUB: "a cable",
	chart.PIPARE: "a pipeline area", chart.PIPSOL: "a pipeline", chart.MCOVR: "the limit of the data", chart.MSDAT: "the datum of depths",
	chart.MVDAT: "the datum of heights", chart.CANALS: "a canal", chart.RIVERS: "a river", chart.LOKBSN: "a lock",
	chart.ICEARE: "an ice area", chart.WATTUR: "broken water", chart.BRIDGE: "a bridge", chart.CBLOHD: "an overhead cable",
	chart.PIPOHD: "an overhead pipe", chart.CONVYR: "a conveyor",
}

// classWords call a class by what it is.
func classWords(k chart.Class) string {
	return cmp.Or(unreadNames[k], solidNames[k], closeNames[k], waterNames(k), "something")
}

// waterNames calls a water set aside in the midst of a sentence.
func waterNames(k chart.Class) string {
	name := waterWords[k][0]
	return strings.ToLower(name[:min(1, len(name))]) + name[min(1, len(name)):]
}
