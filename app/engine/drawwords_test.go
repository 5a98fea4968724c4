package engine

import (
	"os"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// Source of the codes: S-57 Appendix A, attributes 107 LITCHR, 113 NATSUR and 75
// COLOUR; of the way they are written: IHO INT 1, sections J and P (from memory).
func TestLightAndBedAsOnCharts(t *testing.T) {
	for _, c := range []struct {
		light chart.Light
		want  string
	}{
		{chart.Light{Character: 2, Group: "(2)", PeriodS: 10, Colours: []int{3}}, "Fl(2)R.10s"},
		{chart.Light{Character: 2, Group: "(1)", PeriodS: 2.5, Colours: []int{4}}, "FlG.2.5s"},
		{chart.Light{Character: 7, PeriodS: 6, Colours: []int{1}}, "Iso.6s"},
		{chart.Light{Character: 25, Group: "(6)(1)", PeriodS: 15, Colours: []int{1}}, "Q+LFl(6).15s"},
		{chart.Light{Character: 1, Group: "()", Colours: []int{1, 3, 4}}, "FWRG"},
		{chart.Light{Character: 12, Group: "(A)", PeriodS: 6, Colours: []int{1}}, "Mo(A).6s"},
		{chart.Light{Character: 63, PeriodS: 6}, ""},
		{chart.Light{}, ""},
	} {
		if got := lightWords(&c.light); got != c.want {
			t.Errorf("%+v is written %q, want %q", c.light, got, c.want)
		}
	}
	if got := bedWords(chart.CodesOf(17, 4)); got != "S.Sh" {
		t.Errorf("sand and shells are %q", got)
	}
	if got := bedWords(chart.CodesOf(62)); got != "" {
		t.Errorf("an unknown bed is %q", got)
	}
}

// Every code that GDAL's list of S-57 values has (s57expectedinput.csv, MIT/X) is
// written.
func TestNoCodeIsForgotten(t *testing.T) {
	out, err := os.ReadFile("/usr/share/gdal/s57expectedinput.csv")
	if err != nil {
		t.Log("gdal-data is not here: the lists are not compared")
		return
	}
	for line := range strings.Lines(string(out)) {
		f := strings.SplitN(strings.TrimSpace(line), ",", 3)
		list := map[string]map[int]string{"107": lightLetters, "113": bedLetters}[f[0]]
		if list == nil {
			continue
		}
		if n := number(f[1]); list[n] == "" {
			t.Errorf("attribute %s, code %s, %s has no letters", f[0], f[1], f[2])
		}
	}
}

func number(s string) (n int) {
	for _, c := range s {
		n = 10*n + int(c-'0')
	}
	return n
}
