package facts

import "keelroom/geo/chart"

// Sum is a clearance or a depth of water and the terms it is made of, as they are
// shown: whole hundredths that add up. A depth of water has no terms for the boat.
type Sum struct {
	ChartedM, TideM, DatumM, MarginM float64
	DraughtM, SquatM, WavesM         float64
	TotalM                           float64 // rounded down
	AtStay                           bool
	DatumUnknown, SeaUnknown         bool // it is at most this much
}

// Water is a clearance that is not, or not surely, enough.
type Water struct {
	plain
	What      string  // TooLittleWater, TooLittleWaterInPlace, EnoughIfExact, EnoughWithinChart or ShallowForSpeed
	HaveM     float64 // under the keel; of ShallowForSpeed the water itself
	WantedM   float64
	AccuracyM float64 // EnoughIfExact: by how much the depth may be out
	OpenWaveM float64 // EnoughWithinChart: what open water beyond the chart would take
	Kn        float64 // ShallowForSpeed
	When      Clock   // TooLittleWater
	Sum       Sum
	Danger    Thing // the danger that it is about, if it has a name
}

// Code is what is the matter.
func (w Water) Code() string { return w.What }

// DepthNotKnown is water of unknown depth on the way, or where she lies.
type DepthNotKnown struct {
	plain
	Why    Unknown
	AtStay bool
}

// Code is what is the matter.
func (DepthNotKnown) Code() string { return CodeDepthNotKnown }

// DepthNotInPlace is unknown water that only the survey's position accuracy brings
// within reach.
type DepthNotInPlace struct {
	plain
	Why Unknown
}

// Code is what is the matter.
func (DepthNotInPlace) Code() string { return CodeDepthNotInPlace }

// NotRead is a feature of the chart that could not be read.
type NotRead struct {
	Class chart.Class // what it was meant to be
	Index int         // features[Index]
	File  string
	Info  string
}

// Code is what is the matter.
func (NotRead) Code() string { return CodeNotRead }

// Subject is the class.
func (n NotRead) Subject() any { return n.Class }

// NotReadNoPlace is one of which not even the place is known.
type NotReadNoPlace struct {
	Class      chart.Class
	Index      int
	File, Info string
}

// Code is what is the matter.
func (NotReadNoPlace) Code() string { return CodeNotReadNoPlace }

// Subject is the class.
func (n NotReadNoPlace) Subject() any { return n.Class }

// TideNotKnown is a height of tide that is not known.
type TideNotKnown struct {
	plain
	Why WhyNoTide
}

// Code is what is the matter.
func (TideNotKnown) Code() string { return CodeTideNotKnown }

// WavesNotKnown is a berth where the water is enough only without waves.
type WavesNotKnown struct{ plain }

// Code is what is the matter.
func (WavesNotKnown) Code() string { return CodeWavesNotKnown }

// SoundingUnusable is an echo sounding at a time of unknown tide.
type SoundingUnusable struct{ plain }

// Code is what is the matter.
func (SoundingUnusable) Code() string { return CodeSoundingUnusable }

// NoDatum stands for the datum of a tide that is not given.
const NoDatum = -1

// LevelsDiffer are depths and heights of tide above levels (VERDAT) that cannot be
// compared.
type LevelsDiffer struct {
	plain
	Depths, Tide int
	AtStay       bool
}

// Code is what is the matter.
func (LevelsDiffer) Code() string { return CodeLevelsDiffer }

// AnotherFrame is a chart whose positions are not WGS 84.
type AnotherFrame struct {
	plain
	Layer string
}

// Code is what is the matter.
func (AnotherFrame) Code() string { return CodeAnotherFrame }

// TideWindow is water that is enough only while the tide stands high.
type TideWindow struct {
	plain
	NeedM   float64 // height of tide, rounded up
	LowestM float64 // within 12 hours, rounded down
	Datum   int
	Closes  Clock
	LeftMin int
	Ends    bool // Closes and LeftMin are known
}

// Code is what is the matter.
func (TideWindow) Code() string { return CodeTideWindow }

// LowNotKnown is a tide of which too little is known to say how low it falls.
type LowNotKnown struct{ plain }

// Code is what is the matter.
func (LowNotKnown) Code() string { return CodeLowNotKnown }
