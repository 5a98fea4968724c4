package tide

import (
	"strings"
	"testing"
)

func describe(t *testing.T, record Record, cs ...Constituent) string {
	t.Helper()
	h, err := NewHarmonicOf(1, cs, record)
	if err != nil {
		t.Fatal(err)
	}
	return h.Describe()
}

// What a prediction is said to be worth follows from what it is made of. Guesses by hand, from the
// coefficients of the tide-generating potential (Schureman's table 2, from memory: M2 0.9085, S2
// 0.4227, N2 0.1739, K2 0.1150, K1 0.5305, O1 0.3771, P1 0.1755, Q1 0.0722). With M2 of 1 m alone the
// seven others are 0.465, 0.191, 0.127, 0.584, 0.415, 0.193, 0.079 m: 2.055 m in all, and the root of
// half the sum of their squares 0.659 m.
func TestDescribeFollowsWhatIsGiven(t *testing.T) {
	main := []Constituent{{"M2", 1, 0}, {"S2", 0.4, 0}, {"N2", 0.2, 0}, {"K2", 0.1, 0}, {"K1", 0.1, 0}, {"O1", 0.1, 0}, {"P1", 0.03, 0}, {"Q1", 0.02, 0}}
	for name, c := range map[string]struct {
		record Record
		cs     []Constituent
		says   []string
		not    string
	}{
		"all of the main ones": {Record{}, main, []string{"8 constituents", "within a decimetre of the water", "with wind and pressure"}, "without S2"},
		"one alone":            {Record{}, main[:1], []string{"one constituent alone (M2)", "without S2, N2, K2, K1, O1, P1, Q1", "by some 0.7 m, at times by 2.1 m"}, "decimetre of"},
		// 0.0722 / 0.3771 of an O1 of 0.1 m, the greater by its coefficient: 0.019 m.
		"all but the smallest": {Record{}, main[:7], []string{"without Q1", "by some 0.1 m"}, "decimetre of"},
		"one analysed as none": {Record{}, append(main[:7:7], Constituent{"Q1", 0, 0}), []string{"within a decimetre"}, "without Q1"},
		"no main one":          {Record{}, []Constituent{{"SA", 0.1, 0}}, []string{"no prediction of a tide"}, "within"},
		"left out":             {Record{LeftOut: "T3 and R3", LeftOutM: 0.0439}, main, []string{"within 0.15 m of the water", "left out: T3 and R3, at most 44 mm"}, "decimetre of"},
		"little left out":      {Record{LeftOut: "T3 and R3", LeftOutM: 0.004}, main, []string{"within a decimetre", "at most 4 mm"}, ""},
		"a short record":       {Record{Years: 3}, main, []string{"levels rest on 3 years", "less than the 19"}, ""},
		"a year":               {Record{Years: 1}, main, []string{"levels rest on 1 year of"}, ""},
		"a long record":        {Record{Years: 19}, main, []string{"within a decimetre"}, "rest on"},
	} {
		got := describe(t, c.record, c.cs...)
		for _, want := range c.says {
			if !strings.Contains(got, want) {
				t.Errorf("%s: no %q in %q", name, want, got)
			}
		}
		if c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: %q in %q", name, c.not, got)
		}
	}
	ref, err := NewHarmonic(1, main[:1])
	if err != nil {
		t.Fatal(err)
	}
	sec, err := NewSecondary(ref, Difference{}, Difference{})
	if err != nil || !strings.Contains(sec.Describe(), "without S2") {
		t.Errorf("a secondary port says nothing of what its reference lacks: %s, %v", sec.Describe(), err)
	}
}

// What the list leaves out of TICON-4's analyses is what their files hold of it (T3 and R3, of the
// reference files for Newlyn and Cuxhaven), and nothing of NOAA's.
func TestLeftOutOfTheList(t *testing.T) {
	s := loadList(t)
	for _, file := range references {
		var ref struct {
			refStation
			Station string
		}
		readJSON(t, file, &ref)
		want := 0.0
		st, _ := s.Station(ref.Station)
		for _, c := range ref.Constituents {
			if st.Source == "TICON-4" && (c.Name == "T3" || c.Name == "R3") {
				want += c.Amplitude
			}
		}
		if got := st.Record.LeftOutM; got < want-1e-9 || got > want+0.001+1e-9 || (want > 0) != (st.Record.LeftOut != "") {
			t.Errorf("%s: %.4f m left out, want %.4f rounded up to a millimetre", ref.Station, got, want)
		}
		tide, err := st.Tide()
		if err != nil {
			t.Fatal(err)
		}
		if said := strings.Contains(tide.Describe(), "left out: T3 and R3"); said != (want > 0) {
			t.Errorf("%s: %s", ref.Station, tide.Describe())
		}
	}
}
