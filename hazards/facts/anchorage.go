package facts

// What speaks for a place to lie at. The codes are written, and never change.
const (
	CodeCalmHere = "calm-here"
	CodeDeepHere = "deep-enough-here"
	CodeNearHere = "near-here"
	CodeRoomHere = "room-here"
)

// CalmHere is the greatest sea of a stay: as the wind is given, and if it may turn.
type CalmHere struct {
	plain
	HsM, TurnedM, LimitM float64
	TurnDeg              float64
	FromDeg              float64 // whence it blows when the sea is greatest
	Turned               bool    // TurnedM is known
}

// Code is what speaks for the place.
func (CalmHere) Code() string { return CodeCalmHere }

// DeepHere is the least water under the keel of a stay.
type DeepHere struct {
	plain
	KeelM, WantedM float64
}

// Code is what speaks for the place.
func (DeepHere) Code() string { return CodeDeepHere }

// NearHere is how long she is under way to a place, straight.
type NearHere struct {
	plain
	Minutes float64
}

// Code is what speaks for the place.
func (NearHere) Code() string { return CodeNearHere }

// RoomHere is the room to swing: what there is, and what she needs.
type RoomHere struct {
	plain
	RoomM, NeededM float64
}

// Code is what speaks for the place.
func (RoomHere) Code() string { return CodeRoomHere }
