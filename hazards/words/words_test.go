package words

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// codesOf are the codes that package facts names, from its own source: the constants
// of codes.go are of findings, those of report.go and place.go of other sentences.
func codesOf(t testing.TB, file string) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), "../facts/"+file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		if spec, ok := n.(*ast.ValueSpec); ok {
			for _, v := range spec.Values {
				if lit, ok := v.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					code, _ := strconv.Unquote(lit.Value)
					out = append(out, code)
				}
			}
		}
		return true
	})
	if len(out) < 4 {
		t.Fatalf("%s has %d codes", file, len(out))
	}
	return out
}

// Every code has its sentences in English, and no code two names.
func TestEnglishIsWhole(t *testing.T) {
	seen := map[string]bool{}
	wantIn := func(table map[string]Sentence, what string, codes []string) {
		for _, code := range codes {
			if table[code] == nil {
				t.Errorf("no %s for %s", what, code)
			}
		}
		if len(table) != len(codes) {
			t.Errorf("%d of the codes have a %s, and the table has %d", len(codes), what, len(table))
		}
	}
	findings := codesOf(t, "codes.go")
	others := slices.Concat(codesOf(t, "report.go"), codesOf(t, "place.go"), codesOf(t, "anchorage.go"))
	for _, code := range append(findings, others...) {
		if seen[code] || code != strings.ToLower(code) || strings.ContainsAny(code, " _.") {
			t.Errorf("the code %q stands twice, or is no name", code)
		}
		seen[code] = true
	}
	wantIn(English.Titles, "title", findings)
	wantIn(English.Details, "detail", findings)
	wantIn(English.Others, "sentence", others)
}

// marked is a language of its own that says nothing but codes, in brackets: a second
// table, made of nothing of the first.
func marked(t testing.TB) *Language {
	sentences := func(open, end string, codes []string) map[string]Sentence {
		out := map[string]Sentence{}
		for _, code := range codes {
			out[code] = func(_ *Teller, f facts.Facts) string { return open + f.Code() + end }
		}
		return out
	}
	findings := codesOf(t, "codes.go")
	others := slices.Concat(codesOf(t, "report.go"), codesOf(t, "place.go"), codesOf(t, "anchorage.go"))
	return &Language{Titles: sentences("<", ">", findings), Details: sentences("(", ")", findings), Others: sentences("[", "]", others),
		Term:  func(_ *Teller, m facts.Term) (string, string) { return fmt.Sprintf("#%d", m.Part), "?" },
		Clock: func(local time.Time, otherDay bool) string { return local.Format("1504") }, Datum: strconv.Itoa, Zone: "~", More: strconv.Itoa}
}

// A report is worded in another language by its table alone: nothing of English is
// left in it, and it can be worded again.
func TestAnotherLanguageIsAnotherTable(t *testing.T) {
	depart := time.Date(2026, 7, 18, 10, 0, 0, 0, time.UTC)
	r := &plan.Report{Depart: &depart, Warned: facts.StandingCautions()}
	r.Findings = []plan.Finding{{Facts: facts.Water{What: facts.TooLittleWater}, Made: []plan.Term{{Of: facts.Term{Part: facts.Draught}}},
		Further: []facts.Facts{facts.AsOnLeg{Leg: 2}, facts.SameFor{Count: 3}}}}
	r.LeaveBy = []plan.LeaveBy{{Reason: facts.Leaving{What: facts.DayEnds}}}
	r.Zones, r.SlowDowns = []plan.ZonePassage{{}}, []plan.SlowDown{{}}
	r.Legs = []plan.Leg{{MorePasses: 7}}
	marked(t).Fill(r, time.UTC)
	f := &r.Findings[0]
	got := []string{f.Title, f.Detail, f.Made[0].Name, f.Made[0].Why, r.LeaveBy[0].Why, r.Cautions[0], r.Zones[0].Name, r.SlowDowns[0].Zone, r.Legs[0].Passes[0].Name}
	want := []string{"<too-little-water>", "(too-little-water)[as-on-leg][same-for]", fmt.Sprintf("#%d", facts.Draught), "?", "[day-ends]", "[aid]", "~", "~", "7"}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%q, want %q", got[i], want[i])
		}
	}
	English.Fill(r, time.UTC)
	if f.Title != "Too little water" || r.LeaveBy[0].Why != "the day ends here" || r.Cautions[0] != plan.CautionAid || f.Made[0].Name != "draught" {
		t.Errorf("in English: %q, %q, %q, %q", f.Title, r.LeaveBy[0].Why, r.Cautions[0], f.Made[0].Name)
	}
}

// Clock times are read in the plan's zone, and have their date on another day than
// that of the departure: the Azores are at UTC−1, in summer at UTC (IANA tz database).
func TestClock(t *testing.T) {
	zone := time.FixedZone("-01", -3600)
	depart := time.Date(2026, 7, 18, 23, 30, 0, 0, zone)
	teller := English.For(zone, depart)
	for _, c := range []struct {
		at   time.Time
		want string
	}{{depart.Add(29*time.Minute + 59*time.Second), "23:59 -01"}, {depart.Add(30 * time.Minute), "Sun 19 Jul 00:00 -01"}, {depart.Add(-23*time.Hour - 31*time.Minute), "Fri 17 Jul 23:59 -01"}} {
		if got := teller.Clock(facts.At(c.at)); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What a table lacks is told by its code.
func TestALackingSentenceIsTold(t *testing.T) {
	empty := &Language{Clock: English.Clock}
	if got := empty.For(nil, time.Time{}).Title(facts.Coverage{What: facts.OutsideCharts}); got != facts.OutsideCharts {
		t.Errorf("%q", got)
	}
}

// A list of limits is read as it was written.
func TestLimits(t *testing.T) {
	var got []string
	facts.Limits("5 small craft\n12.5 all others\n").All(func(kn float64, vessels string) { got = append(got, fmt.Sprint(kn, " ", vessels)) })
	if fmt.Sprint(got) != "[5 small craft 12.5 all others]" {
		t.Errorf("%q", got)
	}
}
