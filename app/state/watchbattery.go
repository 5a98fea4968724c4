package state

// Battery is what the device tells of its battery.
type Battery struct {
	Known, Watched, Charging bool
	Level                    float64
	acked                    int // how grave it was when it was acknowledged last
}

// lowBatteries are the levels under which a watch may soon end: each is an alarm of its own.
var lowBatteries = [...]float64{0.15, 0.10, 0.05}

// grave is how many of those levels the battery is under, while it goes down.
func (b *Battery) grave() (n int) {
	for _, level := range lowBatteries {
		if b.Watched && !b.Charging && b.Level < level {
			n++
		}
	}
	return n
}

// Low says that the watch may soon end for want of power.
func (b *Battery) Low() bool { return b.grave() > 0 }

// sounding says whether that is to be heard: once acknowledged, it is again at the next level.
func (b *Battery) sounding() bool { return b.grave() > b.acked }

// says takes in what the device tells.
func (b *Battery) says(d *lookoutDetail) {
	*b = Battery{Known: true, Watched: d.Watched, Charging: d.Charging, Level: d.Level, acked: b.acked}
	b.acked = min(b.acked, b.grave())
}
