package plan

import (
	"fmt"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// flaw is a problem, and whether it is that something is still missing.
type flaw struct {
	Problem
	incomplete bool
}

// checker collects what is wrong with a plan that is held in memory.
type checker struct {
	path  string
	found []flaw
}

// wrong notes a problem with a member of the object in hand, unless msg is "".
func (c *checker) wrong(key, msg string) {
	if msg != "" {
		c.found = append(c.found, flaw{problem(join(c.path, key), msg), false})
	}
}

// incomplete notes that a member is missing or does not fit the rest of the day.
func (c *checker) incomplete(key, msg string) {
	c.found = append(c.found, flaw{problem(join(c.path, key), msg), true})
}

// record checks the fields of an object at key.
func (c *checker) record(key string, rec record) {
	outer := c.path
	c.path = join(outer, key)
	for _, f := range rec.fields() {
		if f.check != nil {
			f.check(c)
		}
	}
	c.path = outer
}

// Validate returns as [*Errors] what keeps the plan from being checked: the rules
// of [Decode], for a plan that was changed or made in memory.
func (p *Plan) Validate() error {
	c := &checker{}
	p.checkFields(c)
	p.checkDay(c)
	var problems []Problem
	for _, f := range c.found {
		problems = append(problems, f.Problem)
	}
	return listed(problems, 0)
}

// checkFields checks every value by itself.
func (p *Plan) checkFields(c *checker) {
	if p.Version != Version {
		c.wrong("plan.version", fmt.Sprintf("version %d; version %d is wanted", p.Version, Version))
	}
	c.record("plan", p)
	for i, part := range p.Parts {
		if (part.Route == nil) == (part.Stay == nil) {
			c.wrong("features", fmt.Sprintf("part %d of the day is not one thing; a route or a stay is wanted", i+1))
		}
	}
	for i, item := range p.order() {
		if item.located != nil {
			path := fmt.Sprintf("features[%d]", i)
			c.record(path+".properties", item.located)
			c.positions(path+".geometry.coordinates", item.located)
		}
	}
}

func (c *checker) positions(path string, f located) {
	_, line := f.(*Route)
	for i, p := range f.positions() {
		if line {
			c.wrong(fmt.Sprintf("%s[%d]", path, i), positionWrong(p))
		} else {
			c.wrong(path, positionWrong(p))
		}
	}
}

// checkDay checks that nothing is missing and that the parts fit together.
func (p *Plan) checkDay(c *checker) {
	if p.Zone == nil {
		c.incomplete("plan.time_zone", "missing; an IANA name such as Atlantic/Azores is wanted")
	}
	if len(p.Routes()) == 0 {
		c.incomplete("features", "no route; a feature with the role route is wanted")
	}
	paths := p.partPaths()
	for i, part := range p.Parts {
		c.path = paths[i]
		if part.Route != nil {
			c.route(part.Route, i == 0)
		} else if part.Stay != nil {
			c.stay(part.Stay, i == 0)
		}
		if i > 0 {
			c.sequence(p.Parts[i-1], part)
		}
	}
	c.path = ""
	p.checkClock(c, paths)
	p.checkExtent(c, paths)
}

func (c *checker) route(r *Route, first bool) {
	if len(r.Points) < 2 && !r.unplaced {
		c.incomplete("geometry.coordinates", fmt.Sprintf("a route of %d waypoints; 2 or more are wanted", len(r.Points)))
	}
	if n := len(r.SpeedsKn); n > 0 && n != r.Legs() && !r.unplaced {
		c.incomplete("properties.speeds_kn", fmt.Sprintf("%d speeds for %d legs; one a leg is wanted", n, r.Legs()))
	}
	switch {
	case first && r.Depart == nil:
		c.incomplete("properties.depart", "missing on the first route; "+timeWanted)
	case !first && r.Depart != nil:
		c.incomplete("properties.depart", "a departure on a later route, which leaves when the stay before it ends; none is wanted")
	}
}

func (c *checker) stay(s *Stay, first bool) {
	if first {
		c.incomplete("", "a stay before the first route; a day that begins with a route is wanted")
	}
	if s.Until.IsZero() {
		c.incomplete("properties.until", "missing; "+timeWanted)
	}
}

// JoinM is how far apart two parts may be and still meet.
const JoinM = 50

// sequence checks that two parts take turns and meet.
func (c *checker) sequence(before, after Part) {
	switch {
	case before.Route != nil && after.Route != nil:
		c.incomplete("", "a route after a route; a stay between them is wanted")
		return
	case before.Stay != nil && after.Stay != nil:
		c.incomplete("", "a stay after a stay; a route between them is wanted")
		return
	}
	end, ok := before.last()
	start, ok2 := after.first()
	if !ok || !ok2 || positionWrong(end) != "" || positionWrong(start) != "" {
		return // said elsewhere
	}
	if m := geo.DistanceM(end, start); !(m <= JoinM) {
		c.incomplete("geometry.coordinates", fmt.Sprintf(
			"begins %.0f m from where the part before it ends; at most %d m are wanted", m, JoinM))
	}
}

func (p Part) first() (orb.Point, bool) {
	if points := p.points(); len(points) > 0 {
		return points[0], true
	}
	return orb.Point{}, false
}

func (p Part) last() (orb.Point, bool) {
	points := p.points()
	if len(points) == 0 {
		return orb.Point{}, false
	}
	return points[len(points)-1], true
}

// Positions are the waypoints of a route, or the place of a stay.
func (p Part) Positions() []orb.Point {
	if p.Stay != nil {
		return p.Stay.positions()
	}
	if p.Route != nil {
		return p.Route.Points
	}
	return nil
}

func (p Part) points() []orb.Point {
	switch {
	case p.Route != nil:
		return p.Route.Points
	case p.Stay != nil && !p.Stay.unplaced:
		return p.Stay.positions()
	}
	return nil
}

// checkClock checks that the times of the day go forward.
func (p *Plan) checkClock(c *checker, paths []string) {
	var last time.Time
	for i, part := range p.Parts {
		var t time.Time
		key := "until"
		switch {
		case part.Route != nil && part.Route.Depart != nil && i == 0:
			t, key = *part.Route.Depart, "depart"
		case part.Stay != nil:
			t = part.Stay.Until
		}
		if t.IsZero() {
			continue
		}
		if !last.IsZero() && !t.After(last) {
			c.incomplete(join(paths[i], "properties."+key), "not after the time before it, "+p.clock(last)+"; a later time is wanted")
		}
		last = t
	}
	if p.BackBy != nil && !last.IsZero() && !p.BackBy.After(last) {
		c.incomplete("plan.back_by", "not after the last time of the day, "+p.clock(last)+"; a later time is wanted")
	}
}

func (p *Plan) clock(t time.Time) string { return spell(t, p.zone()) }

// zone returns the zone of the plan, and UTC while it has none.
func (p *Plan) zone() *time.Location {
	if p.Zone == nil {
		return time.UTC
	}
	return p.Zone
}

// partPaths returns the path of the feature of each part.
func (p *Plan) partPaths() []string {
	index := map[located]int{}
	for i, item := range p.order() {
		if item.located != nil {
			index[item.located] = i
		}
	}
	paths := make([]string, len(p.Parts))
	for i, part := range p.Parts {
		if f := part.located(); f != nil {
			paths[i] = fmt.Sprintf("features[%d]", index[f])
		}
	}
	return paths
}

func (p Part) located() located {
	switch {
	case p.Route != nil:
		return p.Route
	case p.Stay != nil:
		return p.Stay
	}
	return nil
}

// increasing says what is wrong with times that should increase.
func increasing(n int, at func(i int) time.Time) (i int, wrong string) {
	for i := 1; i < n; i++ {
		if a, b := at(i-1), at(i); !a.IsZero() && !b.IsZero() && !b.After(a) {
			return i, "not after the time before it; times that increase are wanted"
		}
	}
	return 0, ""
}

// inOrder adds to a list the check that its times increase.
func inOrder(f field, n func() int, at func(i int) time.Time) field {
	items := f.check
	f.check = func(c *checker) {
		items(c)
		if i, wrong := increasing(n(), at); wrong != "" {
			c.wrong(fmt.Sprintf("%s[%d].time", f.key, i), wrong)
		}
	}
	return f
}
