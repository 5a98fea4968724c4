package hazards

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// swingMet is a thing that she would swing onto, on some bearings.
type swingMet struct {
	what    string // facts.SwingWater to SwingMoored
	f       *chart.Feature
	at      orb.Point // of a sounding
	seen    *chart.Seen
	sum     *sum          // of water, or of a danger with a depth
	unknown facts.Unknown // why the water is not known
	turnDeg float64       // how far the wind must turn further; 0: it need not
	onDeg   float64       // a bearing of it that is nearest to where she lies
}

// swingSeverity is the table of the contract: what is met where she lies, and what only
// if the wind turned further.
var swingSeverity = map[string][2]plan.Severity{
	facts.SwingWater:    {plan.NotClear, plan.Care},
	facts.SwingLand:     {plan.NotClear, plan.Care},
	facts.SwingObject:   {plan.NotClear, plan.Care},
	facts.SwingDanger:   {plan.NotClear, plan.Care},
	facts.SwingOverhead: {plan.NotClear, plan.Care},
	facts.SwingUnknown:  {plan.NoData, plan.Care},
	facts.SwingTraffic:  {plan.Care, plan.Care},
	facts.SwingMoored:   {plan.Care, plan.Note},
}

// look notes all that she would swing onto in the disc.
func (w *swingCircle) look(d *chart.Disc) {
	w.each(d, func(m swingMet) {
		m.turnDeg, m.onDeg, _ = w.lies.sector.TurnTo(m.seen.Bearings)
		w.met = append(w.met, m)
	})
}

// stops calls fn for all that is not clear where she lies, or not known.
func (w *swingCircle) stops(d *chart.Disc, fn func(*chart.Seen)) {
	w.each(d, func(m swingMet) {
		if swingSeverity[m.what][0] >= plan.NoData {
			fn(m.seen)
		}
	})
}

// each calls fn for all in the disc that matters to who swings there.
func (w *swingCircle) each(d *chart.Disc, fn func(swingMet)) {
	for i := range d.Things {
		t := &d.Things[i]
		if t.Class == chart.SOUNDG {
			for k := range t.Soundings {
				x := &t.Soundings[k]
				w.depth(swingMet{what: facts.SwingWater, f: t.Feature, at: x.At.Position(), seen: &x.Seen}, x.DepthM, fn)
			}
			continue
		}
		w.thing(d, t, fn)
	}
	if d.Unknown != nil {
		fn(swingMet{what: facts.SwingUnknown, seen: d.Unknown, unknown: facts.Unknown{Why: facts.NotHere}})
	}
}

// thing calls fn for a feature that matters.
func (w *swingCircle) thing(d *chart.Disc, t *chart.InDisc, fn func(swingMet)) {
	m := swingMet{f: t.Feature, seen: &t.Seen}
	switch k := t.Class; {
	case t.RefusedFeature() && w.toldHere(t.Feature):
		return
	case t.UnknownWater(), t.UnreadMark():
		m.what, m.unknown = facts.SwingUnknown, whyUnknown(t.Feature)
	case k.WaterArea(), k == chart.DEPCNT && chart.Known(t.DepthMinM):
		m.what = facts.SwingWater
		w.depth(m, t.DepthMinM, fn)
		return
	case k == chart.LNDARE || k.Shoreline():
		m.what = facts.SwingLand
	case k.Danger():
		w.danger(m, fn)
		return
	case k.NoGo():
		m.what = facts.SwingObject
	case k.CloseBy():
		if m.what = w.closeBy(d, t); m.what == "" {
			return
		}
	case k.Overhead():
		if w.clearUnder(t.Feature) {
			return
		}
		m.what = facts.SwingOverhead
	case k == chart.FAIRWY, k == chart.TSSLPT, k == chart.TSEZNE, k == chart.RECTRC, k == chart.FERYRT:
		m.what = facts.SwingTraffic
	case k == chart.ACHBRT:
		m.what = facts.SwingMoored
	default:
		return
	}
	fn(m)
}

// depth calls fn where a depth leaves too little water at the lowest water of the stay,
// or cannot be compared with the tide.
func (w *swingCircle) depth(m swingMet, depthM float64, fn func(swingMet)) {
	if !w.tide.known {
		return // told by itself
	}
	x := w.chartedSum(claim{f: m.f, sounding: m.at, depthM: depthM - w.shortfall.metres}, w.tide.leastM, w.tide.marginM, w.zones)
	x.datumOK = x.datumOK && w.shortfall.known
	switch {
	case !plan.Enough(x.clearanceM(), x.requiredM):
		m.sum = &x
	case !x.datumOK:
		m.what, m.unknown = facts.SwingUnknown, facts.Unknown{Why: facts.OtherLevel}
	default:
		return
	}
	fn(m)
}

// danger: without a depth it counts as impassable, else by its depth.
func (w *swingCircle) danger(m swingMet, fn func(swingMet)) {
	m.what = facts.SwingDanger
	switch passable(m.f, w.plan.Choices.AcceptExpsou1) {
	case impassable:
		fn(m)
	case hasDepth:
		w.depth(m, m.f.DepthMinM, fn)
	}
}

// closeBy tells what a mark, a mooring structure or a crane is to who swings onto it:
// what floats gives way, but for what floats on a danger. A daymark is spoken for by what
// carries it, and her own mooring is none of them.
func (w *swingCircle) closeBy(d *chart.Disc, t *chart.InDisc) string {
	switch {
	case t.Class == chart.DAYMAR && slices.ContainsFunc(d.Things, func(o chart.InDisc) bool { return carries(o.Feature, t.Feature) }), w.passed.mooredTo(&chart.Hit{Feature: t.Feature}):
		return ""
	case t.Class.IsolatedDanger():
		return facts.SwingDanger
	case t.Afloat():
		return facts.SwingMoored
	}
	return facts.SwingObject
}

// clearUnder tells whether there is room for her under a thing while she lies there.
func (w *swingCircle) clearUnder(f *chart.Feature) bool {
	r, missing := w.passed.roomUnder(&chart.Hit{Feature: f}, 0, 0)
	return missing == 0 && plan.Enough(r.roomM(), w.plan.Margins.OverheadM)
}

// report tells of each kind the worst where she lies, and of the rest of the circle what
// the wind must turn least for; the others are counted.
func (w *swingCircle) report() {
	type part struct {
		what string
		only bool // if the wind turned further
	}
	worst, others := map[part]int{}, map[part]int{}
	var order []part
	for i := range w.met {
		p := part{w.met[i].what, w.met[i].turnDeg > 0}
		k, seen := worst[p]
		if !seen {
			order, worst[p] = append(order, p), i
			continue
		}
		others[p]++
		if w.met[i].before(&w.met[k], w.lies.sector) {
			worst[p] = i
		}
	}
	for _, p := range order {
		w.tell(&w.met[worst[p]], others[p])
	}
}

// before tells which of two of a kind speaks: of water the one that leaves less, else the
// one that is met first.
func (m *swingMet) before(o *swingMet, sector geo.Arcs) bool {
	if m.turnDeg > 0 || m.what != facts.SwingWater {
		a, b := m.nearest(sector), o.nearest(sector)
		return cmp.Or(cmp.Compare(m.turnDeg, o.turnDeg), cmp.Compare(a, b)) < 0
	}
	return m.sum.clearanceM() < o.sum.clearanceM()
}

// nearest is how far off it is met: where she lies, or on any bearing.
func (m *swingMet) nearest(sector geo.Arcs) float64 {
	if m.turnDeg > 0 {
		return m.seen.DistM
	}
	return nearestOn(m.seen, sector)
}

// tell adds the finding.
func (w *swingCircle) tell(m *swingMet, others int) {
	of := w.lies.sector
	if m.turnDeg > 0 {
		of = geo.Arcs{{FromDeg: m.onDeg, ToDeg: m.onDeg}}
	}
	metres, deg, ok := m.seen.Nearest(of)
	if !ok {
		metres, deg = m.seen.DistM, m.onDeg
	}
	said := facts.Swing{What: m.what, If: m.turnDeg > 0, TurnDeg: math.Round(m.turnDeg), WindDeg: math.Round(geo.Bearing(m.onDeg + 180)), DistanceM: math.Round(metres), BearingDeg: math.Round(deg),
		RadiusM: math.Ceil(w.radiusM), Why: m.unknown, AllRound: w.lies.whole, Others: others}
	f := plan.Finding{Check: plan.CheckSwing, Severity: swingSeverity[m.what][0], Measured: ptr(metres), Required: ptr(w.radiusM), Unit: "m"}
	if said.If {
		f.Severity = swingSeverity[m.what][1]
	}
	if m.f != nil {
		said.Thing, said.UnreadMark, f.Source = swingThing(m.f), m.f.UnreadMark(), sourceOf(m.f)
		f.Source.At = m.at
	}
	if m.sum != nil {
		said.HaveM, said.WantedM = plan.FloorHundredths(m.sum.clearanceM()), plan.CeilHundredths(m.sum.requiredM)
		f.Measured, f.Required, f.Unit, f.Made = m.sum.figures(tooLittle, &w.plan.Margins)
		f.Time = ptr(m.sum.start)
	}
	f.Facts = said
	w.addAt(f, geo.Direct(w.stop.Stay.At, deg, metres))
}

// swingThing is what a thing is called that she would swing onto.
func swingThing(f *chart.Feature) facts.Thing {
	switch {
	case f.Class.Danger():
		return dangerNamed(f)
	case f.RefusedFeature():
		return facts.Thing{Class: f.Meant()}
	}
	return thingNamed(f)
}
