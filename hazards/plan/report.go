package plan

import (
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/facts"
)

// Report is what the checks answer. A nil pointer is a figure that is not known;
// it is written as null.
type Report struct {
	Verdict        Severity
	Depart         *time.Time
	Back           *time.Time
	LeaveBy        []LeaveBy // one a stay, in the day's order
	DistanceNm     *float64
	UnderWayMin    *float64
	FuelL          *float64
	LeastClearance *LeastClearance
	Tide           *TideOfDay
	Sun            *Sun
	Charts         []ChartUsed
	Messages       []string          // of the layers, as layer-profile.md words them
	Checks         map[string]string // what became of each check: Done, NotApplicable, NoInput, NotBuilt
	Cautions       []string
	Warned         []facts.Facts // what the cautions are made of; not written
	More           []More        // findings that are counted and not told
	// WaveAllowanceM is the most that is taken off a depth for waves anywhere in
	// the day; it is not written.
	WaveAllowanceM float64

	Legs       []Leg
	Findings   []Finding
	Zones      []ZonePassage
	SlowDowns  []SlowDown
	Clearances []Clearance
	Stays      []StayResult
	InHand     []InHand // not written
	Circles    []SwingingCircle

	kept
}

// NewReport returns a report without findings that holds the standing cautions.
// Its verdict is not set, which counts as no data.
func NewReport() *Report {
	return &Report{Checks: map[string]string{}, Cautions: StandingCautions()}
}

// LeaveBy is the latest time to leave a stay, and what ends it.
type LeaveBy struct {
	Time   *time.Time // nil: no such time is known
	Why    string
	Reason facts.Facts // what Why is made of; not written

	kept
}

// LeastClearance is where the day's clearance is least.
type LeastClearance struct {
	ClearanceM *float64
	Time       *time.Time
	Position   orb.Point
	Leg        int

	kept
}

// TideOfDay is the tide that the report went by.
type TideOfDay struct {
	Datum  int // VERDAT number; 0 is unknown
	Method string
	Events []HighOrLow

	kept
}

// The kinds of HighOrLow.
const (
	HighWater = "HW"
	LowWater  = "LW"
)

// HighOrLow is a high or low water.
type HighOrLow struct {
	Time    time.Time
	Kind    string // HighWater or LowWater
	HeightM float64

	kept
}

// Sun is the daylight of the day; nil where the sun does not rise or set.
type Sun struct {
	Sunrise   *time.Time
	Sunset    *time.Time
	CivilDusk *time.Time

	kept
}

// ChartUsed is one layer set that the report went by.
type ChartUsed struct {
	Title     string
	Edition   string
	IssueDate string
	Scale     int // the denominator of the compilation scale; 0 is unknown
	Datum     int // sounding datum, VERDAT number; 0 is unknown
	Authority string
	SHA256    string

	kept
}

// Source is where in the layers a figure comes from.
type Source struct {
	Layer string
	Class string
	Name  string
	// Thing is the feature itself, by which who makes a report tells two of one
	// class and name apart; it is not written.
	Thing any
	// At is where it is meant that a feature of many places counts, as a record of
	// soundings is; it is not written.
	At orb.Point

	kept
}

// More counts findings of one check and severity on a leg that are not told, as
// worse ones of that check and leg are.
type More struct {
	Check    string
	Severity Severity
	Leg      int // 0: not on a leg
	Count    int

	kept
}

// Passing is a place and a time at which the same holds again.
type Passing struct {
	Leg  int
	Time *time.Time
	At   orb.Point

	kept
}

// Term is one figure that another is made of.
type Term struct {
	Name  string
	Value float64
	Unit  string
	Why   string
	Of    facts.Term // what Name and Why are made of; not written

	kept
}

// Leg is one leg of the day, counted from 1 through the day.
type Leg struct {
	Route             string // its name
	Leg               int
	CourseDeg         *float64 // true
	CourseMagneticDeg *float64
	DistanceNm        *float64
	Start             *time.Time
	End               *time.Time
	Kn                *float64 // average
	LeastClearanceM   *float64
	Passes            []Source // areas entered that have neither a rule nor words
	MorePasses        int      // how many more there are; not written
	Line              orb.LineString

	kept
}

// Finding is what a check found, where and when.
type Finding struct {
	Check    string
	Code     string // what is the matter: a name that stays, such as too-little-water
	ID       string // the same from check to check as long as the cause is the same
	Severity Severity
	Title    string
	Detail   string
	Facts    facts.Facts   // what Title and Detail are made of; not written
	Further  []facts.Facts // and what Detail says for others besides; not written
	Leg      int           // 0: not on a leg
	Time     *time.Time
	Until    *time.Time
	Windows  [][2]time.Time // when on that day the same place would be clear; nil: not known, empty: never
	Measured *float64
	Required *float64
	Unit     string
	Source   *Source
	Made     []Term       // what Measured is made of, and why; written as made_of
	Also     []Passing    // where else the same holds, in the order she comes there
	Geometry orb.Geometry // Point, LineString or Polygon; nil: nowhere in particular

	kept
}

// ZonePassage is a passage through a speed zone.
type ZonePassage struct {
	Name    string
	LimitKn *float64
	Stated  bool // false where the layer gives no figure
	Leg     int  // on which she enters
	Enter   *time.Time
	Leave   *time.Time
	Entry   orb.Point
	Exit    orb.Point

	kept
}

// SlowDown is where to begin slowing for a zone.
type SlowDown struct {
	Zone   string
	Leg    int
	Time   *time.Time
	FromKn *float64
	ToKn   *float64
	At     orb.Point

	kept
}

// Clearance is where the clearance of a leg is least.
type Clearance struct {
	Leg           int
	Time          *time.Time
	ChartedDepthM *float64
	TideM         *float64
	MarginM       *float64
	DraughtM      *float64
	SquatM        *float64
	WaveM         *float64
	ClearanceM    *float64
	RequiredM     *float64
	Source        *Source
	At            orb.Point

	kept
}

// StayResult is what the checks say of a stay.
type StayResult struct {
	Name            string
	Leg             int // the leg that ends there
	Arrive          *time.Time
	Until           *time.Time
	DepthArrivalM   *float64
	DepthLeastM     *float64
	DepthGreatestM  *float64
	ClearanceLeastM *float64
	RodeM           *float64
	RodeAboardM     *float64
	RadiusM         *float64
	RoomM           *float64 // the greatest radius that would be clear here
	LeeRoomM        *float64 // downwind from the circle to the first water not clear
	SeaGreatestM    *float64
	FetchNm         *float64
	WindFromDeg     *float64
	WindRoom        *WindRoom
	LoadN           *float64      // what pulls at the anchor at the most
	ToLayM          *float64      // rode to lay
	ScopeHigh       *float64      // of the rode at the greatest height of the stay
	ScopeLow        *float64      // and at the least
	LiftKn          *Lift         // the gusts that lift what is laid; nil: not known
	Bottom          string        // what the anchor digs into, in words
	Ground          *facts.Ground // what Bottom is made of; not written
	SoundFromM      *float64      // what the echo sounder must read on arrival, below the surface
	SoundToM        *float64
	Hours           []StayHour
	Explained       []Explained // what the figures above are made of
	At              orb.Point

	kept
}

// Lift are the gusts at which the pull at the anchor's shank is no longer level, and at which
// it passes the angle up to which an anchor holds. nil: no gust does.
type Lift struct {
	LevelKn *float64
	SteepKn *float64

	kept
}

// StayHour is a row of a stay's table: one time of it.
type StayHour struct {
	Time       time.Time
	TideM      *float64
	ClearanceM *float64
	GustKn     *float64
	SeaM       *float64 // within the data
	SeaOpenM   *float64 // with open water beyond them
	HeadingDeg *float64 // her bow's; nil: any, or not known
	Scope      *float64

	kept
}

// Explained is what a figure of a stay is made of.
type Explained struct {
	Figure string // the member that it is, or height_m: of the bow roller over the ground
	Made   []Term

	kept
}

// WindRoom is how far the wind may shift before the sea at a stay is too high.
type WindRoom struct {
	BackingDeg *float64
	VeeringDeg *float64

	kept
}

// SwingingCircle is the water a boat at anchor may come to lie in.
type SwingingCircle struct {
	Stay    string
	Leg     int // the leg that ends at the stay
	RadiusM *float64
	// SectorDeg are the bearings from the anchor on which she lies, each from one
	// clockwise to another, which may be over 360.
	SectorDeg [][2]float64
	Area      orb.Polygon

	kept
}
