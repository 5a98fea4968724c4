package main

import (
	"fmt"
	"math"
	"sort"

	"keelroom/geo/chart/demobed"
)

// arc is a line between two classes of area, shared by both: what is done to
// it is done to the edges of both areas, the contour and the coastline.
type arc struct {
	line        []spot // two or more; a closed line repeats its first spot
	left, right class
}

func (a arc) closed() bool { return a.line[0] == a.line[len(a.line)-1] }

// network is the sides between different classes, by the spot they leave.
type network struct {
	sides map[side]arc // line unused: left and right
	from  map[spot][]side
	to    map[spot][]side
	order []side
}

// junction reports whether v is anything but the middle of one line between
// the same two classes.
func (n network) junction(v spot) bool {
	if len(n.from[v]) != 1 || len(n.to[v]) != 1 {
		return true
	}
	a, b := n.sides[n.to[v][0]], n.sides[n.from[v][0]]
	return a.left != b.left || a.right != b.right
}

// borders keeps each side between two classes once, with the lower class to
// its left.
func (p *pieces) borders() network {
	n := network{sides: map[side]arc{}, from: map[spot][]side{}, to: map[spot][]side{}}
	for _, s := range p.order {
		a := p.left[s]
		b, ok := p.left[side{s.to, s.from}]
		if !ok {
			b = outside
		}
		if a == b || ok && a > b {
			continue
		}
		n.sides[s] = arc{left: a, right: b}
		n.from[s.from] = append(n.from[s.from], s)
		n.to[s.to] = append(n.to[s.to], s)
		n.order = append(n.order, s)
	}
	return n
}

// arcs joins the sides to arcs, which end where three or more classes meet.
func (n network) arcs() []arc {
	used := map[side]bool{}
	var out []arc
	take := func(s side, stop func(spot) bool) {
		if used[s] {
			return
		}
		a := arc{line: []spot{s.from}, left: n.sides[s].left, right: n.sides[s].right}
		for {
			used[s] = true
			a.line = append(a.line, s.to)
			next := n.from[s.to]
			if stop(s.to) || len(next) != 1 || used[next[0]] {
				break
			}
			s = next[0]
		}
		out = append(out, a)
	}
	for _, s := range n.order {
		if n.junction(s.from) {
			take(s, n.junction)
		}
	}
	for _, s := range n.order { // what is left are closed lines
		take(s, func(spot) bool { return false })
	}
	return out
}

// thin leaves out vertices where that moves the line by less than what
// thinningM of depth and farthestM allow (Douglas and Peucker 1973, The
// Canadian Cartographer 10, from memory).
const farthestM = 0.4

func (a arc) thin() arc {
	last := len(a.line) - 1
	if !a.closed() {
		a.line = append(thinBetween(a.line), a.line[last])
		return a
	}
	third := last / 3
	if third < 2 {
		return a
	}
	var line []spot
	for _, part := range [][]spot{a.line[:third+1], a.line[third : 2*third+1], a.line[2*third:]} {
		line = append(line, thinBetween(part)...)
	}
	a.line = append(line, line[0])
	return a
}

// thinBetween thins a line and leaves its last spot to the caller.
func thinBetween(line []spot) []spot {
	last := len(line) - 1
	worst, at := 0.0, 0
	for i := 1; i < last; i++ {
		if d := metresFromLine(line[i], line[0], line[last]); d > worst {
			worst, at = d, i
		}
	}
	if at == 0 || worst <= mayMove(line[0], line[last], worst) {
		return line[:1:1]
	}
	return append(thinBetween(line[:at+1]), thinBetween(line[at:])...)
}

// mayMove is how far the line from a to b may be moved.
func mayMove(a, b spot, reach float64) float64 {
	middle := a.along(b, 0.5)
	r := metresBetween(a, b)/2 + reach + 0.1
	slope := demobed.Within(middle.point(), r).Slope
	if slope == 0 {
		return farthestM
	}
	return math.Min(farthestM, thinningM/slope)
}

// area is a polygon of one class: its outer ring and its holes, closed.
type area struct {
	class class
	rings [][]spot
}

// areas assembles the arcs into polygons, class by class.
func areas(arcs []arc) ([]area, error) {
	byClass := map[class][][]spot{}
	for _, a := range arcs {
		byClass[a.left] = append(byClass[a.left], a.line)
		if a.right != outside {
			byClass[a.right] = append(byClass[a.right], reversed(a.line))
		}
	}
	var out []area
	for c := land; int(c) <= len(contoursM)+len(zones); c++ {
		rings, err := joinRings(byClass[c])
		if err != nil {
			return nil, fmt.Errorf("class %d: %w", c, err)
		}
		out = append(out, nestRings(c, rings)...)
	}
	return out, nil
}

func reversed(line []spot) []spot {
	out := make([]spot, len(line))
	for i, s := range line {
		out[len(line)-1-i] = s
	}
	return out
}

// joinRings joins lines end to end into closed rings.
func joinRings(lines [][]spot) ([][]spot, error) {
	starts := map[spot]int{}
	for i, l := range lines {
		if j, twice := starts[l[0]]; twice && lines[j][0] != lines[j][len(lines[j])-1] {
			return nil, fmt.Errorf("demogen: an area touches itself at %v; move the bed a little", l[0])
		}
		starts[l[0]] = i
	}
	used := make([]bool, len(lines))
	var rings [][]spot
	for i := range lines {
		if used[i] {
			continue
		}
		ring, j := []spot{lines[i][0]}, i
		for !used[j] {
			used[j] = true
			ring = append(ring, lines[j][1:]...)
			j = starts[ring[len(ring)-1]]
		}
		if ring[0] != ring[len(ring)-1] {
			return nil, fmt.Errorf("demogen: an edge from %v does not close", ring[0])
		}
		rings = append(rings, ring)
	}
	return rings, nil
}

// nestRings gives each hole (clockwise) to the smallest outer ring around it.
func nestRings(c class, rings [][]spot) []area {
	var out []area
	var holes [][]spot
	for _, r := range rings {
		if ringArea(r) > 0 {
			out = append(out, area{c, [][]spot{r}})
		} else {
			holes = append(holes, r)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		return ringArea(out[i].rings[0]) < ringArea(out[j].rings[0])
	})
	for _, h := range holes {
		for i := range out {
			if ringHolds(out[i].rings[0], h[0]) {
				out[i].rings = append(out[i].rings, h)
				break
			}
		}
	}
	return out
}

// ringArea is the signed area in square units of 10^-7 degrees.
func ringArea(r []spot) float64 {
	sum := 0.0
	for i := 1; i < len(r); i++ {
		sum += float64(turn(r[0], r[i-1], r[i]))
	}
	return sum / 2
}

// ringHolds tells by ray crossing whether s is inside the ring.
func ringHolds(r []spot, s spot) bool {
	in := false
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if (a.lat > s.lat) == (b.lat > s.lat) {
			continue
		}
		if b.lat < a.lat {
			a, b = b, a
		}
		if turn(a, b, s) > 0 {
			in = !in
		}
	}
	return in
}
