package state

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
	"keelroom/hazards/tide/stationdata"
)

// A field that cannot be read keeps the plan, and says beside it what is wanted.
func TestFieldThatIsWrong(t *testing.T) {
	for _, test := range []struct{ tab, id, text, want string }{
		{TabBoat, "draught", "3 ft", "0.91"},
		{TabBoat, "draught", "deep", "deep"},
		{TabBoat, "draught", "-1", "-1"},
		{TabBoat, "burn", "22 48 3", "ine 1"},
		{TabBoat, "in-tank", "1900", "1900 litres are more than the tank holds, 280 litres"},
		{TabBoat, "tank", "50", "190 litres are more than the tank holds, 50 litres"},
		{TabDay, "zone", "Nowhere/At all", "Nowhere"},
		{TabDay, "depart", "25:00", "25:00"},
		{TabDay, "depart-day", "18.7.", "18.7."},
		{TabDay, "wind", "09:00 12", "ine 1"},
		{TabDay, "adjust", "1 ft", "0.3"},
		{TabRoute, "at-0-1", "somewhere", "type"},
	} {
		t.Run(test.id+" "+test.text, func(t *testing.T) {
			g := newHarness(t).start()
			before := g.room.History.Open.Text
			g.room.View.Tab = test.tab
			g.room.Enter(test.id, test.text)
			g.settle()
			if g.room.History.Open.Text != before {
				t.Error("the plan has changed")
			}
			wrong := g.room.Forms.Rejected[test.id].Wrong
			if !strings.Contains(wrong, test.want) {
				t.Errorf("beside the field: %q, want it to name %q", wrong, test.want)
			}
			g.wants(strings.ReplaceAll(wrong, "\n", " "))
		})
	}
}

// Every field that a panel shows can be entered with what it shows, and that
// changes nothing.
func TestFieldsGiveBackWhatTheyShow(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	for _, list := range [][]Field{DayFields, BoatFields, MarginFields, ChartFields, r.Forms.stayFields(), r.Forms.routeFields(), TideFields, WeatherFields} {
		for _, f := range list {
			before := r.History.Open.Text
			r.Enter(f.ID, f.Get(r.History.Plan))
			if wrong, bad := r.Forms.Rejected[f.ID]; bad {
				t.Errorf("%s does not take its own %q: %s", f.ID, f.Get(r.History.Plan), wrong.Wrong)
			}
			if sameExceptDefaults(before, r.History.Open.Text) != nil {
				t.Errorf("%s: entering what it shows changes the plan: %v", f.ID, sameExceptDefaults(before, r.History.Open.Text))
			}
			r.History.Open.Text = before
			if p, err := plan.DecodeDraft([]byte(before)); err == nil {
				r.History.Plan = p
			}
		}
	}
}

// sameExceptDefaults compares what two plan files mean for the positions, which
// are typed with fewer decimals than they are kept with, and the boat.
func sameExceptDefaults(a, b string) error {
	x, err := plan.DecodeDraft([]byte(a))
	if err != nil {
		return err
	}
	y, err := plan.DecodeDraft([]byte(b))
	if err != nil {
		return err
	}
	if x.Boat.DraughtM != y.Boat.DraughtM || fmt.Sprint(x.Margins) != fmt.Sprint(y.Margins) {
		return errors.New("boat or margins differ")
	}
	if len(x.Parts) != len(y.Parts) || len(x.Wind) != len(y.Wind) || len(x.Swell) != len(y.Swell) {
		return errors.New("parts, wind or swell differ")
	}
	for i := range x.Wind {
		if x.Wind[i].FromDeg != y.Wind[i].FromDeg || x.Wind[i].Kn != y.Wind[i].Kn || !x.Wind[i].Time.Equal(y.Wind[i].Time) {
			return fmt.Errorf("wind %d differs", i)
		}
	}
	return nil
}

// A tide table is refused until its zone and its datum are chosen.
func TestTideTableAsks(t *testing.T) {
	g := newHarness(t).start()
	g.room.View.Tab = TabDay
	table := "2026-07-18 04:05 0.6\n2026-07-18 10:20 2.5\n2026-07-18 16:30 0.7\n2026-07-18 22:40 2.6"
	g.room.Enter("draft-tide", table)
	g.room.Do("tide-table", "")
	g.wants("Choose the zone that the times of the table are in")
	g.room.Enter("draft-tide-zone", "ut")
	g.room.Do("tide-table", "")
	g.wants("Choose what the heights are above")
	g.room.Enter("draft-tide-datum", "23")
	g.room.Do("tide-table", "")
	g.settle()
	events := g.room.History.Plan.Tide.Events
	if len(events) != 4 || events[0].Time.UTC().Format("15:04") != "04:05" {
		t.Fatalf("the tide is %+v", g.room.History.Plan.Tide)
	}
	g.wants("a table of four high and low waters")
}

// What no check could use is refused beside the form, in words, and the tide stays what it was: a
// table that lacks waters, one that does not say whether it does, and a secondary port whose high
// water would lie below its low water.
func TestTidesThatAreRefused(t *testing.T) {
	g := newHarness(t).start()
	g.room.View.Tab = TabDay
	g.room.Enter("draft-tide-zone", "ut")
	g.room.Enter("draft-tide-datum", "23")
	before := g.room.History.Open.Text
	for table, says := range map[string]string{
		"2026-07-18 01:00 LW 0.5\n07:10 HW 4\n19:30 HW 4.1":            "a line is missing",
		"2026-07-18 01:00 LW 0.5\n07:10 HW 4\n2026-07-19 01:50 LW 0.6": "Line 3: between 07:10 on 18 Jul and 01:50 on 19 Jul a water seems to be missing",
		"2026-07-18 01:00 0.5\n07:10 4\n2026-07-19 01:50 0.6":          "type HW or LW on every line",
	} {
		g.room.Enter("draft-tide", table)
		g.room.Do("tide-table", "")
		g.settle()
		g.wants(says)
	}
	if g.room.History.Open.Text != before {
		t.Error("the tide has changed")
	}
	g.room.Enter("draft-tide", "2026-07-18 04:05 LW 0.6\n10:20 HW 2.5\n16:30 LW 0.7\n22:40 HW 2.6")
	g.room.Do("tide-table", "")
	g.settle()
	before = g.room.History.Open.Text
	for id, text := range map[string]string{"draft-hw-min": "0", "draft-hw-m": "-3", "draft-lw-min": "0", "draft-lw-m": "1"} {
		g.room.Enter(id, text)
	}
	g.room.Do("tide-secondary", "")
	g.settle()
	g.wants("The differences make the high water of 2.50 m one of -0.50 m, and the low water of 0.60 m beside it one of 1.60 m: a high water cannot lie below its low water.")
	if g.room.History.Open.Text != before {
		t.Error("the tide has changed")
	}
}

// A station that was chosen for one plan is not put into another.
func TestStationOfAnotherPlan(t *testing.T) {
	g := newHarness(t).start()
	h := &holding{harness: g, kind: engine.OneStation}
	g.room.Ports.engine = h
	g.room.Do("station", "noaa/8443970")
	g.room.Do("plan-copy", "")
	g.settle()
	before := g.room.History.Open.Text
	h.let()
	if g.room.History.Open.Text != before {
		t.Error("the tide of another plan has changed")
	}
}

// A gauge's level is taken as it is read; the time to be back keeps its day.
func TestLevelAndBackBy(t *testing.T) {
	g := newHarness(t).start()
	g.room.Enter("back-by", "2026-07-19 10:00")
	if got := g.room.Forms.Rejected["back-by"].Wrong; got != "" || backText(g.room.History.Plan) != "2026-07-19 10:00" {
		t.Errorf("back by %q: %s", backText(g.room.History.Plan), got)
	}
	g.room.Enter("adjust", "0.5")
	g.room.Enter("draft-level", "0.2")
	g.room.Enter("draft-level-datum", "23")
	g.room.Do("tide-level", "")
	if a := g.room.History.Plan.Tide; a.LevelM == nil || *a.LevelM != 0.2 || a.AdjustM != 0 {
		t.Errorf("the tide is %+v", a)
	}
}

// A dropped sketch leaves nothing in the next one's form, and a table that is
// being typed stays.
func TestDraftsStayApart(t *testing.T) {
	g := newHarness(t).start()
	g.room.Enter("draft-tide", "2026-07-18 03:12 0.4")
	for range 2 {
		g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{-36.03, 43.0}}})
		if d := g.room.Forms.Drafted("draft-depth"); d != "" {
			t.Errorf("the depth of the danger before, %q", d)
		}
		g.room.Enter("draft-depth", "12")
		g.room.Do("sketch-drop", "")
	}
	if g.room.Forms.Drafted("draft-tide") == "" {
		t.Error("the tide table is gone")
	}
}

// What is doubtful about a station's datum is said when it is taken: heights above
// a level that is only estimated must not pass for a chart's.
func TestStationsDoubtsAreTold(t *testing.T) {
	list, err := tide.LoadStations(stationdata.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	for _, info := range list.Near(orb.Point{0, 50}, list.Len()) {
		st, _ := list.Station(info.ID)
		if !st.DatumEstimated {
			continue
		}
		g := newHarness(t).start()
		g.room.Do("station", st.ID)
		g.settle()
		g.wants("Heights of tide are those of "+st.Name+", above ", "Its datum was worked out from the gauge's own record")
		g.room.View.Tab = TabDay
		g.wants("left out: T3 and R3, whose arguments are not published, at most")
		return
	}
	t.Fatal("no station of the list has an estimated datum")
}
