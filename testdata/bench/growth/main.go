// Program growth shows how the work grows with the chart: charts of 10⁵, 10⁶ and 10⁷
// positions of invented water (package waters) are decoded and indexed, a day of forty
// legs is checked on them, and one of its waypoints is moved. The legs meet as much on
// each. It fails where the recheck grows faster than the logarithm of the chart.
//
// Then a set nearly as large as is read, 64 MiB of files, is loaded by the engine of the
// app's worker: native and under Node, with the memory that the process took for each
// byte of the files, these among it. Five million
// positions, the most of the profile, have larger files, but for those of few decimals:
// they are refused in words.
//
//	go -C testdata/bench run ./growth
//
// With a folder that it made, and how many tiles wide the water is, as its arguments it
// measures in its own process and prints JSON; with 0 tiles it loads the folder's one set
// by the engine of the app's worker.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"time"

	"keelroom/geo/layer"
	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/growth/waters"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "growth:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 2 {
		return compare()
	}
	side, err := strconv.Atoi(args[1])
	if err != nil {
		return fmt.Errorf("%q: a number of tiles is wanted", args[1])
	}
	work := func() (*measured, error) { return measure(args[0], side) }
	if side == 0 {
		work = func() (*measured, error) { return load(args[0]) }
	}
	m, err := work()
	if err != nil {
		return err
	}
	return json.NewEncoder(os.Stdout).Encode(m)
}

// sizes are the charts, and of how many sets they are: one has at most 64 MiB of files.
var sizes = []struct{ positions, sets int }{{100_000, 1}, {1_000_000, 1}, {10_000_000, 8}}

func compare() error {
	temporary, err := os.MkdirTemp("", "growth")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temporary)
	native, wasm, err := contest.Build(temporary, "./growth")
	if err != nil {
		return err
	}
	grown, err := table(temporary, native)
	if err != nil {
		return err
	}
	return errors.Join(grown, loading(temporary, native, wasm), refused())
}

// mostMemory is how many times as much memory as the files of a set loading it may take,
// the files among it.
const mostMemory = 3

// loading prints what a set nearly as large as is read takes of memory. It fails where
// that is too much.
func loading(temporary string, native, wasm []string) (tooMuch error) {
	folder := filepath.Join(temporary, "most")
	if _, err := write(folder, 2_000_000, 1); err != nil {
		return err
	}
	for _, v := range []struct {
		name    string
		command []string
	}{{"native", native}, {"wasm in Node", wasm}} {
		m, err := ask(v.command, filepath.Join(folder, "0"), 0)
		if err != nil {
			return err
		}
		times := m.PeakMB / m.FileMB
		fmt.Printf("%s, the engine of the worker: %.0f MB of files read, drawn (%.0f MB) and indexed in %.1f s, memory taken %.2f × the files\n",
			v.name, m.FileMB, m.DrawnMB, m.DecodeS, times)
		if times > mostMemory {
			tooMuch = fmt.Errorf("%s: a set takes %.2f × the memory of its files; wanted %d or less", v.name, times, mostMemory)
		}
	}
	return tooMuch
}

// refused loads as many positions as the profile has at most, with seven decimals, and
// prints the words in which they are refused.
func refused() error {
	side := waters.Side(layer.MaxPositions)
	files := waters.Files(0, 0, side, side)
	begun := time.Now()
	set, messages := layer.Decode(files)
	if set != nil {
		return errors.New("files of more than 64 MiB are read")
	}
	fmt.Printf("%d positions: %v (told after %.3f s)\n", layer.MaxPositions, messages, time.Since(begun).Seconds())
	return nil
}

// write makes a chart of about so many positions in a folder, a folder for each of its
// sets, which lie side by side.
func write(folder string, positions, sets int) (side int, err error) {
	side = waters.Side(positions)
	for k := range sets {
		from, to := side*k/sets, side*(k+1)/sets
		set := filepath.Join(folder, strconv.Itoa(k))
		if err := os.MkdirAll(set, 0o755); err != nil {
			return 0, err
		}
		for _, f := range waters.Files(from, 0, to-from, side) {
			if err := os.WriteFile(filepath.Join(set, f.Name), f.Data, 0o644); err != nil {
				return 0, err
			}
		}
	}
	return side, nil
}

// table prints the charts of all sizes; the error says what grows too fast.
func table(temporary string, command []string) (tooFast, err error) {
	fmt.Printf("%-10s %8s %8s %9s %8s %10s %11s %8s %9s %8s\n", "positions", "files MB", "features", "decode s", "index s", "cold ms", "moved ms", "allocs", "hits", "peak MB")
	var before *measured
	for _, s := range sizes {
		folder := filepath.Join(temporary, strconv.Itoa(s.positions))
		side, err := write(folder, s.positions, s.sets)
		if err != nil {
			return nil, err
		}
		m, err := ask(command, folder, side)
		if err != nil {
			return nil, err
		}
		fmt.Printf("%-10d %8.1f %8d %9.2f %8.2f %10.2f %11.3f %8d %9d %8.0f\n", m.Positions, m.FileMB, m.Features, m.DecodeS, m.IndexS, m.ColdMS, m.MovedMS, m.Allocs, m.Hits, m.PeakMB)
		if before != nil {
			tooFast = grewBeyond(before, m, tooFast)
		}
		before = m
	}
	return tooFast, nil
}

// slack is how much faster than the logarithm a time may grow before it is told: caches
// of the processor hold less of a larger chart, and other programs run beside.
const slack = 1.6

func grewBeyond(before, m *measured, tooFast error) error {
	n := float64(m.Positions) / float64(before.Positions)
	logs := math.Log(float64(m.Positions)) / math.Log(float64(before.Positions))
	moved := m.MovedMS / before.MovedMS * float64(before.Hits) / float64(m.Hits)
	fmt.Printf("  × %.1f positions: decode × %.1f, index × %.1f, cold × %.2f, moved at equal hits × %.2f (log n × %.2f)\n", n,
		m.DecodeS/before.DecodeS, m.IndexS/before.IndexS, m.ColdMS/before.ColdMS, moved, logs)
	if moved > slack*logs {
		return fmt.Errorf("from %d to %d positions the recheck grows by %.2f at equal hits, the logarithm by %.2f", before.Positions, m.Positions, moved, logs)
	}
	return tooFast
}

func ask(command []string, folder string, side int) (*measured, error) {
	cmd := exec.Command(command[0], append(command[1:len(command):len(command)], folder, strconv.Itoa(side))...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", folder, err)
	}
	var m measured
	if err := json.Unmarshal(out, &m); err != nil {
		return nil, fmt.Errorf("%s: %w", folder, err)
	}
	return &m, nil
}
