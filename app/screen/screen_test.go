package screen

import (
	unescape "html"
	"regexp"
	"strings"
	"testing"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
)

func at(hour, minute int) *time.Time {
	t := time.Date(2026, 7, 18, hour, minute, 0, 0, time.UTC)
	return &t
}

func of(v float64) *float64 { return &v }

// inventedDay is a day with one finding of each severity, out of order.
func inventedDay(t *testing.T) state.Day {
	t.Helper()
	p := plan.New()
	p.Title = "INVENTED day"
	if err := p.SetZone("Etc/GMT+2"); err != nil {
		t.Fatal(err)
	}
	r := plan.NewReport()
	r.Verdict = plan.NotClear
	r.Depart, r.Back = at(11, 30), at(16, 45)
	r.DistanceNm, r.UnderWayMin = of(15.47), of(77.6)
	r.LeaveBy = []plan.LeaveBy{{Time: at(15, 57), Why: "the water goes"}}
	r.LeastClearance = &plan.LeastClearance{ClearanceM: of(0.99), Time: at(16, 20), Leg: 2}
	r.Cautions = append(r.Cautions, plan.CautionNoSwell)
	r.Checks = map[string]string{plan.CheckChain: plan.NotBuilt, plan.CheckSwing: plan.NotBuilt, plan.CheckLand: plan.Done}
	r.Findings = []plan.Finding{
		{Check: plan.CheckSea, Severity: plan.Care, Title: "third", Leg: 3, Time: at(15, 0), Until: at(15, 10)},
		{Check: plan.CheckLand, Severity: plan.NotClear, Title: "second", Detail: "<b>bold & bad</b>", Leg: 2, Time: at(14, 0), Windows: [][2]time.Time{}},
		{Check: plan.CheckDatum, Severity: plan.NoData, Title: "first"},
		{Check: plan.CheckSpeed, Severity: plan.Note, Title: "a note", Leg: 1, Time: at(12, 0), Windows: [][2]time.Time{{*at(2, 0), *at(26, 0)}}},
	}
	r.Legs = []plan.Leg{{Route: "out", Leg: 1, CourseDeg: of(359.7), DistanceNm: of(1.25), Start: at(11, 30), End: at(11, 40), Kn: of(7.5), LeastClearanceM: of(0.99)}}
	r.Stays = []plan.StayResult{{Name: "INVENTED Bay", Arrive: at(11, 40), Until: at(14, 0), SeaGreatestM: of(0.21), WindRoom: &plan.WindRoom{BackingDeg: of(62.9)}}}
	r.Tide = &plan.TideOfDay{Datum: 23, Method: "harmonic", Events: []plan.HighOrLow{{Time: *at(13, 28), Kind: plan.HighWater, HeightM: 2.53}}}
	return state.Day{Plan: p, Report: r}
}

// shown is the printed sheet's HTML for a day, and its plain text.
func shown(day state.Day) (html, text string) {
	r := state.NewRoom(nil, nil, nil, "test")
	r.Checks.Day, r.History.Plan = day, day.Plan
	html = ui.HTMLString((&printedSheet{Room: r}).Render())
	return html, plainText(html)
}

// plainText is what is left of HTML without its tags.
func plainText(html string) string {
	return strings.Join(strings.Fields(unescape.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html, " "))), " ")
}

func wantInOrder(t *testing.T, text string, wants ...string) {
	t.Helper()
	rest := text
	for _, want := range wants {
		_, after, found := strings.Cut(rest, want)
		if !found {
			t.Errorf("no %q, or not in this order, in:\n%s", want, text)
			return
		}
		rest = after
	}
}

// The verdict comes first, in words; then what to watch in the order it comes,
// the whole day's findings first; notes come apart.
func TestReportReadsInOrder(t *testing.T) {
	_, text := shown(inventedDay(t))
	wantInOrder(t, text,
		"A planning aid, not a chart.",
		"INVENTED day", "Not clear: do not go as planned.",
		"One place or time is not clear, one thing is not known and one thing wants care.",
		"Not checked by this version: rode to lay and room to swing.",
		"No swell was given: none is counted",
		"Depart 09:30", "Back 14:45", "Distance 15.5", "Under way 1 h 18 min", "Fuel not known", "Least under the keel 0.99", "at 14:20",
		"13:57: the water goes", "All times are in the zone Etc/GMT+2, UTC-02:00.",
		"What to watch", "the whole day", "? Not known", "first", "12:00", "■ Not clear", "second", "At no time of this day", "13:00 – 13:10", "▲ Care", "third",
		"Stays", "INVENTED Bay", "not known on arrival", "Sea at most 0.21", "62° backing, not known veering",
		"High water 11:28, 2.5", "Heights above LAT",
		"Legs", "out", "000°", "1.25", "7.5", "0.99",
		"Notes along the way", "– Note", "a note", "00:00 – 24:00",
		"Cautions", plan.CautionAid,
	)
}

// A file's text is text: it never becomes markup.
func TestTextIsNotMarkup(t *testing.T) {
	day := inventedDay(t)
	const hostile = `<script>alert("x")</script>`
	day.Plan.Title = hostile
	day.Report.Messages = []string{hostile}
	day.Report.Findings[0].Title = hostile
	day.Report.Legs[0].Route = hostile
	day.Report.Stays[0].Name = hostile
	html, _ := shown(day)
	if strings.Contains(html, "<script") || strings.Contains(html, "<b>") {
		t.Errorf("markup out of a file:\n%s", html)
	}
	if strings.Count(html, "&lt;script&gt;") != 5 {
		t.Errorf("%d of 5 texts are shown", strings.Count(html, "&lt;script&gt;"))
	}
}

// Severities are told by different words and different shapes, and what is no
// severity is never told as clear.
func TestSeveritiesTellApart(t *testing.T) {
	words, shapes, sentences := map[string]bool{}, map[string]bool{}, map[string]bool{}
	all := []plan.Severity{plan.NotClear, plan.NoData, plan.Care, plan.Clear, plan.Note}
	for _, s := range all {
		style := styleOf(s)
		words[style.word], shapes[style.shape], sentences[style.sentence] = true, true, true
	}
	if len(words) != len(all) || len(shapes) != len(all) || len(sentences) != len(all) {
		t.Errorf("words %v, shapes %v, sentences %v", words, shapes, sentences)
	}
	for _, s := range []plan.Severity{0, 99} {
		if styleOf(s) != styleOf(plan.NoData) {
			t.Errorf("severity %d is told as %q", s, styleOf(s).word)
		}
	}
}

// A report that knows nothing says so of every figure.
func TestNothingIsKnown(t *testing.T) {
	p := plan.New()
	if err := p.SetZone("UTC"); err != nil {
		t.Fatal(err)
	}
	_, text := shown(state.Day{Plan: p, Report: &plan.Report{Stays: []plan.StayResult{{}}, Legs: []plan.Leg{{}}}})
	wantInOrder(t, text, "Not known to be clear: data are missing.", "Depart not known", "Back not known", "Distance not known",
		"Under way not known", "Fuel not known", "Least under the keel not known", "Depth not known", "Tide not known")
}

// Rounding goes to the side that is not flattering: less water, more sea.
func TestRounding(t *testing.T) {
	for _, test := range []struct{ got, want string }{
		{down(of(0.99), "m"), "0.99\u00a0m"}, {down(of(1), "m"), "1.00\u00a0m"}, {down(of(0.3), "m"), "0.30\u00a0m"}, {down(of(-0.01), "m"), "−0.01\u00a0m"}, {down(of(0.299), "m"), "0.29\u00a0m"},
		{up(of(0.21), "m"), "0.21\u00a0m"}, {up(of(0.211), "m"), "0.22\u00a0m"}, {up(of(0.3), "m"), "0.30\u00a0m"}, {up(of(-0.004), "m"), "0.00\u00a0m"},
		{down(of(20.99), "l"), "20.9\u00a0l"}, {up(of(20.91), "l"), "21.0\u00a0l"}, {down(nil, "m"), notKnown}, {up(nil, "m"), notKnown},
		{bearing(of(359.7)), "000°"}, {bearing(of(7.2)), "007°"}, {degrees(of(29.9)), "29°"},
		{lasting(of(59.2)), "1\u00a0h 00\u00a0min"}, {lasting(of(12.1)), "13\u00a0min"},
	} {
		if test.got != test.want {
			t.Errorf("%q, want %q", test.got, test.want)
		}
	}
}
