package facts

// NotGiven is wind, swell or stream that is not given for a time.
type NotGiven struct {
	plain
	What string // NoWind, NoSwell or NoStream
}

// Code is what is the matter.
func (n NotGiven) Code() string { return n.What }

// Wind is the wind that raises a sea.
type Wind struct {
	Kn      float64
	FromDeg float64 // whole degrees
	FetchNm float64
}

// SeaHeight is a sea that is high for her. Heights are rounded up.
type SeaHeight struct {
	plain
	What   string // TooMuchSea, Rough, SeaNearLimit or OpenWater
	HsM    float64
	Wind   Wind
	OpenM  float64 // OpenWater: with open water beyond the chart
	OpenKm float64
}

// Code is what is the matter.
func (s SeaHeight) Code() string { return s.What }

// Breaking is a sea that breaks, or may, in so much water.
type Breaking struct {
	plain
	What   string  // BreakingSea or SeaMayBreak
	HsM    float64 // rounded up
	WaterM float64 // rounded down
}

// Code is what is the matter.
func (b Breaking) Code() string { return b.What }

// WindAgainstStream raises short, steep seas.
type WindAgainstStream struct {
	plain
	StreamKn, WindKn float64
}

// Code is what is the matter.
func (WindAgainstStream) Code() string { return CodeWindAgainstStream }

// CannotStem is a stream stronger than she is.
type CannotStem struct {
	plain
	Kn, StreamKn, TowardDeg float64
	When                    Clock
}

// Code is what is the matter.
func (CannotStem) Code() string { return CodeCannotStem }

// NoWindAtStay is a stay over which the wind or swell does not reach. Room tells that
// the wind's room to shift is what is not known.
type NoWindAtStay struct {
	plain
	Room bool
}

// Code is what is the matter.
func (NoWindAtStay) Code() string { return CodeNoWindAtStay }

// StrongGusts at a stay.
type StrongGusts struct {
	plain
	Kn, LimitKn float64
	When        Clock
}

// Code is what is the matter.
func (StrongGusts) Code() string { return CodeStrongGusts }

// Shelter is a stay without it, or that may be. Heights are rounded up, the limit
// down.
type Shelter struct {
	plain
	What              string // NoShelter, ShelterDoubtful or OpenWater
	HsM, PlusM, OpenM float64
	LimitM            float64
	OpenKm            float64
	Wind              Wind
	When              Clock
}

// Code is what is the matter.
func (s Shelter) Code() string { return s.What }

// NoWindRoom is a stay where the sea passes the limit with the wind as it is.
type NoWindRoom struct {
	plain
	LimitM float64 // rounded down
}

// Code is what is the matter.
func (NoWindRoom) Code() string { return CodeNoWindRoom }

// LittleWindRoom is a stay where the wind may not shift far.
type LittleWindRoom struct {
	plain
	Veering   bool
	RoomDeg   float64
	WantedDeg float64
	LimitM    float64
	OpenOnly  bool // only open water beyond the chart makes it so
}

// Code is what is the matter.
func (LittleWindRoom) Code() string { return CodeLittleWindRoom }

// Anchoring is a place where it is prohibited or restricted.
type Anchoring struct {
	plain
	Name   string
	Why    WhyNotAnchor
	Info   string
	Metres int // from the anchor, rounded down; 0: it lies in or on it
}

// Code is what is the matter.
func (Anchoring) Code() string { return CodeAnchoring }

// InCircle is what forbids an anchor and lies in the circle that she swings in, but not
// close to the anchor itself.
type InCircle struct {
	plain
	Name    string
	Why     WhyNotAnchor
	Info    string
	Metres  int     // from the anchor, rounded down
	RadiusM float64 // of the circle, whole metres
}

// Code is what is the matter.
func (InCircle) Code() string { return CodeInCircle }

// WhyNotAnchor is why one may not anchor. The zero value is no reason.
type WhyNotAnchor uint8

// Why one may not anchor.
const (
	Cable WhyNotAnchor = iota + 1
	Pipeline
	FoulGround
	AnchoringProhibited
	DraggingProhibited
	StoppingProhibited
	BathingArea
	AnchoringRestricted
	Minefield
)
