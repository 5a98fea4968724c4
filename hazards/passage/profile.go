package passage

import (
	"math"
	"slices"
)

// line is a bound on the square of the speed over [from, to] metres of a
// route, linear between its ends.
type line struct {
	from, to float64
	a, b     float64 // kn² at from and at to
	why      Why
}

func (l line) at(x float64) float64 {
	if l.to <= l.from {
		return math.Min(l.a, l.b)
	}
	return l.a + (l.b-l.a)*(x-l.from)/(l.to-l.from)
}

// lowest gives the lower envelope of base, which covers [0, length] without
// gaps, and of the slow-down lines, as consecutive lines.
func lowest(base, slows []line) []line {
	out := make([]line, 0, len(base)+2*len(slows))
	for _, b := range base {
		for len(slows) > 0 && slows[0].to <= b.from { // they begin and end in order
			slows = slows[1:]
		}
		n := 0
		for n < len(slows) && slows[n].from < b.to {
			n++
		}
		out = appendUnder(out, b, slows[:n])
	}
	return out
}

// appendUnder cuts one base line where slow-down lines begin, end or cross, and
// takes the lowest on each part.
func appendUnder(out []line, b line, slows []line) []line {
	if !slices.ContainsFunc(slows, b.overlaps) {
		if b.to-b.from > 1e-6 {
			out = append(out, b)
		}
		return out
	}
	var over []line
	cuts := []float64{b.from, b.to}
	for _, s := range slows {
		if b.overlaps(s) {
			over = append(over, s)
			cuts = append(cuts, math.Max(b.from, s.from), math.Min(b.to, s.to))
		}
	}
	all := append([]line{b}, over...)
	for i := range all {
		for j := i + 1; j < len(all); j++ {
			if x, ok := meet(all[i], all[j]); ok && x > b.from && x < b.to {
				cuts = append(cuts, x)
			}
		}
	}
	slices.Sort(cuts)
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] > 1e-6 {
			out = append(out, lowestOn(all, cuts[i-1], cuts[i]))
		}
	}
	return out
}

// overlaps reports whether two lines have a stretch in common.
func (l line) overlaps(s line) bool { return s.from < l.to && s.to > l.from }

func lowestOn(all []line, from, to float64) line {
	mid := (from + to) / 2
	best := all[0]
	for _, l := range all[1:] {
		if l.from <= mid && mid <= l.to && l.at(mid) < best.at(mid) {
			best = l
		}
	}
	return line{from, to, best.at(from), best.at(to), best.why}
}

// meet is where two lines have the same value.
func meet(p, q line) (float64, bool) {
	from, to := math.Max(p.from, q.from), math.Min(p.to, q.to)
	if from >= to {
		return 0, false
	}
	d0, d1 := p.at(from)-q.at(from), p.at(to)-q.at(to)
	if (d0 < 0) == (d1 < 0) {
		return 0, false
	}
	return from + (to-from)*d0/(d0-d1), true
}

// slowDowns gives the line over the last metres before each place where a
// limit takes the speed down. The rate is that from the greatest base speed
// of the stretch.
func slowDowns(base []line, overM float64) []line {
	var out []line
	for i := 1; i < len(base); i++ {
		l := base[i]
		if l.why != InZone && l.why != NearBerth || l.a >= base[i-1].b {
			continue
		}
		from := math.Max(0, l.from-overM)
		fastest := 0.0
		for j := i - 1; j >= 0 && base[j].to > from; j-- {
			fastest = math.Max(fastest, base[j].a)
		}
		if l.from > from {
			// Where the route is shorter than the way needed she never got up
			// to speed: the rate stays that of the full way.
			start := l.a + (fastest-l.a)*(l.from-from)/overM
			out = append(out, line{from, l.from, start, l.a, Slowing})
		}
	}
	return out
}
