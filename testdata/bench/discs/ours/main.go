// Program ours answers the tasks of the benchmark of discs: see package main one folder
// up. Argument: a folder of layers.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/discs/task"
)

func main() {
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "discs, ours:", err)
		os.Exit(1)
	}
}

func run(folder string) error {
	c, err := load(folder)
	if err != nil {
		return err
	}
	q := c.NewQuery()
	return contest.Serve(func(t task.Task) (task.Answers, error) {
		var a task.Answers
		begun := time.Now()
		for _, p := range t.Places {
			d := q.Disc(orb.Point(p), t.RadiusM, 0)
			a.Clear = append(a.Clear, clear(&d, t.NeedM))
		}
		a.Ns = time.Since(begun).Nanoseconds()
		return a, nil
	})
}

func clear(d *chart.Disc, needM float64) bool {
	for i := range d.Things {
		switch t := &d.Things[i]; {
		case t.Class == chart.LNDARE:
			return false
		case t.Class == chart.DEPARE && t.DepthMinM < needM:
			return false
		}
	}
	return true
}

// load reads the layers that the peer reads too.
func load(folder string) (*chart.Chart, error) {
	var files []layer.File
	for _, name := range []string{"DEPARE", "LNDARE", "M_COVR"} {
		data, err := os.ReadFile(filepath.Join(folder, name+".geojson"))
		if err != nil {
			return nil, err
		}
		files = append(files, layer.File{Name: name + ".geojson", Data: data})
	}
	set, messages := layer.Decode(files)
	if set == nil {
		return nil, fmt.Errorf("%s: %v", folder, messages)
	}
	return chart.New(set), nil
}
