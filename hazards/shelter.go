package hazards

import (
	"math"
	"time"

	"keelroom/geo"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
)

// stayStep is how often the sea at a stay is looked at.
const stayStep = 30 * time.Minute

// sea works out the sea where she lies and how far the wind may shift. A berth
// alongside is taken as sheltered by its harbour: only its figures are given.
// What is known of the stay is judged even where the wind does not reach over
// all of it.
func (s *stayCheck) sea() {
	s.gusts()
	worst, seen, whole := s.lookOut()
	s.seaMissing = !whole
	if !whole && s.exposed() {
		s.add(plan.Finding{Check: plan.CheckShelter, Severity: plan.NoData, Facts: facts.NoWindAtStay{}})
		s.add(plan.Finding{Check: plan.CheckWindShift, Severity: plan.NoData, Facts: facts.NoWindAtStay{Room: true}})
	}
	if !seen {
		return
	}
	if whole { // the greatest of a part is no figure
		s.out.SeaGreatestM, s.out.FetchNm, s.out.WindFromDeg = ptr(s.hsM), ptr(nm(worst.FetchM)), ptr(geo.Bearing(worst.FromDeg))
	}
	if !s.exposed() {
		return
	}
	s.shelter(worst)
	if whole {
		s.keepHere(plan.CheckShelter, s.hsM, s.plan.Margins.AnchoredSeaM, "m")
	}
	if whole && !s.onlyStops { // its findings stop nobody
		s.windShift()
	}
}

// exposed: at anchor or on a mooring.
func (s *stayCheck) exposed() bool { return s.stop.Stay.Kind != plan.AtBerth }

// lookOut takes the sea at all times at which a stay is looked at. seen is false
// where none of it is known, whole where all of it is.
func (s *stayCheck) lookOut() (worst sea.State, seen, whole bool) {
	greatest := -1.0
	whole = true
	look := func(t time.Time) {
		state, ok := s.seaLying(s.stop.Stay.At, t)
		if !ok || state.SwellUnknown {
			whole = false
		}
		if !ok {
			return
		}
		seen = true
		s.noteSwell(&state)
		s.hsM, s.plusHsM, s.openHsM = math.Max(s.hsM, state.HsM), math.Max(s.plusHsM, state.PlusHsM), math.Max(s.openHsM, state.WithOpenHsM)
		if state.WithOpenHsM > greatest {
			greatest, worst, s.worstAt = state.WithOpenHsM, state, t
		}
	}
	for _, t := range s.times() {
		look(t)
	}
	return worst, seen, whole
}

// strongGustKn is the gust above which any stay wants care (at-anchor contract,
// section 1: judgement).
const strongGustKn = 34

// gusts looks at the strongest of the stay: at its ends and at each row of the
// wind between, gusts being linear between rows.
func (s *stayCheck) gusts() {
	strongest, at := 0.0, s.stop.Arrive
	for _, t := range s.times() {
		if w, ok := s.wind.At(t); ok && w.GustKn > strongest {
			strongest, at = w.GustKn, t
		}
	}
	s.keepHere(plan.CheckSea, strongest, strongGustKn, "kn")
	if strongest <= strongGustKn {
		return
	}
	s.add(plan.Finding{Check: plan.CheckSea, Severity: plan.Care, Time: ptr(at),
		Facts: facts.StrongGusts{Kn: strongest, LimitKn: strongGustKn, When: facts.At(at)}, Measured: ptr(strongest), Required: ptr(float64(strongGustKn)), Unit: "kn"})
}

func (s *stayCheck) shelter(worst sea.State) {
	limit := s.plan.Margins.AnchoredSeaM
	f := plan.Finding{Check: plan.CheckShelter, Severity: plan.Care, Required: ptr(limit), Unit: "m", Time: ptr(s.worstAt)}
	what := facts.Shelter{What: facts.ShelterDoubtful, HsM: plan.CeilHundredths(s.hsM), LimitM: plan.FloorHundredths(limit)}
	switch {
	case plan.Exceeds(s.hsM, limit):
		f.Severity, what.What, f.Measured = plan.NotClear, facts.NoShelter, ptr(s.hsM)
	case plan.Exceeds(s.plusHsM, limit):
		f.Measured, what.PlusM = ptr(s.plusHsM), plan.CeilHundredths(s.plusHsM)
	case plan.Exceeds(s.openHsM, limit):
		f.Measured, what.What, what.OpenM, what.OpenKm = ptr(s.openHsM), facts.OpenWater, plan.CeilHundredths(s.openHsM), s.plan.Margins.OpenFetchKm
		f.Facts = what
		s.add(f)
		return
	default:
		return
	}
	what.Wind, what.When = windOf(&worst), facts.At(s.worstAt)
	f.Facts = what
	s.add(f)
}

// windShift: how far the wind may back or veer before the sea passes the
// limit, the highest water of the stay deciding which banks shelter.
func (s *stayCheck) windShift() {
	if s.surelyRoom() {
		return
	}
	upTo := 180.0
	if s.brief {
		upTo = s.plan.Margins.WindRoomDeg // more room gives no finding
	}
	within, withOpen, ok := s.checker.sea.WindRoomUpTo(s.stop.Stay.At, s.stop.Arrive, s.stop.Leave, s.highest(), s.plan.Margins.AnchoredSeaM, upTo)
	if !ok {
		return
	}
	s.out.WindRoom = &plan.WindRoom{BackingDeg: ptr(withOpen.BackingDeg), VeeringDeg: ptr(withOpen.VeeringDeg)}
	room := math.Min(withOpen.BackingDeg, withOpen.VeeringDeg)
	s.keepHere(plan.CheckWindShift, room, s.plan.Margins.WindRoomDeg, "deg")
	if room >= s.plan.Margins.WindRoomDeg {
		return
	}
	if room == 0 {
		s.add(plan.Finding{Check: plan.CheckWindShift, Severity: plan.Care, Measured: ptr(room), Required: ptr(s.plan.Margins.WindRoomDeg), Unit: "deg",
			Facts: facts.NoWindRoom{LimitM: plan.FloorHundredths(s.plan.Margins.AnchoredSeaM)}})
		return
	}
	s.add(plan.Finding{Check: plan.CheckWindShift, Severity: plan.Care, Measured: ptr(room), Required: ptr(s.plan.Margins.WindRoomDeg), Unit: "deg",
		Facts: facts.LittleWindRoom{Veering: withOpen.VeeringDeg <= withOpen.BackingDeg, RoomDeg: math.Floor(room), WantedDeg: s.plan.Margins.WindRoomDeg,
			LimitM:   plan.FloorHundredths(s.plan.Margins.AnchoredSeaM),
			OpenOnly: math.Min(within.BackingDeg, within.VeeringDeg) >= s.plan.Margins.WindRoomDeg}})
}

// surelyRoom tells, where only findings count, that the limit is kept however the wind
// shifts within what is wanted: by a bound, which departures of one day share.
func (s *stayCheck) surelyRoom() bool {
	if !s.brief || s.reaches == nil {
		return false
	}
	spell := s.spellOf(s.stop.Arrive, s.stop.Leave)
	most := spell.MostShifted(s.viewWhile(s.stop.Stay.At, s.stop.Arrive, s.stop.Leave), s.plan.Margins.WindRoomDeg+sea.RoomStepDeg)
	return spell.Known == sea.Whole && most.WithOpenHsM <= s.plan.Margins.AnchoredSeaM
}

// highest and lowest are when the water stands so while she lies there.
func (s *stayCheck) highest() time.Time { return s.turning(1) }
func (s *stayCheck) lowest() time.Time  { return s.turning(-1) }

func (s *stayCheck) turning(sign float64) time.Time {
	if s.heights.tide == nil {
		return s.stop.Arrive
	}
	best, at := math.Inf(-1), s.stop.Arrive
	look := func(t time.Time) {
		if h, ok := s.heights.tide.HeightM(t); ok && sign*h > best {
			best, at = sign*h, t
		}
	}
	look(s.stop.Arrive)
	look(s.stop.Leave)
	for _, e := range s.heights.tide.Events(s.stop.Arrive, s.stop.Leave) {
		look(e.Time)
	}
	return at
}
