package main

import (
	"fmt"
	"math"
	"os"
	"slices"

	"keelroom/testdata/bench/crossings/legs"
)

// Crossings of the same boundary may lie so far apart, metres: where a leg runs
// along a boundary at a small angle, a millimetre across is much along.
const crossingM = 0.5

// Things so close to the limit may be in or out, metres.
const limitM = 0.05

// agreeAreas counts the legs for which both found the same areas, crossed at
// the same places, and reports the others on standard error.
func agreeAreas(peer string, t legs.Task, ours, theirs [][]legs.Area) int {
	agree := 0
	for i, leg := range t.Legs {
		if wrong := differAreas(ours[i], theirs[i]); len(wrong) > 0 {
			report(peer, leg, wrong)
			continue
		}
		agree++
	}
	return agree
}

func differAreas(ours, theirs []legs.Area) (wrong []string) {
	for _, a := range ours {
		k := slices.IndexFunc(theirs, func(b legs.Area) bool { return a.ID == b.ID })
		if k < 0 {
			wrong = append(wrong, fmt.Sprintf("%s: only ours, %d crossings %v", a.ID, len(a.Cross), a.Cross))
			continue
		}
		wrong = append(wrong, lonely(a.ID+": only ours crosses at", a.Cross, theirs[k].Cross)...)
		wrong = append(wrong, lonely(a.ID+": only the peer crosses at", theirs[k].Cross, a.Cross)...)
	}
	for _, b := range theirs {
		if !slices.ContainsFunc(ours, func(a legs.Area) bool { return a.ID == b.ID }) {
			wrong = append(wrong, fmt.Sprintf("%s: only the peer, %d crossings %v", b.ID, len(b.Cross), b.Cross))
		}
	}
	return wrong
}

// lonely names the places of a with none of b near.
func lonely(what string, a, b [][2]float64) (out []string) {
	for _, p := range a {
		if !slices.ContainsFunc(b, func(q [2]float64) bool { return metres(p, q) <= crossingM }) {
			out = append(out, fmt.Sprintf("%s %.7f %.7f", what, p[0], p[1]))
		}
	}
	return out
}

// metres between places close to each other.
func metres(p, q [2]float64) float64 {
	const degree = math.Pi / 180 * 6371000
	return degree * math.Hypot((p[0]-q[0])*math.Cos(p[1]*math.Pi/180), p[1]-q[1])
}

// agreeThings counts the legs for which ours found all that the peer finds in
// the narrowed corridor, and nothing that it does not in the widened one.
func agreeThings(peer string, t legs.Task, ours, narrow, wide [][]string) int {
	agree := 0
	for i, leg := range t.Legs {
		var wrong []string
		for _, id := range missing(narrow[i], ours[i]) {
			wrong = append(wrong, id+": only the peer")
		}
		for _, id := range missing(ours[i], wide[i]) {
			wrong = append(wrong, id+": only ours")
		}
		if len(wrong) > 0 {
			report(peer, leg, wrong)
			continue
		}
		agree++
	}
	return agree
}

// missing gives what a has and b has not.
func missing(a, b []string) (out []string) {
	for _, id := range a {
		if !slices.Contains(b, id) {
			out = append(out, id)
		}
	}
	return out
}

func report(peer string, leg [4]float64, wrong []string) {
	for _, w := range wrong {
		fmt.Fprintf(os.Stderr, "leg %.9f %.9f to %.9f %.9f, %s: %s\n", leg[0], leg[1], leg[2], leg[3], peer, w)
	}
}
