package facts

import "keelroom/geo/chart"

// Facts are what the words of a finding, or of another sentence of a report, are
// made of.
type Facts interface {
	// Code is what is the matter.
	Code() string
	// Subject is what the title speaks of besides the code; nil: of nothing.
	Subject() any
}

// Heading is what a title is made of: findings with the same have the same title.
type Heading struct {
	Code    string
	Subject any
}

// HeadingOf is the heading of facts.
func HeadingOf(f Facts) Heading {
	if f == nil {
		return Heading{}
	}
	return Heading{f.Code(), f.Subject()}
}

// What else a finding says that stands for several, after its own words.
const (
	CodeAsOnLeg = "as-on-leg"
	CodeAlso    = "also"
	CodeOnLeg   = "on-leg"
	CodeSameFor = "same-for"
)

// AsOnLeg says on which leg and when a figure is so.
type AsOnLeg struct {
	plain
	Leg  int
	When Clock
}

// Code is what is said.
func (AsOnLeg) Code() string { return CodeAsOnLeg }

// Also is what is the matter besides, under another title.
type Also struct {
	plain
	Of Facts
}

// Code is what is said.
func (Also) Code() string { return CodeAlso }

// OnLeg is the same at another time.
type OnLeg struct {
	plain
	Leg int
	Of  Facts
}

// Code is what is said.
func (OnLeg) Code() string { return CodeOnLeg }

// SameFor counts the other things that the same holds for, and names those that have
// a name.
type SameFor struct {
	plain
	Count   int
	Names   []string
	CloseBy bool
}

// Code is what is said.
func (SameFor) Code() string { return CodeSameFor }

// Term says what one term of a sum is.
type Term struct {
	Part    Part
	AtStay  bool
	Charted Clearance
	Class   chart.Class
	Kn      float64 // of squat, and of the gust of a load
	WaterM  float64
	Scope   float64 // of ScopeRule and RodeHeight
	M       float64 // of those: the height, and the length
}

// Part is one term of a sum.
type Part uint8

// The terms of sums.
const (
	NoPart Part = iota // in words already
	ChartedDepth
	TideLeast
	DatumOffset
	Margin
	Draught
	Squat
	Waves
	ChartedHeight
	HeightDatum
	TideGreatest
	AirDraught
	InTank
	Burnt
	WindLoad
	StreamLoad
	DeepestCharted
	SoundedDepth
	BowRoller
	ScopeRule
	PullLevel
	WholeMetres
	NotAboard
	KeptUnderKeel
	TideAtArrival
	RodeHeight
)

// Why a stay has no time to leave by, or what ends it.
const (
	StayNotClear  = "stay-not-clear"
	StayNotKnown  = "stay-not-known"
	DayEnds       = "day-ends"
	WayNotClear   = "way-not-clear"
	WayNotKnown   = "way-not-known"
	NothingSets   = "nothing-sets-a-time"
	CodeNoneLater = "no-later"
)

// Leaving says why there is no time to leave by.
type Leaving struct {
	plain
	What string
}

// Code is what is said.
func (l Leaving) Code() string { return l.What }

// NoLater is what would be the matter if she left later.
type NoLater struct {
	plain
	Of      Facts
	Leg     int // 0: not on a leg
	When    Clock
	Timed   bool // When is known
	Unknown bool // it would not be known, rather than not clear
}

// Code is what is said.
func (NoLater) Code() string { return CodeNoneLater }

// CodeGround is what the ground at an anchor is.
const CodeGround = "ground"

// The cautions of a report.
const (
	NoRodeGiven     = "no-rode-given"
	NoHoldingGiven  = "no-holding-given"
	WaveSurge       = "wave-surge"
	Aid             = "aid"
	OfficialCharts  = "official-charts"
	Lookout         = "lookout"
	LocalRules      = "local-rules"
	Practice        = "practice"
	OverGround      = "over-ground"
	NoSwellGiven    = "no-swell-given"
	StationNowhere  = "station-nowhere"
	SwellShut       = "swell-shut"
	SeaAccuracy     = "sea-accuracy"
	PrivateCoverage = "private-coverage"
	Trusted         = "trusted"
	TrustedUnknown  = "trusted-unknown"
	Cancelled       = "cancelled"
	NotOfficial     = "not-official"
	NotBuilt        = "check-not-built"
	GrowthUncertain = 25 // per cent
)

// Caution is one caution. Name is the layer or check that it speaks of; By is what
// cancelled a layer, or whose it is.
type Caution struct {
	plain
	What     string
	Name, By string
}

// Code is what is said.
func (c Caution) Code() string { return c.What }

// StandingCautions are part of every report.
func StandingCautions() []Facts {
	return []Facts{Caution{What: Aid}, Caution{What: OfficialCharts}, Caution{What: Lookout}, Caution{What: LocalRules}, Caution{What: Practice}}
}
