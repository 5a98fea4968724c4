package facts

// Swing is what she would swing onto: on the bearings on which she lies, or if the wind
// turned further.
type Swing struct {
	What       string // SwingWater to SwingMoored
	Thing      Thing
	If         bool    // only if the wind turned further
	TurnDeg    float64 // so many whole degrees further
	WindDeg    float64 // the wind that would do it: where from, whole degrees
	DistanceM  float64 // from the anchor, whole metres
	BearingDeg float64 // of it from the anchor, whole degrees
	RadiusM    float64 // of the circle, whole metres, rounded up
	HaveM      float64 // SwingWater, and SwingDanger with a depth: water under the keel there
	WantedM    float64
	Why        Unknown     // SwingUnknown
	UnreadMark bool        // SwingUnknown: a mark that was left out, which may lie there
	AllRound   WhyAllRound // why she may lie anywhere; 0: she lies downwind
	Others     int         // how many other things the same holds for
}

// Code is what is the matter.
func (s Swing) Code() string { return s.What }

// Subject tells what there is from what would be.
func (s Swing) Subject() any { return s.If }

// WhyAllRound is why she may lie anywhere about her anchor.
type WhyAllRound uint8

// Why she may lie anywhere about her anchor.
const (
	WindNotKnown WhyAllRound = iota + 1
	LightAir
	StreamNotKnown
	StreamOpposed
	WindMayGoRound // which way round it turns is not known
)

// SwingNotKnown is a circle of which not all is known.
type SwingNotKnown struct {
	plain
	Why WhyNoCircle
}

// Code is what is the matter.
func (SwingNotKnown) Code() string { return CodeSwingNotKnown }

// WhyNoCircle is why the circle that she swings in is not known.
type WhyNoCircle uint8

// Why the circle that she swings in is not known.
const (
	NoBoatLength WhyNoCircle = iota + 1
	NoRodeLength
)

// RodeTooShort is a rode that does not reach the ground, or only just.
type RodeTooShort struct {
	plain
	RodeM   float64
	HeightM float64 // of the bow roller over the ground at high water, in hundredths
}

// Code is what is the matter.
func (RodeTooShort) Code() string { return CodeRodeTooShort }
