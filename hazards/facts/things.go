package facts

import "keelroom/geo/chart"

// Solid is what no boat passes over.
type Solid struct {
	plain
	What    string // Land or InTheWay, or the same in place: only within the survey's position accuracy
	Thing   Thing
	Crossed bool // by the track, or it is where she lies
	AtStay  bool
}

// Code is what is the matter.
func (s Solid) Code() string { return s.What }

// ByEye is a thing close by near a berth.
type ByEye struct {
	plain
	Thing Thing
}

// Code is what is the matter.
func (ByEye) Code() string { return CodeByEye }

// Stance is how a thing stands in the water.
type Stance uint8

// How a thing stands in the water.
const (
	Stands Stance = iota
	Floats
	Moored
)

// TooClose is a thing that is passed too close by.
type TooClose struct {
	plain
	What      string // FixedMarkClose, BuoyClose, LightAfloatClose, InTheWay or CodeIsolatedDanger
	Thing     Thing
	Stance    Stance
	DistanceM float64 // in tenths, rounded down; 0: on the track
	WantedM   float64
	AtStay    bool
}

// Code is what is the matter.
func (t TooClose) Code() string { return t.What }

// Danger is a rock, wreck or obstruction that is no matter of its depth alone.
type Danger struct {
	What   string // DangerNoDepth, DangerInPlace, DangerHarmless or DepthDoubtful
	Thing  Thing
	DepthM float64 // DepthDoubtful: in tenths, rounded down
	AtStay bool
}

// Code is what is the matter.
func (d Danger) Code() string { return d.What }

// Subject is what a danger is called that is said to be none.
func (d Danger) Subject() any {
	if d.What != DangerHarmless {
		return nil
	}
	return Thing{Class: d.Thing.Class, Kind: d.Thing.Kind}
}

// PoorSurvey is water whose survey says little of where things lie. CatZoc is 0
// where it is not stated.
type PoorSurvey struct {
	plain
	CatZoc int
}

// Code is what is the matter.
func (PoorSurvey) Code() string { return CodePoorSurvey }

// Waters is water set aside, troubled, or to be known: its title is what it is,
// with its name.
type Waters struct {
	What string // Ice, BrokenWater, Gate to OffshoreProduction, CautionArea, Anchorage
	Name string
	Lies Lies
	Info string // the chart's own words
}

// Code is what is the matter.
func (w Waters) Code() string { return w.What }

// Subject is the name.
func (w Waters) Subject() any { return w.Name }

// Area is one that prohibits or restricts.
type Area struct {
	What       string // EntryProhibited, EntryProhibitedClose, EntryRestricted, RuleNotStated or RestrictedArea
	Rule       Rule   // the one that decides
	Restricted bool   // it is charted as a restricted area
	Name       string
	Lies       Lies
	Restrn     chart.Codes // all that it says, but for its speed limit
	CatRea     chart.Codes
	Info       string
}

// Code is what is the matter.
func (a Area) Code() string { return a.What }

// Subject is the rule.
func (a Area) Subject() any { return a.Rule }

// Overhead is the room above her under a thing. Whole millimetres.
type Overhead struct {
	plain
	What     string // OverheadEnough or TooLittleOverhead
	Thing    Thing
	RoomM    float64
	WantedM  float64
	When     Clock // TooLittleOverhead
	ChartedM float64
	Charted  Clearance
	Level    int     // VERDAT of the charted height
	DatumM   float64 // height datum above the tide's
	TideM    float64
	MarginM  float64
	WavesM   float64
	AirM     float64
	AtStay   bool
	// LevelUnknown: DatumM is taken as nothing.
	LevelUnknown bool
}

// Code is what is the matter.
func (o Overhead) Code() string { return o.What }

// Clearance is which charted clearance counts.
type Clearance uint8

// Which charted clearance counts.
const (
	PlainClearance  Clearance = iota
	SafeClearance             // VERCSA
	LessForCurrent            // VERCLR of a cable, less what its current wants
	ClosedClearance           // VERCCL
	LowerClosed               // VERCCL, the lower of the two
)

// OverheadNotKnown is room overhead that is not known.
type OverheadNotKnown struct {
	plain
	Thing Thing
	Why   WhyNoRoom
}

// Code is what is the matter.
func (OverheadNotKnown) Code() string { return CodeOverheadNotKnown }

// WhyNoRoom is why the room overhead is not known. The zero value is room that is.
type WhyNoRoom uint8

// Why the room overhead is not known.
const (
	NoClearance WhyNoRoom = iota + 1
	NoAirDraught
	NoHeightThen
	NoLevel
)

// Supports is a bridge whose width between the supports is not known, or too little.
type Supports struct {
	plain
	What                    string // WidthNotCharted, BeamNotKnown or CodeTooNarrow
	Name                    string
	WidthM, BeamM, ReserveM float64
}

// Code is what is the matter.
func (s Supports) Code() string { return s.What }
