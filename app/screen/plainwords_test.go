package screen

import (
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Every class that a finding may name has a word that is no acronym, and every check
// has one.
func TestWordsForEveryClassAndCheck(t *testing.T) {
	for k := range chart.Acronyms() {
		told := k.WaterArea() || k.Danger() || k.NoGo() || k.Overhead() || k.Shoreline() || k.CloseBy() || k.SpecialWater() || k.Confined()
		switch k {
		case chart.LNDARE, chart.DEPCNT, chart.SOUNDG, chart.RESARE, chart.CTNARE, chart.PRCARE, chart.ACHARE, chart.FAIRWY, chart.GATCON,
			chart.CBLARE, chart.CBLSUB, chart.PIPARE, chart.PIPSOL, chart.ICEARE, chart.WATTUR, chart.MQUAL, chart.MSDAT, chart.MVDAT, chart.MCOVR, chart.MNSYS:
			told = true
		}
		if told && classWord(k.String()) == k.String() {
			t.Errorf("%s has no word", k)
		}
	}
	for _, name := range plan.CheckNames() {
		if checkWord(name) == name && name != plan.CheckSea && name != plan.CheckShelter && name != plan.CheckMark && name != plan.CheckLand &&
			name != plan.CheckFuel && name != plan.CheckDaylight && name != plan.CheckDatum {
			t.Errorf("the check %s has no word", name)
		}
	}
}

// An area to know of is told under the check of areas, not as one not to be entered.
func TestACautionAreaIsNotNoEntry(t *testing.T) {
	f := plan.Finding{Check: plan.CheckNoEntry, Severity: plan.Note, Leg: 2, Source: &plan.Source{Class: "CTNARE"}}
	if got := where(&f); got != "leg 2, areas, caution area" {
		t.Errorf("%q", got)
	}
}
