package plan

// SlowKn is the speed at or below which the slow corridor holds, and above which
// the fast margins do.
const SlowKn = 8

// Margins is what the skipper keeps in hand.
type Margins struct {
	UnderKeelM         float64
	UnderKeelFastM     float64 // above SlowKn
	ComfortDepthM      float64 // less water than this above SlowKn is care
	AnchoredUnderKeelM float64
	CorridorM          float64 // each side
	CorridorSlowM      float64 // each side, at or below SlowKn
	HazardM            float64 // added to the corridor for dangers
	BerthM             float64
	MarkM              float64
	MarkOffM           float64 // from buoys, beacons and mooring structures
	OverheadM          float64
	TideM              float64
	WaveFraction       float64 // of the significant wave height
	AnchoredSeaM       float64
	WindowMin          float64
	WindRoomDeg        float64
	OpenFetchKm        float64
	Scope              *float64 // as stated; see ScopeFor
	PositionM          float64  // how well the place of an anchor is known

	kept
}

// DefaultMargins returns the defaults of the contract.
func DefaultMargins() Margins {
	return Margins{
		UnderKeelM: 0.5, UnderKeelFastM: 1.0, ComfortDepthM: 3.0, AnchoredUnderKeelM: 1.0,
		CorridorM: 25, CorridorSlowM: 8, HazardM: 10, BerthM: 150, MarkM: 200, MarkOffM: 10,
		OverheadM: 0.5, TideM: 0.3, WaveFraction: 1.0, AnchoredSeaM: 0.3,
		WindowMin: 45, WindRoomDeg: 30, OpenFetchKm: 20, PositionM: 10,
	}
}

// UnderKeelAt returns the water wanted under the keel under way at that speed.
func (m *Margins) UnderKeelAt(kn float64) (metres float64) {
	if kn > SlowKn {
		return m.UnderKeelFastM
	}
	return m.UnderKeelM
}

// CorridorAt returns the half-width of the corridor at that speed.
func (m *Margins) CorridorAt(kn float64) (metres float64) {
	if kn > SlowKn {
		return m.CorridorM
	}
	return m.CorridorSlowM
}

// ScopeFor returns the scope wanted: as stated, else 7.0 where rope is laid, else
// 3.0 for gusts to 12 kn and 5.0 above (common practice, no source).
func (m *Margins) ScopeFor(gustKn float64, ropeLaid bool) float64 {
	switch {
	case m.Scope != nil:
		return *m.Scope
	case ropeLaid:
		return 7.0
	case gustKn <= 12:
		return 3.0
	}
	return 5.0
}

func (m *Margins) fields() []field {
	metres := func(to float64) numberRange { return numberRange{0, to, "metres"} }
	return []field{
		number("under_keel_m", &m.UnderKeelM, 0.5, metres(20)),
		number("under_keel_fast_m", &m.UnderKeelFastM, 1.0, metres(20)),
		number("comfort_depth_m", &m.ComfortDepthM, 3.0, metres(100)),
		number("anchored_under_keel_m", &m.AnchoredUnderKeelM, 1.0, metres(20)),
		number("corridor_m", &m.CorridorM, 25, metres(2000)),
		number("corridor_slow_m", &m.CorridorSlowM, 8, metres(2000)),
		number("hazard_m", &m.HazardM, 10, metres(2000)),
		number("berth_m", &m.BerthM, 150, metres(2000)),
		number("mark_m", &m.MarkM, 200, metres(10_000)),
		number("mark_off_m", &m.MarkOffM, 10, metres(2000)),
		number("overhead_m", &m.OverheadM, 0.5, metres(20)),
		number("tide_m", &m.TideM, 0.3, metres(10)),
		number("wave_fraction", &m.WaveFraction, 1.0, numberRange{0, 3, ""}),
		number("anchored_sea_m", &m.AnchoredSeaM, 0.3, metres(10)),
		number("window_min", &m.WindowMin, 45, numberRange{0, 1440, "minutes"}),
		number("wind_room_deg", &m.WindRoomDeg, 30, numberRange{0, 180, "degrees"}),
		number("open_fetch_km", &m.OpenFetchKm, 20, numberRange{0.1, 5000, "kilometres"}),
		optional("scope", &m.Scope, numberRange{1, 30, ""}),
		number("position_m", &m.PositionM, 10, metres(200)),
	}
}
