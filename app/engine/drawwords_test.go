package engine

import (
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

// Every code of the two attributes is written. Source: gdal-data 3.6.2,
// s57expectedinput.csv (MIT/X), attributes 107 and 113.
func TestNoCodeIsForgotten(t *testing.T) {
	for _, c := range []struct {
		name    string
		letters map[int]string
		codes   []int
	}{
		{"LITCHR", lightLetters, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 25, 26, 27, 28, 29}},
		{"NATSUR", bedLetters, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 14, 17, 18}},
	} {
		for _, code := range c.codes {
			if c.letters[code] == "" {
				t.Errorf("%s %d has no letters", c.name, code)
			}
		}
		if len(c.letters) != len(c.codes) {
			t.Errorf("%s: %d codes have letters, %d are listed", c.name, len(c.letters), len(c.codes))
		}
	}
}
