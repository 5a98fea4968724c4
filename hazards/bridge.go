package hazards

import (
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// cableReserveM is kept from a cable's plain vertical clearance, where its safe
// one (VERCSA) is not charted: current arcs across air. Plan-file contract,
// section 3.
const cableReserveM = 5

// supportsReserveM is the room wanted between a bridge's supports beyond her
// beam.
const supportsReserveM = 2

// passedUnder judges what she passes under.
type passedUnder struct{ *obstacles }

// overhead checks the room above and beside her under a bridge, cable, pipe or
// conveyor.
func (u passedUnder) overhead(st *stretch, h *chart.Hit) {
	for _, sp := range h.Near {
		if from, to, ok := st.clip(sp); ok {
			u.headroom(st, h, from, to)
			u.sideroom(h, from, to)
		}
	}
}

// headroom is the room above her under one thing and what it is made of. Its terms
// are whole millimetres, rounded once, so that what is shown adds up to what is
// compared.
type headroom struct {
	thing         facts.Thing
	chartedM      float64 // above the height datum
	charted       facts.Clearance
	level         int     // VERDAT of the height datum
	datumM        float64 // height datum above the tide's
	levelUnknown  bool    // which is taken as nothing
	topM, marginM float64 // of the tide
	waveM, airM   float64
	atStay        bool
}

func (r *headroom) roomM() float64 {
	return plan.WholeMM(r.chartedM + r.datumM - r.topM - r.marginM - r.waveM - r.airM)
}

// round rounds every term to a millimetre.
func (r *headroom) round() {
	for _, m := range []*float64{&r.chartedM, &r.datumM, &r.topM, &r.marginM, &r.waveM, &r.airM} {
		*m = plan.WholeMM(*m)
	}
}

// facts are the sum as it is shown.
func (r *headroom) facts(what string, wantedM float64, when time.Time) facts.Overhead {
	return facts.Overhead{What: what, Thing: r.thing, RoomM: r.roomM(), WantedM: plan.WholeMM(wantedM), When: facts.At(when), ChartedM: r.chartedM, Charted: r.charted,
		Level: r.level, DatumM: r.datumM, TideM: r.topM, MarginM: r.marginM, WavesM: r.waveM, AirM: r.airM, AtStay: r.atStay, LevelUnknown: r.levelUnknown}
}

func (u passedUnder) headroom(st *stretch, h *chart.Hit, from, to float64) {
	r, missing := u.roomUnder(h, from, to)
	if missing != 0 {
		u.add(h, from, to, plan.Finding{Check: plan.CheckBridge, Severity: plan.NoData, Facts: facts.OverheadNotKnown{Thing: r.thing, Why: missing}})
		return
	}
	wanted := u.plan.Margins.OverheadM
	f := plan.Finding{Check: plan.CheckBridge, Measured: ptr(r.roomM()), Required: ptr(wanted), Unit: "m", Made: r.terms()}
	u.keep(plan.CheckBridge, r.roomM(), wanted, "m")
	level := r.topM + r.roomM() - wanted
	first, _ := u.when(from, to)
	if plan.Enough(r.roomM(), wanted) {
		u.roomSlack(from, to, level)
		if !r.levelUnknown {
			return
		}
		f.Severity, f.Facts = plan.Note, r.facts(facts.OverheadEnough, wanted, time.Time{})
	} else {
		f.Severity, f.Facts, f.Windows = plan.NotClear, r.facts(facts.TooLittleOverhead, wanted, first), u.roomWindows(level, first)
	}
	u.add(h, from, to, f)
}

// roomUnder works the room out, or says what is missing.
func (u passedUnder) roomUnder(h *chart.Hit, from, to float64) (r headroom, missing facts.WhyNoRoom) {
	r.thing, r.atStay, r.level = facts.Thing{Class: h.Class, Name: h.Name}, u.atStay(), heightDatumCode(h.Feature)
	r.chartedM, r.charted = clearanceAbove(h.Feature)
	switch air := u.plan.Boat.AirDraughtM; {
	case !chart.Known(r.chartedM):
		return r, facts.NoClearance
	case air == nil:
		return r, facts.NoAirDraught
	default:
		r.airM = *air
	}
	var ok bool
	start, end := u.padded(from, to)
	if r.topM, r.marginM, ok = u.heights.greatest(start, end); !ok {
		return r, facts.NoHeightThen
	}
	if r.datumM, r.levelUnknown, ok = u.levels().heightDatum(h.Feature); !ok {
		return r, facts.NoLevel
	}
	r.waveM = u.waveAllowance(from, to)
	r.round()
	return r, 0
}

func (r *headroom) terms() []plan.Term {
	return []plan.Term{
		{Value: r.chartedM, Unit: "m", Of: facts.Term{Part: facts.ChartedHeight, Charted: r.charted}}, {Value: r.datumM, Unit: "m", Of: facts.Term{Part: facts.HeightDatum}},
		{Value: -r.topM, Unit: "m", Of: facts.Term{Part: facts.TideGreatest}}, {Value: -r.marginM, Unit: "m", Of: facts.Term{Part: facts.Margin}},
		{Value: -r.waveM, Unit: "m", Of: facts.Term{Part: facts.Waves}}, {Value: -r.airM, Unit: "m", Of: facts.Term{Part: facts.AirDraught}},
	}
}

// roomSlack notes when, after passing, the tide stands too high to pass.
func (u passedUnder) roomSlack(from, to, levelM float64) {
	if u.onlyStops || u.bounding {
		return // nobody asks for what does not stop her
	}
	_, passed := u.when(from, to)
	for _, w := range u.heights.windows(levelM, false, passed.Add(-time.Hour), passed.Add(2*besideLow)) {
		if !w[0].After(passed.Add(underWayPad)) && !w[1].Before(passed) && w[1].Before(passed.Add(2*besideLow)) {
			u.slack = append(u.slack, slack{route: u.nextRoute(), left: w[1].Sub(passed)})
			return
		}
	}
}

// roomWindows is when the tide stands low enough on that day.
func (u passedUnder) roomWindows(levelM float64, at time.Time) [][2]time.Time {
	if u.bounding {
		return nil
	}
	from, to := u.day(at)
	return u.heights.windowsToTell(levelM, false, from, to)
}

// sideroom checks the width between supports.
func (u passedUnder) sideroom(h *chart.Hit, from, to float64) {
	if h.Class != chart.BRIDGE {
		return
	}
	width, beam := h.Overhead.HorClrM, u.plan.Boat.BeamM
	if chart.Known(width) && beam != nil {
		u.keep(plan.CheckBridge, width, *beam+supportsReserveM, "m")
	}
	f := plan.Finding{Check: plan.CheckBridge}
	switch {
	case !chart.Known(width):
		f.Severity, f.Facts = plan.NoData, facts.Supports{What: facts.WidthNotCharted, Name: h.Name}
	case beam == nil:
		f.Severity, f.Facts = plan.NoData, facts.Supports{What: facts.BeamNotKnown, Name: h.Name}
	case width < *beam+supportsReserveM:
		f.Severity, f.Facts = plan.NotClear, facts.Supports{What: facts.CodeTooNarrow, Name: h.Name, WidthM: width, BeamM: *beam, ReserveM: supportsReserveM}
		f.Measured, f.Required, f.Unit = ptr(width), ptr(*beam+supportsReserveM), "m"
	default:
		return
	}
	u.add(h, from, to, f)
}

// clearanceAbove is the charted vertical clearance that counts, in metres above
// the height datum, and which it is.
func clearanceAbove(f *chart.Feature) (metres float64, which facts.Clearance) {
	v := f.Overhead
	switch {
	case v == nil:
		return chart.Unknown, facts.PlainClearance
	case f.Class == chart.CBLOHD && chart.Known(v.VerCsaM):
		return v.VerCsaM, facts.SafeClearance
	case f.Class == chart.CBLOHD:
		return v.VerClrM - cableReserveM, facts.LessForCurrent
	}
	return spanClearance(v)
}

// spanClearance is that of a bridge, pipe, conveyor or crane: closed, if the thing is
// said to open; else the lower of what is charted, for where it is not said, nobody
// opens it for her. Plan-file contract, section 3.
func spanClearance(v *chart.Overhead) (metres float64, which facts.Clearance) {
	switch {
	case v.Opening:
		return v.VerCclM, facts.ClosedClearance
	case !chart.Known(v.VerCclM) || v.VerClrM <= v.VerCclM || v.Fixed && !chart.Known(v.VerClrM):
		return v.VerClrM, facts.PlainClearance
	}
	return v.VerCclM, facts.LowerClosed
}

// heightDatumCode is the VERDAT of a clearance, which chart.New has filled in
// from M_VDAT and the set; 0 is unknown.
func heightDatumCode(f *chart.Feature) int {
	if f.Overhead == nil {
		return 0
	}
	return f.Overhead.HeightDatum
}

// heightDatum is how far the datum of a charted height lies above the tide's own
// datum, and no other (plan-file contract, section 3): as the plan says of the
// chart's datum of heights, else as the station's levels say. Neither given, 0 is
// taken, which unknown tells: heights are charted above a high water or the mean level, so
// there is then more room than said. ok is false where that is not sure, the
// tide's datum being no lower one.
func (l levels) heightDatum(f *chart.Feature) (metres float64, unknown, ok bool) {
	code, t := heightDatumCode(f), l.plan.Tide
	if t == nil {
		return 0, false, false
	}
	if code != 0 && code == t.DatumOf() {
		return 0, false, true
	}
	if t.HeightDatumM != nil && f.Set != nil && code == f.Set.HeightDatum && !l.severalHeightDatums() {
		return *t.HeightDatumM, false, true
	}
	if level, known := t.LevelOf(code); known {
		return level, false, true
	}
	return 0, true, surelyAbove(code, t.DatumOf())
}

// severalHeightDatums tells whether the charts have heights above more than one
// level: then it is not known of which the plan speaks.
func (l levels) severalHeightDatums() bool {
	first := 0
	for _, s := range l.chart.Sets() {
		if s.HeightDatum == 0 {
			continue
		}
		if first != 0 && s.HeightDatum != first {
			return true
		}
		first = s.HeightDatum
	}
	return false
}
