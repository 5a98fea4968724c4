package entry

import (
	"errors"
	"strings"
	"time"
)

// A Sounding is what an echo sounder read, and when.
type Sounding struct {
	M  float64   // below the surface, metres
	At time.Time // the height of tide of that time makes it a charted depth
}

// How deep and how shallow a sounding may be, in metres. Deeper water than this is
// not anchored in by a small boat; a figure beyond it is a slip or another unit.
const (
	leastSoundingM = 0.1
	mostSoundingM  = 200
)

// ReadSounding reads a depth and the clock time it was read at, such as
// "6.4 12:10" or "6,4 m at 12:10"; time reads the clock. A depth in another unit is
// refused with its conversion, as [Metres] does.
func ReadSounding(text string, clock func(string) (time.Time, error)) (Sounding, error) {
	depth, at, err := cutSounding(tidy(text))
	if err != nil {
		return Sounding{}, err
	}
	m, err := Metres(depth)
	switch {
	case err != nil:
		return Sounding{}, err
	case m < leastSoundingM || m > mostSoundingM:
		return Sounding{}, errors.New(depth + " is not a depth to anchor in: type the metres below the surface, as 6.4 12:10")
	}
	t, err := clock(at)
	return Sounding{M: m, At: t}, err
}

// cutSounding takes the depth and the time apart: the time is the last part, or
// the last two where a date stands before it.
func cutSounding(text string) (depth, at string, err error) {
	parts := strings.Fields(text)
	last := len(parts) - 1
	if last < 0 {
		return "", "", errors.New("nothing typed: type the depth and the time, as 6.4 12:10")
	}
	if !timeOfDay(parts[last]) {
		return "", "", errors.New("the time of the sounding is wanted too, for the height of tide then: type both, as 6.4 12:10")
	}
	if last > 0 && len(parts[last-1]) == len(time.DateOnly) && strings.Count(parts[last-1], "-") == 2 {
		last--
	}
	depth = strings.TrimSuffix(strings.TrimSpace(strings.Join(parts[:last], " ")), " at")
	if depth == "" {
		return "", "", errors.New("the depth is wanted before the time: type both, as 6.4 12:10")
	}
	return depth, strings.Join(parts[last:], " "), nil
}

// timeOfDay reports whether a part of a text is a clock time or an instant.
func timeOfDay(part string) bool {
	if _, err := time.Parse(time.RFC3339, part); err == nil {
		return true
	}
	return looksLikeClock(part) && strings.ContainsAny(part, ":hH")
}
