package words

import (
	"fmt"
	"math"

	"keelroom/hazards/facts"
)

// englishAnchorage is what speaks for a place to lie at.
var englishAnchorage = map[string]Sentence{
	facts.CodeCalmHere: say(func(_ *Teller, c facts.CalmHere) string {
		text := fmt.Sprintf("waves up to %s m, with the wind from %03.0f° (%s m is the limit at anchor)", hundredths(c.HsM), c.FromDeg, hundredths(c.LimitM))
		if c.Turned && c.TurnDeg > 0 {
			text += fmt.Sprintf("; up to %s m if the wind turns by %.0f°", hundredths(c.TurnedM), c.TurnDeg)
		}
		return text
	}),
	facts.CodeDeepHere: say(func(_ *Teller, d facts.DeepHere) string {
		return fmt.Sprintf("at least %s m under the keel, %s m wanted", hundredths(d.KeelM), hundredths(d.WantedM))
	}),
	facts.CodeNearHere: say(func(_ *Teller, n facts.NearHere) string {
		return fmt.Sprintf("%.0f min away in a straight line at cruising speed", n.Minutes)
	}),
	facts.CodeRoomHere: say(func(_ *Teller, r facts.RoomHere) string {
		return fmt.Sprintf("room to swing within %.0f m of the anchor, %.0f m needed", math.Floor(r.RoomM), math.Ceil(r.NeededM))
	}),
}
