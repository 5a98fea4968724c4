// Program discs compares our look-up of what lies in a disc with GEOS through shapely,
// for depth and land alone, at places of the chart US5MA12M: which discs of the size of a
// swinging circle are clear. Ours runs native and, compiled to WebAssembly, under Node;
// besides the answer it works out on which bearings everything lies. It fails where
// answers disagree by more than the two projections do.
//
//	go -C testdata/bench run ./discs [-rounds 7] [-places 2000] [-python /usr/bin/python3]
package main

import (
	"errors"
	"flag"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"

	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/discs/task"
)

// limitM is how far the two may disagree about where an outline lies: GEOS's circle of
// chords and its projection over the whole chart.
const limitM = 0.2

// The waters of the chart.
const west, south, east, north = -71.05, 42.20, -70.80, 42.40

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "discs:", err)
		os.Exit(1)
	}
}

func run() error {
	rounds := flag.Int("rounds", 7, "rounds; the first is not counted, it warms up")
	places := flag.Int("places", 2000, "places in a round")
	python := flag.String("python", "/usr/bin/python3", "a Python that has shapely")
	flag.Parse()
	root, err := contest.Root()
	if err != nil {
		return err
	}
	folder, err := contest.Shared("charts", "US5MA12M", "geojson")
	if err != nil {
		return err
	}
	temporary, err := os.MkdirTemp("", "discs")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temporary)
	native, wasm, err := contest.Build(temporary, "./discs/ours")
	if err != nil {
		return err
	}
	var field [3]*contest.Contestant
	for i, command := range [][]string{append(native, folder), append(wasm, folder), {*python, filepath.Join(root, "testdata", "bench", "discs", "geos.py"), folder}} {
		if field[i], err = contest.Start([...]string{"native", "wasm in Node", "GEOS, shapely"}[i], command); err != nil {
			return err
		}
		defer field[i].Stop()
	}
	rows := []contest.Row{{Task: "clear discs", Ours: field[0].Name, Peer: field[2].Name}, {Task: "clear discs", Ours: field[1].Name, Peer: field[2].Name}}
	rnd := rand.New(rand.NewSource(20261128))
	clear := 0
	for round := range *rounds {
		n, err := play(field, rows, randomTask(rnd, *places), round > 0)
		if err != nil {
			return err
		}
		clear += n
	}
	contest.Print(os.Stdout, "disc", rows)
	fmt.Printf("%d of %d discs are clear\n", clear, rows[0].Of)
	for _, r := range rows {
		if r.Agree != r.Of {
			return errors.New("answers disagree")
		}
	}
	if clear == 0 || clear == rows[0].Of {
		return errors.New("all discs are alike: nothing is compared")
	}
	return nil
}

func randomTask(rnd *rand.Rand, places int) task.Task {
	t := task.Task{RadiusM: 40 + 20*rnd.Float64(), NeedM: []float64{1.8, 3.6, 5.4}[rnd.Intn(3)]}
	for range places {
		t.Places = append(t.Places, [2]float64{west + (east-west)*rnd.Float64(), south + (north-south)*rnd.Float64()})
	}
	return t
}

// play asks all contestants, and the peer about discs that are a little smaller and larger
// too: where those differ either answer is right. It tells how many discs are clear.
func play(field [3]*contest.Contestant, rows []contest.Row, t task.Task, counts bool) (clear int, err error) {
	var said [3]task.Answers
	for i, c := range field {
		if err := c.Ask(t, &said[i]); err != nil {
			return 0, err
		}
	}
	var small, large task.Answers
	for by, a := range map[float64]*task.Answers{-limitM: &small, limitM: &large} {
		other := t
		other.RadiusM += by
		if err := field[2].Ask(other, a); err != nil {
			return 0, err
		}
	}
	for i := range rows {
		r, n := &rows[i], float64(len(t.Places))
		for k, ours := range said[i].Clear {
			r.Of++
			if ours == small.Clear[k] || ours == large.Clear[k] {
				r.Agree++
			} else {
				fmt.Fprintf(os.Stderr, "%v, %.1f m, %.1f m deep: ours %v, GEOS %v\n", t.Places[k], t.RadiusM, t.NeedM, ours, said[2].Clear[k])
			}
		}
		if counts {
			r.OursNs, r.PeerNs = append(r.OursNs, float64(said[i].Ns)/n), append(r.PeerNs, float64(said[2].Ns)/n)
		}
	}
	for _, c := range said[2].Clear {
		if c {
			clear++
		}
	}
	return clear, nil
}
