// Program ours answers the tasks of the benchmark of legs: see package main one
// folder up. Arguments: a folder of layers and the names of those to load; no
// name loads all of them. The task and answer types are those of legs.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/crossings/legs"
)

func main() {
	if err := run(os.Args[1], os.Args[2:]); err != nil {
		fmt.Fprintln(os.Stderr, "crossings, ours:", err)
		os.Exit(1)
	}
}

func run(folder string, names []string) error {
	c, err := load(folder, names)
	if err != nil {
		return err
	}
	q := c.NewQuery()
	return contest.Serve(func(t legs.Task) (legs.Answers, error) {
		var a legs.Answers
		begun := time.Now()
		if t.HalfM == 0 {
			a.Areas = areas(q, t)
		} else {
			a.Things = things(q, t)
		}
		a.Ns = time.Since(begun).Nanoseconds()
		return a, nil
	})
}

func load(folder string, names []string) (*chart.Chart, error) {
	paths, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(paths) == 0 {
		return nil, fmt.Errorf("no layers in %s", folder)
	}
	var files []layer.File
	for _, path := range paths {
		name := filepath.Base(path)
		if len(names) > 0 && !slices.Contains(names, name[:len(name)-len(".geojson")]) {
			continue
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		files = append(files, layer.File{Name: name, Data: data})
	}
	set, messages := layer.Decode(files)
	if set == nil {
		return nil, fmt.Errorf("%s: %v", folder, messages)
	}
	return chart.New(set), nil
}

// areas gives the depth areas that each leg's centre line meets, and where it
// crosses their boundaries.
func areas(q *chart.Query, t legs.Task) [][]legs.Area {
	out := make([][]legs.Area, len(t.Legs))
	for i, l := range t.Legs {
		p := chart.NewPiece(orb.Point{l[0], l[1]}, orb.Point{l[2], l[3]})
		for _, h := range q.Along(p, chart.Reach{}).Hits {
			if h.Class != chart.DEPARE || len(h.Inside) == 0 && len(h.Cross) == 0 {
				continue
			}
			a := legs.Area{ID: id(h.Feature)}
			for _, s := range h.Cross {
				a.Cross = append(a.Cross, p.At(s))
			}
			out[i] = append(out[i], a)
		}
	}
	return out
}

// things gives the depth areas, contours, soundings and dangers within each
// leg's corridor.
func things(q *chart.Query, t legs.Task) [][]string {
	out := make([][]string, len(t.Legs))
	for i, l := range t.Legs {
		p := chart.NewPiece(orb.Point{l[0], l[1]}, orb.Point{l[2], l[3]})
		for _, h := range q.Along(p, chart.Reach{HalfM: t.HalfM}).Hits {
			switch {
			case len(h.Near) == 0:
			case h.Class == chart.DEPARE, h.Class == chart.DEPCNT, h.Class == chart.SOUNDG, h.Class.Danger():
				out[i] = append(out[i], id(h.Feature))
			}
		}
	}
	return out
}

// id names a feature by its class and its place in the file of that class.
func id(f *chart.Feature) string { return f.Class.String() + "/" + strconv.Itoa(f.Index) }
