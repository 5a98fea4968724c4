package state

import "time"

// Lookout is what the anchor watch wants of the device. What happens there comes back
// through Room.LookoutSays.
type Lookout interface {
	// Lacks says why no position can be had: "" it can, "insecure" the page came over a
	// connection that browsers do not trust with one, "none" the device has no receiver.
	Lacks() string
	// Begin asks for positions, and again where none has come for a while; for a screen that
	// stays on, and a sound.
	Begin(askAfter time.Duration)
	End()
	// Healthy puts the tone back that sounds though nothing runs any more.
	Healthy(toneAfter time.Duration)
	Alarm(on bool)
	Attempt() // sounds the alarm for a moment
	SoundOn() // lets a sound come that the browser held back; on the skipper's touch
}

// blindLookout stands in until there is a device.
type blindLookout struct{}

func (blindLookout) Lacks() string         { return "none" }
func (blindLookout) Begin(time.Duration)   {}
func (blindLookout) End()                  {}
func (blindLookout) Healthy(time.Duration) {}
func (blindLookout) Alarm(bool)            {}
func (blindLookout) Attempt()              {}
func (blindLookout) SoundOn()              {}
