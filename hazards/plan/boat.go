package plan

import (
	"fmt"
	"math"
)

// Boat is the boat as she is loaded for the day.
type Boat struct {
	Name        string
	LengthM     *float64 // over all; nil is unknown
	BeamM       *float64 // nil is unknown
	DraughtM    float64  // at rest, loaded, drives and tabs down; required
	AirDraughtM *float64 // above the water; nil is unknown
	CruiseKn    float64  // required
	HarbourKn   float64  // limits without a figure, and near berths
	WarmUpKn    float64
	WarmUpMin   float64
	CoolDownMin float64
	PlaningKn   float64
	HumpM       float64 // how much deeper she sits getting on and off the plane
	BlockCoeff  float64
	SlowDownM   float64 // to come from cruising speed to a limit
	RoughKn     float64
	SeaLimitM   float64  // significant wave height above which she runs at RoughKn
	SeaStopM    float64  // significant wave height above which she does not go
	Night       bool     // happy to be under way in the dark
	WindageM2   *float64 // as stated; see Windage
	HoldingN    *float64 // what her anchor holds; nil is unknown
	Fuel        *Fuel    // nil is unknown
	Rode        *Rode    // nil is unknown
	// DeviceFromBowM is how far behind the bow the device lies that watches the anchor.
	DeviceFromBowM float64

	kept
}

// DefaultBoat returns a boat with the defaults of the contract. Her draught and
// cruising speed are 0, which no complete plan has.
func DefaultBoat() Boat {
	return Boat{
		HarbourKn: 5, WarmUpKn: 7, WarmUpMin: 15, CoolDownMin: 5,
		PlaningKn: 14, HumpM: 0.35, BlockCoeff: 0.4, SlowDownM: 150,
		RoughKn: 8, SeaLimitM: 0.8, SeaStopM: 1.2,
	}
}

// Windage returns the area that the wind takes hold of, in square metres: as
// stated, else beam × 1.8 m, or beam × 0.23 of the length where that is more; ok is
// false where it is not stated and her beam or length is not known. The default is
// fitted to published loads, see rode.WindLoadN.
func (b *Boat) Windage() (m2 float64, ok bool) {
	switch {
	case b.WindageM2 != nil:
		return *b.WindageM2, true
	case b.BeamM != nil && b.LengthM != nil:
		return *b.BeamM * math.Max(1.8, 0.23**b.LengthM), true
	}
	return 0, false
}

func (b *Boat) fields() []field {
	return []field{
		text("name", &b.Name),
		optional("length_m", &b.LengthM, numberRange{1, 100, "metres"}),
		optional("beam_m", &b.BeamM, numberRange{0.3, 30, "metres"}),
		needed("draught_m", &b.DraughtM, numberRange{0.05, 20, "metres"}),
		optional("air_draught_m", &b.AirDraughtM, numberRange{0, 100, "metres"}),
		needed("cruise_kn", &b.CruiseKn, numberRange{0.5, 100, "knots"}),
		number("harbour_kn", &b.HarbourKn, 5, numberRange{0.5, 50, "knots"}),
		number("warm_up_kn", &b.WarmUpKn, 7, numberRange{0.5, 50, "knots"}),
		number("warm_up_min", &b.WarmUpMin, 15, numberRange{0, 240, "minutes"}),
		number("cool_down_min", &b.CoolDownMin, 5, numberRange{0, 240, "minutes"}),
		number("planing_kn", &b.PlaningKn, 14, numberRange{1, 100, "knots"}),
		number("hump_m", &b.HumpM, 0.35, numberRange{0, 5, "metres"}),
		number("block_coefficient", &b.BlockCoeff, 0.4, numberRange{0.1, 1, ""}),
		number("slow_down_m", &b.SlowDownM, 150, numberRange{0, 5000, "metres"}),
		number("rough_kn", &b.RoughKn, 8, numberRange{0.5, 100, "knots"}),
		number("sea_limit_m", &b.SeaLimitM, 0.8, numberRange{0, 20, "metres"}),
		number("sea_stop_m", &b.SeaStopM, 1.2, numberRange{0, 20, "metres"}),
		flag("night", &b.Night),
		optional("windage_m2", &b.WindageM2, numberRange{0.1, 1000, "square metres"}),
		optional("holding_n", &b.HoldingN, numberRange{1, 1e7, "newtons"}),
		nested("fuel", &b.Fuel, func() Fuel { return Fuel{} }),
		nested("rode", &b.Rode, DefaultRode),
		number("device_from_bow_m", &b.DeviceFromBowM, 0, numberRange{0, 100, "metres"}),
	}
}

// Fuel is what the boat carries and burns.
type Fuel struct {
	TankL   *float64 // nil is unknown
	InTankL *float64 // at departure; nil is unknown
	Burn    []Burn   // none: fuel is not computed
	Reserve *float64 // fraction of InTankL left at the end, as stated; see ReserveL

	kept
}

// DefaultReserve is the fraction of the fuel in the tank that is left at the end.
const DefaultReserve = 1.0 / 3

// ReserveL returns the litres to be left at the end; ok is false where it is not
// known what is in the tank.
func (f *Fuel) ReserveL() (litres float64, ok bool) {
	if f.InTankL == nil {
		return 0, false
	}
	if f.Reserve != nil {
		return *f.InTankL * *f.Reserve, true
	}
	return *f.InTankL * DefaultReserve, true
}

func (f *Fuel) fields() []field {
	return []field{
		optional("tank_l", &f.TankL, numberRange{1, 100_000, "litres"}),
		checked(optional("in_tank_l", &f.InTankL, numberRange{0, 100_000, "litres"}), f.overfull),
		list("burn", &f.Burn),
		optional("reserve", &f.Reserve, numberRange{0, 1, "as a fraction of in_tank_l"}),
	}
}

// overfull says so where more is in the tank than it holds.
func (f *Fuel) overfull() string {
	if f.TankL == nil || f.InTankL == nil || *f.InTankL <= *f.TankL {
		return ""
	}
	return said(*f.InTankL) + " litres are more than the tank holds, " + said(*f.TankL) + " litres (tank_l); what is in it when she leaves is wanted"
}

// Burn is one point of the burn curve.
type Burn struct {
	Kn  float64
	Lph float64 // litres an hour

	kept
}

func (b *Burn) fields() []field {
	return []field{
		required(number("kn", &b.Kn, 0, numberRange{0, 100, "knots"})),
		required(number("lph", &b.Lph, 0, numberRange{0, 5000, "litres an hour"})),
	}
}

// Rode is the anchor rode aboard.
type Rode struct {
	ChainM      *float64 // nil is unknown
	ChainKgPerM *float64 // nil is unknown
	RopeM       float64
	BowRollerM  float64 // above the water
	// MarksM are the lengths at which her chain and rope are marked, from the anchor;
	// none: not marked, or not known.
	MarksM []float64

	kept
}

// DefaultRode returns a rode with the defaults of the contract.
func DefaultRode() Rode { return Rode{BowRollerM: 1.0} }

// RodeGiven reports whether the boat says what rode she has.
func (b *Boat) RodeGiven() bool {
	return b.Rode != nil && (b.Rode.ChainM != nil || b.Rode.RopeM > 0)
}

func (r *Rode) fields() []field {
	return []field{
		r.half("chain_m", optional("chain_m", &r.ChainM, numberRange{0, 1000, "metres"}), r.noLength),
		r.half("chain_kg_per_m", optional("chain_kg_per_m", &r.ChainKgPerM, numberRange{0.1, 100, "kilograms a metre"}), r.noWeight),
		number("rope_m", &r.RopeM, 0, numberRange{0, 2000, "metres"}),
		number("bow_roller_m", &r.BowRollerM, 1.0, numberRange{0, 10, "metres"}),
		r.marks(),
	}
}

// half adds to a field what a rode lacks, which is no rode to check: a plan with it can be
// opened and worked on.
func (r *Rode) half(key string, f field, lacks func() string) field {
	value := f.check
	f.check = func(c *checker) {
		value(c)
		if msg := lacks(); msg != "" {
			c.incomplete(key, msg)
		}
	}
	return f
}

func (r *Rode) noLength() string {
	switch {
	case r.ChainM == nil:
		return "missing; the metres of chain aboard are wanted, 0 where all of the rode is rope"
	case *r.ChainM == 0 && r.RopeM == 0:
		return "no chain, and no rope in rope_m; the length of one of them is wanted, or a boat without rode"
	}
	return ""
}

// noWeight names the weights of common chain, from makers' tables to DIN 766.
func (r *Rode) noWeight() string {
	if r.ChainM == nil || !(*r.ChainM > 0) || r.ChainKgPerM != nil {
		return ""
	}
	return "missing; what a metre of the chain weighs is wanted: of 6 mm about 0.8 kg, of 8 mm 1.4, of 10 mm 2.2, of 12 mm 3.1"
}

func (r *Rode) marks() field {
	f := numbers("marks_m", &r.MarksM, numberRange{0.1, 3000, "metres"})
	value := f.check
	f.check = func(c *checker) {
		value(c)
		for i := 1; i < len(r.MarksM); i++ {
			if r.MarksM[i] <= r.MarksM[i-1] {
				c.wrong(fmt.Sprintf("marks_m[%d]", i), said(r.MarksM[i])+" is not beyond the mark before it, "+said(r.MarksM[i-1])+"; metres from the anchor that increase are wanted")
			}
		}
	}
	return f
}
