// Program crossings compares our look-up of what legs meet with other
// libraries, over legs of the chart US5MA12M: which depth areas the legs meet
// and where they cross them (flatbush with plane tests by hand, and turf with rbush,
// under Node), and what lies within their corridors (GEOS through shapely). Ours runs native and, compiled to
// WebAssembly, under Node, over the same layers as the peer; and native over the
// whole chart, as the product does. It fails where answers disagree.
//
//	npm ci --prefix testdata/bench/crossings
//	go -C testdata/bench run ./crossings [-rounds 7] [-legs 200] [-python /usr/bin/python3]
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/crossings/legs"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "crossings:", err)
		os.Exit(1)
	}
}

func run() error {
	rounds := flag.Int("rounds", 7, "rounds; the first of each is not counted, it warms up")
	count := flag.Int("legs", 200, "legs in a round")
	python := flag.String("python", "/usr/bin/python3", "a Python that has shapely")
	halfM := flag.Float64("half", 25, "half-width of the corridor in metres")
	flag.Parse()
	folder, err := contest.Shared("charts", "US5MA12M", "geojson")
	if err != nil {
		return err
	}
	temporary, err := os.MkdirTemp("", "crossings")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temporary)
	b, err := newBench(temporary, folder, *python)
	if err != nil {
		return err
	}
	b.rounds, b.count = *rounds, *count
	areas, errAreas := b.areas()
	things, errThings := b.things(*halfM)
	rows := append(areas, things...)
	contest.Print(os.Stdout, "leg", rows)
	return errors.Join(errAreas, errThings, disagreement(rows))
}

func disagreement(rows []contest.Row) error {
	var wrong []string
	for _, r := range rows {
		if r.Agree != r.Of {
			wrong = append(wrong, fmt.Sprintf("%s, %s and %s: %d of %d", r.Task, r.Ours, r.Peer, r.Agree, r.Of))
		}
	}
	if len(wrong) > 0 {
		return fmt.Errorf("answers disagree: %s", strings.Join(wrong, "; "))
	}
	return nil
}

// bench knows how to start everyone.
type bench struct {
	rounds, count int
	folder, here  string
	python        string
	native, wasm  []string
}

func newBench(temporary, folder, python string) (*bench, error) {
	root, err := contest.Root()
	if err != nil {
		return nil, err
	}
	b := &bench{folder: folder, python: python, here: filepath.Join(root, "testdata", "bench", "crossings")}
	if _, err := os.Stat(filepath.Join(b.here, "node_modules")); err != nil {
		return nil, errors.New("turf is missing: run `npm ci --prefix testdata/bench/crossings`")
	}
	b.native, b.wasm, err = contest.Build(temporary, "./crossings/ours")
	return b, err
}

// ours gives our three contestants; the first two read only the named layers.
func (b *bench) ours(layers ...string) map[string][]string {
	few := append([]string{b.folder}, layers...)
	return map[string][]string{
		native: append(b.native[:len(b.native):len(b.native)], few...),
		wasm:   append(b.wasm[:len(b.wasm):len(b.wasm)], few...),
		whole:  append(b.native[:len(b.native):len(b.native)], b.folder),
	}
}

// Names of the contestants.
const (
	native = "native"
	wasm   = "wasm in Node"
	whole  = "native, whole chart"
	flat   = "flatbush, plain JS"
	turf   = "turf+rbush, areas"
	pieces = "turf+rbush, pieces"
	geos   = "GEOS, shapely"
)

// areas compares the areas that centre lines meet.
func (b *bench) areas() ([]contest.Row, error) {
	commands := b.ours("DEPARE")
	script := filepath.Join(b.here, "turf.mjs")
	commands[flat] = []string{"node", filepath.Join(b.here, "flatbush.mjs"), b.folder}
	commands[turf] = []string{"node", script, b.folder, "areas"}
	commands[pieces] = []string{"node", script, b.folder, "pieces"}
	rows := rowsOf("areas crossed", []string{native, wasm, whole}, []string{flat, turf, pieces})
	err := b.play(commands, rows, 0, func(field *field, t legs.Task, row *contest.Row) (int, error) {
		return agreeAreas(row.Ours+" and "+row.Peer, t, field.said[row.Ours].Areas, field.said[row.Peer].Areas), nil
	})
	return rows, err
}

// things compares what lies in corridors.
func (b *bench) things(halfM float64) ([]contest.Row, error) {
	commands := b.ours("DEPARE", "DEPCNT", "SOUNDG", "UWTROC", "OBSTRN", "WRECKS")
	commands[geos] = []string{b.python, filepath.Join(b.here, "geos.py"), b.folder}
	rows := rowsOf(fmt.Sprintf("corridor of %g m", halfM), []string{native, wasm, whole}, []string{geos})
	err := b.play(commands, rows, halfM, func(field *field, t legs.Task, row *contest.Row) (int, error) {
		narrow, err := field.again(row.Peer, t, halfM-limitM)
		if err != nil {
			return 0, err
		}
		wide, err := field.again(row.Peer, t, halfM+limitM)
		if err != nil {
			return 0, err
		}
		return agreeThings(row.Ours+" and "+row.Peer, t, field.said[row.Ours].Things, narrow.Things, wide.Things), nil
	})
	return rows, err
}

func rowsOf(task string, ours, peers []string) (rows []contest.Row) {
	for _, p := range peers {
		for _, o := range ours {
			rows = append(rows, contest.Row{Task: task, Ours: o, Peer: p})
		}
	}
	return rows
}
