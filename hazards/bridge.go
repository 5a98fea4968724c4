package hazards

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// cableReserveM is kept from a cable's plain vertical clearance, where its safe
// one (VERCSA) is not charted: current arcs across air. Plan-file contract,
// section 3.
const cableReserveM = 5

// supportsReserveM is the room wanted between a bridge's supports beyond her
// beam.
const supportsReserveM = 2

// overhead checks the room above and beside her under a bridge, cable, pipe or
// conveyor.
func (o *obstacles) overhead(st *stretch, h *chart.Hit) {
	for _, sp := range h.Near {
		if from, to, ok := st.clip(sp); ok {
			o.headroom(st, h, from, to)
			o.sideroom(h, from, to)
		}
	}
}

// headroom is the room above her under one thing and what it is made of. Its terms
// are whole millimetres, rounded once, so that what is shown adds up to what is
// compared.
type headroom struct {
	what          string
	chartedM      float64 // above the height datum
	said          string
	datum         string  // the height datum's name
	datumM        float64 // height datum above the tide's
	datumSaid     string  // if that is not known
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

// millimetres writes metres to the millimetre, with two decimals at least.
func millimetres(m float64) string {
	text := strconv.FormatFloat(plan.WholeMM(m)+0, 'f', 3, 64) // + 0 takes the sign off nothing
	return strings.TrimSuffix(text, "0") + " m"
}

// sentence writes the sum out: every term, and what they add up to.
func (r *headroom) sentence() string {
	when := "the greatest within 15 min of passing"
	if r.atStay {
		when = "the greatest while she lies there"
	}
	return fmt.Sprintf("%s %s above %s + %s for that level above the tide's datum − tide %s, %s, − margin %s − waves %s − air draught %s = %s.%s",
		r.said, millimetres(r.chartedM), r.datum, millimetres(r.datumM), millimetres(r.topM), when, millimetres(r.marginM), millimetres(r.waveM), millimetres(r.airM), millimetres(r.roomM()), r.datumSaid)
}

func (o *obstacles) headroom(st *stretch, h *chart.Hit, from, to float64) {
	r, missing := o.roomUnder(h, from, to)
	if missing != "" {
		o.add(h, from, to, plan.Finding{Check: plan.CheckBridge, Severity: plan.NoData, Code: "overhead-not-known", Title: "Room overhead not known", Detail: r.what + ": " + missing})
		return
	}
	wanted := o.plan.Margins.OverheadM
	f := plan.Finding{Check: plan.CheckBridge, Measured: ptr(r.roomM()), Required: ptr(wanted), Unit: "m", Made: r.terms()}
	level := r.topM + r.roomM() - wanted
	first, _ := o.when(from, to)
	if plan.Enough(r.roomM(), wanted) {
		o.roomSlack(from, to, level, r.what)
		if r.datumSaid == "" {
			return
		}
		f.Severity, f.Code, f.Title, f.Detail = plan.Note, "overhead-enough", "Room enough overhead", r.what+": "+r.sentence()
	} else {
		f.Severity, f.Code, f.Title, f.Windows = plan.NotClear, "too-little-overhead", "Too little room overhead", o.roomWindows(level, first)
		f.Detail = fmt.Sprintf("%s: %s of room at %s, %s wanted. %s", r.what, millimetres(r.roomM()), o.clock(first), millimetres(wanted), r.sentence())
	}
	o.add(h, from, to, f)
}

// roomUnder works the room out, or says what is missing.
func (o *obstacles) roomUnder(h *chart.Hit, from, to float64) (r headroom, missing string) {
	r.what, r.atStay, r.datum = named(h.Feature, overheadName(h.Class)), o.stay != nil, datumName(heightDatumCode(h.Feature))
	r.chartedM, r.said = clearanceAbove(h.Feature)
	switch air := o.plan.Boat.AirDraughtM; {
	case !chart.Known(r.chartedM):
		return r, "the chart gives no clearance."
	case air == nil:
		return r, "the boat's air draught is not given."
	default:
		r.airM = *air
	}
	var ok bool
	start, end := o.padded(from, to)
	if r.topM, r.marginM, ok = o.heights.greatest(start, end); !ok {
		return r, "the height of tide then is not known."
	}
	if r.datumM, r.datumSaid, ok = o.heightDatum(h.Feature); !ok {
		return r, "how far the level of charted heights lies above that of the tide is not known, and it may lie below it."
	}
	r.waveM = o.waveAllowance(from, to)
	r.round()
	return r, ""
}

func (r *headroom) terms() []plan.Term {
	return []plan.Term{
		{Name: "clearance", Value: r.chartedM, Unit: "m", Why: r.said}, {Name: "height datum", Value: r.datumM, Unit: "m", Why: "above the tide's datum"},
		{Name: "tide", Value: -r.topM, Unit: "m", Why: "greatest height while she is there, 15 min more under way"}, {Name: "margin", Value: -r.marginM, Unit: "m", Why: "for the tide's own uncertainty"},
		{Name: "waves", Value: -r.waveM, Unit: "m", Why: "share of the significant wave height"}, {Name: "air draught", Value: -r.airM, Unit: "m", Why: "above the water"},
	}
}

// roomSlack notes when, after passing, the tide stands too high to pass.
func (o *obstacles) roomSlack(from, to, levelM float64, what string) {
	if o.onlyStops {
		return // leaveBy asks for what stops her alone
	}
	_, passed := o.when(from, to)
	for _, w := range o.heights.windows(levelM, false, passed.Add(-time.Hour), passed.Add(2*besideLow)) {
		if !w[0].After(passed.Add(underWayPad)) && !w[1].Before(passed) && w[1].Before(passed.Add(2*besideLow)) {
			o.slack = append(o.slack, slack{route: o.nextRoute(), left: w[1].Sub(passed)})
			return
		}
	}
}

// roomWindows is when the tide stands low enough on that day.
func (o *obstacles) roomWindows(levelM float64, at time.Time) [][2]time.Time {
	from, to := o.day(at)
	return o.heights.windowsToTell(levelM, false, from, to)
}

// sideroom checks the width between supports.
func (o *obstacles) sideroom(h *chart.Hit, from, to float64) {
	if h.Class != chart.BRIDGE {
		return
	}
	what, width, beam := named(h.Feature, "bridge"), h.Overhead.HorClrM, o.plan.Boat.BeamM
	f := plan.Finding{Check: plan.CheckBridge}
	switch {
	case !chart.Known(width):
		f.Severity, f.Code, f.Title, f.Detail = plan.NoData, "width-not-charted", "Width not charted", what+": the chart does not give the width between the supports."
	case beam == nil:
		f.Severity, f.Code, f.Title, f.Detail = plan.NoData, "beam-not-known", "Beam not known", what+": the boat's beam is not given."
	case width < *beam+supportsReserveM:
		f.Severity, f.Code, f.Title = plan.NotClear, "too-narrow", "Too narrow"
		f.Detail = fmt.Sprintf("%s: %.1f m between the supports, beam %.1f m + %.0f m wanted.", what, width, *beam, float64(supportsReserveM))
		f.Measured, f.Required, f.Unit = ptr(width), ptr(*beam+supportsReserveM), "m"
	default:
		return
	}
	o.add(h, from, to, f)
}

// clearanceAbove is the charted vertical clearance that counts, in metres above
// the height datum, and what it is.
func clearanceAbove(f *chart.Feature) (metres float64, said string) {
	v := f.Overhead
	switch {
	case v == nil:
		return chart.Unknown, ""
	case f.Class == chart.CBLOHD && chart.Known(v.VerCsaM):
		return v.VerCsaM, "Safe clearance"
	case f.Class == chart.CBLOHD:
		return v.VerClrM - cableReserveM, "Clearance less 5 m for the current,"
	}
	return spanClearance(v)
}

// spanClearance is that of a bridge, pipe, conveyor or crane: closed, if the thing is
// said to open; else the lower of what is charted, for where it is not said, nobody
// opens it for her. Plan-file contract, section 3.
func spanClearance(v *chart.Overhead) (metres float64, said string) {
	switch {
	case v.Opening:
		return v.VerCclM, "Clearance closed"
	case !chart.Known(v.VerCclM) || v.VerClrM <= v.VerCclM || v.Fixed && !chart.Known(v.VerClrM):
		return v.VerClrM, "Clearance"
	}
	return v.VerCclM, "Clearance closed, the lower charted,"
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
// taken, and said: heights are charted above a high water or the mean level, so
// there is then more room than said. ok is false where that is not sure, the
// tide's datum being no lower one.
func (c *checker) heightDatum(f *chart.Feature) (metres float64, said string, ok bool) {
	code, t := heightDatumCode(f), c.plan.Tide
	if t == nil {
		return 0, "", false
	}
	if code != 0 && code == t.DatumOf() {
		return 0, "", true
	}
	if t.HeightDatumM != nil && f.Set != nil && code == f.Set.HeightDatum && !c.severalHeightDatums() {
		return *t.HeightDatumM, "", true
	}
	if level, known := t.LevelOf(code); known {
		return level, "", true
	}
	return 0, " How far the level of charted heights lies above the tide's datum is not known: taken as nothing.", surelyAbove(code, t.DatumOf())
}

// severalHeightDatums tells whether the charts have heights above more than one
// level: then it is not known of which the plan speaks.
func (c *checker) severalHeightDatums() bool {
	first := 0
	for _, s := range c.chart.Sets() {
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

func overheadName(k chart.Class) string {
	switch k {
	case chart.BRIDGE:
		return "bridge"
	case chart.CBLOHD:
		return "overhead cable"
	case chart.PIPOHD:
		return "overhead pipe"
	case chart.CRANES:
		return "crane"
	}
	return "conveyor"
}
