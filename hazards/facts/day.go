package facts

import "github.com/paulmach/orb"

// Light is being under way without the sun.
type Light struct {
	plain
	What     string // Dark or Twilight
	From, To Clock
}

// Code is what is the matter.
func (l Light) Code() string { return l.What }

// FuelNotKnown is a burn curve that is missing or ends below FastestKn.
type FuelNotKnown struct {
	plain
	FastestKn float64 // 0: no curve
}

// Code is what is the matter.
func (FuelNotKnown) Code() string { return CodeFuelNotKnown }

// Fuel is too little of it. Litres, what is burnt and kept rounded up, the rest down.
type Fuel struct {
	plain
	What                             string // CodeTankNotKnown, CodeNotEnoughFuel or CodeIntoReserve
	BurnsL, TankL, LeavesL, ReserveL float64
}

// Code is what is the matter.
func (f Fuel) Code() string { return f.What }

// Late is coming to a stay, or back, after the time for it.
type Late struct {
	plain
	What       string // CodeLateAtStay or CodeBackTooLate
	Comes, Due Clock
}

// Code is what is the matter.
func (l Late) Code() string { return l.What }

// WrongTide is a tide station that is far off, or on another water.
type WrongTide struct {
	plain
	What    string // CodeFarTide or CodeOtherTide
	Station string // "" without a name
	Km      float64
	At      orb.Point // the place of the day
}

// Code is what is the matter.
func (w WrongTide) Code() string { return w.What }

// Zone is a zone of clock times and its offset then.
type Zone struct {
	Name      string
	OffsetMin int
}

// OtherClock is a clock that is not that of the place: the station's is another, or
// the sun's.
type OtherClock struct {
	plain
	Plan     Zone
	Station  string
	Own      Zone      // of the station; without a name: by the sun
	At       orb.Point // where the day begins
	ApartMin int
}

// Code is what is the matter.
func (OtherClock) Code() string { return CodeOtherClock }

// Coverage is water of which no chart in force tells.
type Coverage struct {
	plain
	What string // OutsideCharts or PrivateOnly
}

// Code is what is the matter.
func (c Coverage) Code() string { return c.What }

// Passage is a passage through a speed zone.
type Passage struct {
	Enter, Leave Clock
	SeasonEnds   bool // or begins, while she is inside
	Slows        bool
	SlowFromKn   float64
	SlowAt       Clock
	SlowM        float64
}

// SpeedLimit is one that holds for her.
type SpeedLimit struct {
	Name    string // "" for a zone without one
	LimitKn float64
	Passage Passage
	Info    string
}

// Code is what is the matter.
func (SpeedLimit) Code() string { return CodeSpeedLimit }

// limitIn is a limit and where it holds.
type limitIn struct {
	kn   float64
	name string
}

// Subject is the limit and the zone.
func (s SpeedLimit) Subject() any { return limitIn{s.LimitKn, s.Name} }

// LimitNotStated is a zone whose limit is not stated for her.
type LimitNotStated struct {
	plain
	Name    string
	Others  Limits  // for other vessels
	LimitKn float64 // what is planned
	Passage Passage
	Info    string
}

// Code is what is the matter.
func (LimitNotStated) Code() string { return CodeLimitNotStated }

// AskedAbove is a speed of the plan above a limit.
type AskedAbove struct {
	plain
	AskedKn, LimitKn float64
}

// Code is what is the matter.
func (AskedAbove) Code() string { return CodeAskedAbove }
