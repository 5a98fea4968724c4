// Program tide compares years of hourly heights of tide at Boston with those of
// a JavaScript library: another year each round, the first of them uncounted.
// Ours runs native and, compiled to WebAssembly, under Node. It fails where a
// height differs by more than 5 mm: the peer holds node factors for a day and
// uses other astronomical constants.
//
//	npm ci --prefix testdata/bench/tide
//	go -C testdata/bench run ./tide [-rounds 10]
package main

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/tide/year"
)

const (
	mostOffM  = 0.005
	firstYear = 2017
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "tide:", err)
		os.Exit(1)
	}
}

func run() (err error) {
	rounds := flag.Int("rounds", 10, "rounds, a year each")
	flag.Parse()
	temporary, err := os.MkdirTemp("", "tide")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temporary)
	names := []string{"native", "wasm in Node", "tide-predictor"}
	argv, err := commands(temporary)
	if err != nil {
		return err
	}
	var all []*contest.Contestant
	defer func() {
		for _, c := range all {
			err = errors.Join(err, c.Stop())
		}
	}()
	for i, name := range names {
		c, err := contest.Start(name, argv[i])
		if err != nil {
			return err
		}
		all = append(all, c)
	}
	rows := []contest.Row{
		{Task: "a year of heights", Ours: names[0], Peer: names[2]},
		{Task: "a year of heights", Ours: names[1], Peer: names[2]},
	}
	worst, err := play(all, rows, *rounds)
	if err != nil {
		return err
	}
	contest.Print(os.Stdout, "height", rows)
	fmt.Printf("off by at most %.1f mm\n", worst*1000)
	if worst > mostOffM {
		return fmt.Errorf("a height differs by %.1f mm; wanted at most %.0f", worst*1000, mostOffM*1000)
	}
	return nil
}

func commands(temporary string) ([][]string, error) {
	root, err := contest.Root()
	if err != nil {
		return nil, err
	}
	here := filepath.Join(root, "testdata", "bench", "tide")
	if _, err := os.Stat(filepath.Join(here, "node_modules")); err != nil {
		return nil, errors.New("the peer is missing: run `npm ci --prefix testdata/bench/tide`")
	}
	native, wasm, err := contest.Build(temporary, "./tide/ours")
	if err != nil {
		return nil, err
	}
	station := filepath.Join(root, "hazards", "tide", "testdata", "tide_noaa_8443970.json")
	return [][]string{append(native, station), append(wasm, station), {"node", filepath.Join(here, "peer.mjs")}}, nil
}

// play asks for a year a round, from another first contestant each time. The
// last contestant is the peer of all rows, the others are ours in their order.
func play(all []*contest.Contestant, rows []contest.Row, rounds int) (worst float64, err error) {
	said := make([]year.Heights, len(all))
	for round := range rounds {
		for i := range all {
			k := (i + round) % len(all)
			said[k] = year.Heights{}
			if err := all[k].Ask(year.Task{Year: firstYear + round}, &said[k]); err != nil {
				return worst, err
			}
		}
		peer := said[len(all)-1]
		for i := range rows {
			off, err := note(&rows[i], said[i], peer, round > 0)
			if err != nil {
				return worst, err
			}
			worst = max(worst, off)
		}
	}
	return worst, nil
}

func note(row *contest.Row, ours, peer year.Heights, timed bool) (worst float64, err error) {
	n := len(peer.HeightsM)
	if n != len(ours.HeightsM) || n < 365*24 {
		return 0, fmt.Errorf("%s has %d heights, %s %d; wanted a year of hours", row.Ours, len(ours.HeightsM), row.Peer, n)
	}
	for i, h := range peer.HeightsM {
		off := math.Abs(h - ours.HeightsM[i])
		if off <= mostOffM {
			row.Agree++
		}
		worst = max(worst, off)
	}
	row.Of += n
	if timed {
		row.OursNs = append(row.OursNs, float64(ours.Ns)/float64(n))
		row.PeerNs = append(row.PeerNs, float64(peer.Ns)/float64(n))
	}
	return worst, nil
}
