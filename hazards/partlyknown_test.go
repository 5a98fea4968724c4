package hazards

import (
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Where the tide is known for a part of the day only, the windows in that part are
// told, none of them is no "never", and nothing is told of the rest.
func TestWindowsOfAPartOfTheDay(t *testing.T) {
	event := func(hour, minute int, heightM float64, kind string) plan.TideEvent {
		return plan.TideEvent{Time: time.Date(2026, 7, 18, hour, minute, 0, 0, time.UTC), HeightM: heightM, Kind: kind}
	}
	partly := func(p *plan.Plan) { // 18 h: 02:00 to 20:00, low 1 m, high 3 m
		p.Tide = &plan.TideSource{Datum: lat, HeightDatumM: ptr(4.0), Events: []plan.TideEvent{
			event(2, 0, 1, "LW"), event(8, 0, 3, "HW"), event(14, 0, 1, "LW"), event(20, 0, 3, "HW")}}
	}
	for _, c := range []struct {
		name  string
		f     chart.Feature
		check string
		depth float64 // DRVAL1
		want  int     // windows; -1 for not known
	}{
		// She draws 1 m, wants 1 m above 8 kn, squats at most 0.35 m; the margin is 0.3 m.
		// 2.65 m of tide are wanted over the datum: about both high waters.
		{"a bank", depth(0, 20, rectangle(48, 40, 52, 60)), plan.CheckClearance, 0, 2},
		{"a bank that no tide in it covers", depth(-2, 20, rectangle(48, 40, 52, 60)), plan.CheckClearance, -2, -1},
		// Clearance + 4 - tide - 0.3 - 3 = 0.5 is wanted: a tide of 1.8 m with 1.6 m
		// charted, 0.2 m with none.
		{"a bridge", overheadLine(chart.BRIDGE, span(1.6, chart.Unknown, chart.Unknown, 10), 50), plan.CheckBridge, 0, 2},
		{"a bridge too low at any tide in it", overheadLine(chart.BRIDGE, span(0, chart.Unknown, chart.Unknown, 10), 50), plan.CheckBridge, 0, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day()
			partly(p)
			depart := time.Date(2026, 7, 18, 11, 0, 0, 0, time.UTC) // half tide, 2 m, falling
			p.Parts[0].Route.Depart = &depart
			f := finding(t, mustCheck(t, set(c.f), p), c.check)
			if f.Severity != plan.NotClear || c.want < 0 && f.Windows != nil || c.want >= 0 && len(f.Windows) != c.want {
				t.Errorf("%s %s: windows %v, want %d", f.Severity, f.Detail, f.Windows, c.want)
			}
		})
	}
}
