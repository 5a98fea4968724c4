package anchorages

import (
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// Question asks where to lie.
type Question struct {
	Plan   *plan.Plan // its boat, margins, tide, wind, swell, streams and choices count
	Stay   plan.Stay  // name, kind, rode to be laid, and Until: when she leaves
	Arrive time.Time
	Area   orb.Bound  // degrees, lon lat
	From   *orb.Point // whence she comes, for the minutes; nil is not known
}

// MostAreaNM is the greatest side of an area, nautical miles: more takes too long,
// and more than a lunch is worth.
const MostAreaNM = 30

// aLittleMore is by how much an area may seem larger than it is meant: miles are made
// degrees and measured again by the longest of each.
const aLittleMore = 1.05

const metresPerNM = 1852

// ErrNotAtAnchor is the error of a question about a berth or a mooring: of those the
// checks ask less, so that open water would do.
var ErrNotAtAnchor = errors.New("places are looked for to lie at anchor only; make the stay one at anchor")

// check gives the error of a question: what is wrong, and what is wanted.
func (q *Question) check() error {
	w, h := sides(q.Area)
	switch {
	case q.Stay.Kind != plan.AtAnchor:
		return ErrNotAtAnchor
	case !geo.ValidPosition(q.Area.Min) || !geo.ValidPosition(q.Area.Max) || q.Area.Min[0] >= q.Area.Max[0] || q.Area.Min[1] >= q.Area.Max[1]:
		return fmt.Errorf("the area to look in is empty; west, south, east and north are wanted, in degrees")
	case math.Max(w, h) > MostAreaNM*metresPerNM*aLittleMore:
		return fmt.Errorf("the area to look in is %.0f by %.0f nautical miles; at most %d each way is wanted: a smaller part of the chart", w/metresPerNM, h/metresPerNM, MostAreaNM)
	case !q.Arrive.Before(q.Stay.Until):
		return fmt.Errorf("the stay would end before she arrives; a later time to leave is wanted")
	}
	return nil
}

// sides are the width and the height of an area in metres, the width where it is
// greatest.
func sides(b orb.Bound) (w, h float64) {
	return widthDeg(b) * metresPerDegree * widest(b), (b.Max[1] - b.Min[1]) * metresPerDegree
}

func widthDeg(b orb.Bound) float64 { return b.Max[0] - b.Min[0] }

// metresPerDegree is a degree of latitude, at most: a meridian's degree is 110.6 km
// at the equator and 111.7 km at a pole (WGS 84).
const metresPerDegree = 111_700

// widest is the cosine of the latitude of the area that is nearest to the equator.
func widest(b orb.Bound) float64 {
	if b.Min[1] <= 0 && b.Max[1] >= 0 {
		return 1
	}
	return math.Cos(math.Min(math.Abs(b.Min[1]), math.Abs(b.Max[1])) * math.Pi / 180)
}

// Around is the area within some nautical miles of a place.
func Around(p orb.Point, nm float64) orb.Bound {
	dLat := nm * metresPerNM / 110_500
	dLon := dLat / math.Max(0.01, math.Cos(p[1]*math.Pi/180))
	return orb.Bound{Min: orb.Point{p[0] - dLon, p[1] - dLat}, Max: orb.Point{p[0] + dLon, p[1] + dLat}}
}
