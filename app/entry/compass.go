package entry

import (
	"fmt"
	"math"
	"strings"
)

// points of the compass clockwise from north, 11.25 degrees apart (N. Bowditch, The
// American Practical Navigator: compass card of 32 points).
var points = strings.Fields(`N NbE NNE NEbN NE NEbE ENE EbN E EbS ESE SEbE SE SEbS SSE SbE
	S SbW SSW SWbS SW SWbW WSW WbS W WbN WNW NWbW NW NWbN NNW NbW`)

// point returns the direction of a point of the compass, of which the letters
// may be of any size.
func point(s string) (deg float64, ok bool) {
	for i, name := range points {
		if strings.EqualFold(name, s) {
			return float64(i) * 11.25, true
		}
	}
	return 0, false
}

// Point names the point of the compass nearest to a direction, of 16.
func Point(deg float64) string {
	if math.IsNaN(deg) || math.IsInf(deg, 0) {
		return "?"
	}
	i := int(math.Round(math.Mod(deg, 360)/22.5)) * 2
	return points[((i%32)+32)%32]
}

// Degrees reads a direction in degrees true from 0 to 360, or a point of the
// compass.
func Degrees(text string) (float64, error) {
	s := tidy(text)
	if deg, ok := point(s); ok {
		return deg, nil
	}
	lower := strings.ToLower(s)
	for _, magnetic := range []string{"m", "mag", "magnetic", "mag.", "°m"} {
		if rest, ok := strings.CutSuffix(lower, magnetic); ok {
			if _, ok := decimal(strings.Trim(rest, " °")); ok {
				return 0, fmt.Errorf("%s: type degrees true; take the variation off first", shown(s))
			}
		}
	}
	for _, unit := range []string{"true", "deg", "degrees", "t", "°"} {
		lower = strings.TrimSpace(strings.TrimSuffix(lower, unit))
	}
	v, ok := decimal(lower)
	switch {
	case s == "":
		return 0, fmt.Errorf("nothing typed: type degrees true, as 225, or a point of the compass, as SW")
	case !ok:
		return 0, fmt.Errorf("%s is no direction: type degrees true, as 225, or a point of the compass, as SW", shown(s))
	case v < 0 || v > 360:
		return 0, fmt.Errorf("%s: a direction lies from 0 to 360 degrees", shown(s))
	}
	return v, nil
}
