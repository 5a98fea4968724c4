package facts

import "keelroom/geo/chart"

// Height is that of the bow roller over the ground at the anchor, and the terms it is
// made of, as they are shown: whole hundredths that add up.
type Height struct {
	DepthM, TideM, MarginM, RollerM float64
	TotalM                          float64 // rounded up
	Sounded                         bool    // the depth is from the echo sounder
	Shoalest                        bool    // it is the least that the chart allows, not the greatest
}

// Rode is a rode that is too short, or may be.
type Rode struct {
	plain
	What    string  // RodeShort or RodeShortIfDeep
	LaidM   float64 // rounded down
	WantedM float64 // rounded up
	Scope   float64
	Height  Height
	Planned bool    // the stay says how much is laid; else it is all that is aboard
	SoundM  float64 // RodeShortIfDeep: no more than this read on arrival is enough; not known: below 0
}

// Code is what is the matter.
func (r Rode) Code() string { return r.What }

// RodeNotAboard is more rode to be laid than there is.
type RodeNotAboard struct {
	plain
	LaidM, AboardM float64
}

// Code is what is the matter.
func (RodeNotAboard) Code() string { return CodeRodeNotAboard }

// PullLifts is a pull that comes up at the anchor's shank.
type PullLifts struct {
	plain
	Deg, MostDeg float64
	LoadN        float64
	GustKn       float64
	LaidM        float64
	WantedM      float64 // with which it does not; 0: no length does
	Height       Height
}

// Code is what is the matter.
func (PullLifts) Code() string { return CodePullLifts }

// GreatestDepthNotKnown is an anchor of which nobody knows how deep it may lie.
type GreatestDepthNotKnown struct {
	plain
	Why WhyNotDeep
}

// Code is what is the matter.
func (GreatestDepthNotKnown) Code() string { return CodeGreatestDepthNotKnown }

// WhyNotDeep is why the greatest depth is not known.
type WhyNotDeep uint8

// Why the greatest depth is not known.
const (
	NotChartedDeep WhyNotDeep = iota // the chart does not say how deep it may be
	NoTideOverStay                   // the tide is not known for all of the stay
	NoTideAtEcho                     // nor when the echo sounder was read
)

// LoadNotKnown is a pull at the anchor that cannot be worked out.
type LoadNotKnown struct {
	plain
	Why WhyNoLoad
}

// Code is what is the matter.
func (LoadNotKnown) Code() string { return CodeLoadNotKnown }

// WhyNoLoad is why a load is not known.
type WhyNoLoad uint8

// Why a load is not known.
const (
	NoWindOverStay   WhyNoLoad = iota // the wind does not reach over the stay
	NoStreamOverStay                  // nor does the stream
	NoArea                            // her beam and length, or the area, are not given
	NoBeam                            // nor the beam, for the stream
)

// HoldingFor is what her anchor holds, against what pulls at it.
type HoldingFor struct {
	plain
	What     string // HoldingTooLittle, PoorHolding, HoldingDoubtful or HoldingNotGiven
	LoadN    float64
	LoadKg   float64 // the same as a weight; 0: the load is not known
	HoldingN float64 // in good ground
	CountedN float64 // in this
	GustKn   float64
	Ground   Ground
}

// Code is what is the matter.
func (h HoldingFor) Code() string { return h.What }

// Ground is what an anchor digs into.
type Ground struct {
	Natures chart.Codes // NATSUR
	Weed    bool
	Holds   Holds
}

// Holds is how well a ground holds an anchor.
type Holds uint8

// How well a ground holds.
const (
	HoldsNotCharted Holds = iota
	HoldsWell
	HoldsFairly
	HoldsPoorly
)

// Code is what is said.
func (Ground) Code() string { return CodeGround }

// Subject is what a title speaks of besides the code.
func (Ground) Subject() any { return nil }

// Sounding is a reading of the echo sounder that chart and tide do not allow.
type Sounding struct {
	plain
	ReadM      float64
	FromM, ToM float64 // what they allow
	Open       bool    // ToM is not known
	When       Clock
	Feet       bool // it would be allowed in feet
}

// Code is what is the matter.
func (Sounding) Code() string { return CodeSoundingDisagrees }
