package plan

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// A leg or a day longer than these is asked about before any work is done on it:
// far more often than meant it is a slip in a sign or a digit, or longitude and
// latitude exchanged (contract; judgement, no source).
const (
	MaxLegNM = 200
	MaxDayNM = 1000
)

const slip = "is a sign or a digit wrong?"

// CheckExtent returns as [*Errors] the questions about legs or a day that are too
// long, nil where there is none.
func (p *Plan) CheckExtent() error {
	c := &checker{}
	p.checkExtent(c, p.partPaths())
	var problems []Problem
	for _, f := range c.found {
		problems = append(problems, f.Problem)
	}
	return listed(problems, 0)
}

// checkExtent asks about each waypoint that makes legs too long, and if there is
// none about a day that is too long as a whole.
func (p *Plan) checkExtent(c *checker, paths []string) {
	var day extent
	before := 0 // legs of the routes before
	for i, part := range p.Parts {
		if part.Route == nil {
			continue
		}
		r := stretch{points: part.Route.Points, before: before, path: join(paths[i], "geometry.coordinates")}
		r.measure(&day)
		for _, q := range r.questions() {
			c.ask(q.path, q.msg)
			day.asked = true
		}
		before += part.Route.Legs()
	}
	if day.nm > MaxDayNM && !day.asked {
		c.ask(day.longest.path(), fmt.Sprintf("the day is %.0f nm long, and its longest leg, %s, %.0f nm; at most %d nm a day are wanted: %s If it is meant, make it several days",
			math.Ceil(day.nm), day.longest.words(), math.Ceil(day.longestNM), MaxDayNM, slip))
	}
}

// ask notes a question. A draft may hold what it is about.
func (c *checker) ask(path, msg string) {
	p := problem(path, msg)
	p.Question = true
	c.found = append(c.found, flaw{p, true})
}

// extent is how long a day is.
type extent struct {
	nm, longestNM float64
	longest       waypoint
	asked         bool // about a leg of it
}

// stretch is a route whose legs are measured.
type stretch struct {
	points []orb.Point
	nm     []float64 // of each leg
	before int       // legs of the day before its first
	path   string    // of the coordinates
}

func (r *stretch) measure(day *extent) {
	for i := 1; i < len(r.points); i++ {
		nm := 0.0 // a position that is none is told elsewhere
		if positionWrong(r.points[i-1]) == "" && positionWrong(r.points[i]) == "" {
			nm = geo.NewRhumb(r.points[i-1], r.points[i]).LengthM / geo.NauticalMileM
		}
		r.nm = append(r.nm, nm)
		day.nm += nm
		if nm > day.longestNM {
			day.longestNM, day.longest = nm, waypoint{r, i - 1, i}
		}
	}
}

// waypoint is one that may be out, with one of its legs, by index.
type waypoint struct {
	route *stretch
	leg   int
	at    int
}

func (w waypoint) path() string { return fmt.Sprintf("%s[%d]", w.route.path, w.at) }

// words name the leg and the waypoint, as they are counted on the screen.
func (w waypoint) words() string {
	way := "to"
	if w.at == w.leg {
		way = "from"
	}
	return fmt.Sprintf("leg %d, %s waypoint %d at %s", w.route.before+w.leg+1, way, w.at+1, degreesOf(w.route.points[w.at]))
}

func degreesOf(p orb.Point) string {
	side := func(v float64, plus, minus string) string {
		if v < 0 {
			plus = minus
		}
		return fmt.Sprintf("%.4f° %s", math.Abs(v), plus)
	}
	return side(p.Lat(), "N", "S") + " " + side(p.Lon(), "E", "W")
}

type question struct{ path, msg string }

// questions are one for each waypoint that is likely to be out.
func (r *stretch) questions() []question {
	var out []question
	for i := 0; i < len(r.nm); i++ {
		if r.nm[i] <= MaxLegNM {
			continue
		}
		w := waypoint{r, i, r.suspect(i)}
		msg := fmt.Sprintf("%s, is %.0f nm long; at most %d nm are wanted: %s", w.words(), math.Ceil(r.nm[i]), MaxLegNM, slip)
		if w.exchanged() {
			msg += " With longitude and latitude exchanged it would lie near the others."
		}
		out = append(out, question{w.path(), msg + " If it is meant, put waypoints on the way"})
		if w.at == i+1 {
			i++ // its other leg is told with it
		}
	}
	return out
}

// suspect is which end of a long leg is more likely to be out: the one whose other
// leg is long as well, or which has no other.
func (r *stretch) suspect(leg int) int {
	if leg == 0 && len(r.nm) > 1 && r.nm[1] <= MaxLegNM {
		return 0
	}
	return leg + 1
}

// exchanged reports whether the waypoint would be near its neighbours with longitude
// and latitude exchanged.
func (w waypoint) exchanged() bool {
	points := w.route.points
	turned := orb.Point{points[w.at].Lat(), points[w.at].Lon()}
	if positionWrong(turned) != "" {
		return false
	}
	for _, i := range []int{w.at - 1, w.at + 1} {
		if i >= 0 && i < len(points) && geo.NewRhumb(turned, points[i]).LengthM > MaxLegNM*geo.NauticalMileM {
			return false
		}
	}
	return true
}
