package passage

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// The timed line says where she is: its vertices lie on the track at their
// times, never run backwards, and hold both ends of the day and of each stay.
func TestTimed(t *testing.T) {
	p := day(start, east(2), east(5))
	stay := plan.Stay{At: east(5), Kind: plan.AtAnchor, Until: depart.Add(2 * 3600e9)}
	p.Parts = append(p.Parts, plan.Part{Stay: &stay}, plan.Part{Route: &plan.Route{Points: []orb.Point{east(5), start}}})
	track := lay(t, p, waters(band(2.5, 3, limit(6))))
	line := track.Timed()
	if n := line.NumCoords(); n < len(track.Steps)+2 {
		t.Fatalf("%d vertices for %d steps", n, len(track.Steps))
	}
	last := math.Inf(-1)
	for i := range line.NumCoords() {
		c := line.Coord(i)
		if c[2] < last {
			t.Errorf("vertex %d goes back in time", i)
		}
		last = c[2]
		if d := geo.NewRhumb(start, orb.Point{c[0], c[1]}); d.LengthM > 1 && math.Abs(geo.Turn(90, d.CourseDeg)) > 1e-4 {
			t.Errorf("vertex %d is off the track", i)
		}
	}
	first, end := line.Coord(0), line.Coord(line.NumCoords()-1)
	if first[2] != float64(depart.Unix()) || math.Abs(end[2]-float64(track.Back.UnixMilli())/1000) > 1e-6 {
		t.Errorf("from %v to %v, want the departure and the return", first[2], end[2])
	}
	arrive, leave := 0, 0
	for i := range line.NumCoords() {
		switch m := line.Coord(i)[2]; {
		case math.Abs(m-float64(track.Stops[0].Arrive.UnixMilli())/1000) < 1e-3:
			arrive++
		case m == float64(stay.Until.Unix()):
			leave++
		}
	}
	if arrive == 0 || leave == 0 {
		t.Errorf("the stay has %d vertices on arriving and %d on leaving", arrive, leave)
	}
}
