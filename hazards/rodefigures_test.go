package hazards

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"keelroom/hazards/plan"
)

// rowsOf are the clock times of a stay's rows.
func rowsOf(s *plan.StayResult) string {
	var out []string
	for i := range s.Hours {
		out = append(out, s.Hours[i].Time.Format("15:04"))
	}
	return strings.Join(out, " ")
}

// The rows of a stay from some minutes after 10 to 13 o'clock: its ends, each full hour
// after it begins, and every turn of wind and tide, an hour near a turn left out.
func TestHoursOfAStay(t *testing.T) {
	p, stay := atAnchor(0)
	stay.RodeM = ptr(21.0)
	calm := mustCheck(t, pool(3, 4), p).Stays[0]
	arrive := *calm.Arrive
	hour := func(h int) string { return arrive.Add(time.Duration(h) * time.Hour).Format("15:04") }
	if got, want := rowsOf(&calm), fmt.Sprintf("%s %s %s 13:00", hour(0), hour(1), hour(2)); got != want {
		t.Errorf("rows %s, want %s", got, want)
	}
	for i := range calm.Hours {
		row := &calm.Hours[i]
		// 3 + 2 − 0.3 − 1 of draught = 3.7 m; 21 m for 4 + 2 + 0.3 + 0.7 = 7 m.
		near(t, "clearance", *row.ClearanceM, 3.7, 1e-9)
		near(t, "scope", *row.Scope, 3, 1e-9)
		near(t, "tide", *row.TideM, 2, 1e-9)
		if *row.GustKn != 0 || *row.SeaM != 0 || *row.SeaOpenM != 0 || row.HeadingDeg != nil {
			t.Errorf("in a calm: %+v", row)
		}
	}
	turn := arrive.Add(70 * time.Minute)
	p.Wind = []plan.Wind{{Time: leaving.Add(-9 * time.Hour), FromDeg: 200, Kn: 8}, {Time: turn, FromDeg: 220, Kn: 10}, {Time: leaving.Add(12 * time.Hour), FromDeg: 220, Kn: 10}}
	windy := mustCheck(t, pool(3, 4), p).Stays[0]
	if got, want := rowsOf(&windy), fmt.Sprintf("%s %s %s 13:00", hour(0), turn.Format("15:04"), hour(2)); got != want {
		t.Errorf("rows %s, want %s", got, want)
	}
	near(t, "gust at the turn", *windy.Hours[1].GustKn, 14, 1e-9)
	near(t, "heading at the turn", *windy.Hours[1].HeadingDeg, 220, 1e-9)
	p.Tide = nil
	for _, row := range mustCheck(t, pool(3, 4), p).Stays[0].Hours {
		if row.TideM != nil || row.ClearanceM != nil || row.Scope != nil || row.SeaM == nil {
			t.Errorf("without a tide: %+v", row)
		}
	}
	p.Wind = nil
	for _, row := range mustCheck(t, pool(3, 4), p).Stays[0].Hours {
		if row.GustKn != nil || row.SeaM != nil || row.HeadingDeg != nil {
			t.Errorf("without wind: %+v", row)
		}
	}
}

// A turn of the tide has a row, and the least of the rows is the least of the stay.
func TestHoursTurnWithTheTide(t *testing.T) {
	p, stay := atAnchor(0)
	stay.Until = leaving.Add(9 * time.Hour)
	windUntil(p, 30*time.Hour)
	p.Tide = &plan.TideSource{Datum: lat, Events: []plan.TideEvent{{Time: leaving.Add(-2 * time.Hour), HeightM: 2.6, Kind: plan.HighWater}, {Time: leaving.Add(4*time.Hour + 7*time.Minute), HeightM: 0.4, Kind: plan.LowWater},
		{Time: leaving.Add(10 * time.Hour), HeightM: 2.5, Kind: plan.HighWater}}}
	s := mustCheck(t, pool(3, 4), p).Stays[0]
	least, at := 99.0, time.Time{}
	for _, row := range s.Hours {
		if *row.ClearanceM < least {
			least, at = *row.ClearanceM, row.Time
		}
	}
	if !at.Equal(leaving.Add(4*time.Hour + 7*time.Minute)) {
		t.Errorf("the least is at %v", at)
	}
	near(t, "least", least, *s.ClearanceLeastM, 1e-9)
	if !strings.Contains(rowsOf(&s), "14:07") {
		t.Errorf("rows %s", rowsOf(&s))
	}
}

// Her bow points into the pull of wind and stream together: by hand, of 10 kn from the
// north (223.7 N on 4.6 m²) and a stream of 1 kn toward the west (169.5 N on 2.5 m²) it is
// atan(169.5 / 223.7) = 37.2° east of north.
func TestHeadingInAStream(t *testing.T) {
	p, _ := atAnchor(0)
	blow(p, 0, 10)
	p.Stream = []plan.Stream{{Time: leaving.Add(-time.Hour), TowardDeg: 270, Kn: 1}, {Time: leaving.Add(9 * time.Hour), TowardDeg: 270, Kn: 1}}
	near(t, "heading", *mustCheck(t, pool(3, 4), p).Stays[0].Hours[0].HeadingDeg, 37.2, 0.1)
	for i := range p.Stream {
		p.Stream[i].Kn = 0.5
	}
	near(t, "heading in a weak stream", *mustCheck(t, pool(3, 4), p).Stays[0].Hours[0].HeadingDeg, 0, 1e-9)
}

// What the report has of the rode, by hand. 21 m for 7 m and 5.4 m: 3 and 3.89; a gust that
// lifts the last link pulls with 11.936 · (21² − 7²) / 14 = 334.2 N, in 4.6 m² 12.2 kn. To
// lay: 3 for each of 7 m.
func TestFiguresOfTheRode(t *testing.T) {
	p, stay := atAnchor(0)
	stay.RodeM = ptr(21.0)
	r := mustCheck(t, pool(3, 4), p)
	s := &r.Stays[0]
	near(t, "scope at high water", *s.ScopeHigh, 3, 1e-9)
	near(t, "scope at low water", *s.ScopeLow, 21/5.4, 1e-9)
	near(t, "to lay", *s.ToLayM, 21, 1e-9)
	near(t, "lift", *s.LiftKn.LevelKn, 12.22, 0.02)
	if *s.LiftKn.SteepKn <= *s.LiftKn.LevelKn {
		t.Errorf("%v", s.LiftKn)
	}
	near(t, "load", *s.LoadN, 0, 0)
	for _, e := range s.Explained {
		for _, m := range e.Made {
			if m.Name == "" || m.Why == "" {
				t.Errorf("%s: %+v has no words", e.Figure, m)
			}
		}
	}
	blow(p, 0, 30) // 45.4 m keep the pull low: 10.4 m more than 5 for each of 7, 46 in whole metres
	stay.RodeM, p.Boat.Rode.ChainM = nil, ptr(60.0)
	r = mustCheck(t, pool(3, 4), p)
	near(t, "to lay in a blow", *r.Stays[0].ToLayM, 46, 1e-9)
	made := explained(t, r, "to_lay_m")
	if len(made) != 3 || made[0].Value != 35 {
		t.Errorf("%+v", made)
	}
	back, err := plan.DecodeReport(r.Encode(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	if got := back.Stays[0]; *got.ToLayM != 46 || len(got.Hours) != len(r.Stays[0].Hours) || got.Bottom != "not charted" || len(got.Explained) != len(r.Stays[0].Explained) {
		t.Errorf("read again: %+v", got)
	}
}
