package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/testdata/bench/contest"
	"keelroom/testdata/bench/growth/waters"
)

// measured is what was measured of one chart.
type measured struct {
	Positions, Features, Hits int
	FileMB, DrawnMB, PeakMB   float64
	DecodeS, IndexS           float64
	ColdMS, MovedMS           float64
	Allocs                    int
}

const (
	legs  = 40
	moves = 100
)

func measure(folder string, side int) (*measured, error) {
	m := &measured{}
	all, err := m.decode(folder)
	if err != nil {
		return nil, err
	}
	begun := time.Now()
	c := chart.New(all...)
	m.IndexS = time.Since(begun).Seconds()
	m.Features = len(c.Features())
	var s runtime.MemStats
	runtime.ReadMemStats(&s)
	m.PeakMB = float64(s.Sys) / 1e6 // what was taken from the machine: it is never less later
	return m, m.check(c, side)
}

// decode reads the sets of a chart one after the other: each set's files are let go
// before the next.
func (m *measured) decode(folder string) ([]*chart.Set, error) {
	folders, err := filepath.Glob(filepath.Join(folder, "*"))
	if err != nil || len(folders) == 0 {
		return nil, fmt.Errorf("no sets in %s", folder)
	}
	var all []*chart.Set
	for _, f := range folders {
		files, err := m.read(f)
		if err != nil {
			return nil, err
		}
		begun := time.Now()
		set, messages := layer.Decode(files)
		m.DecodeS += time.Since(begun).Seconds()
		if set == nil {
			return nil, fmt.Errorf("the invented water is refused: %v", messages)
		}
		for i := range set.Features {
			m.Positions += len(set.Features[i].Coords)
		}
		all = append(all, set)
	}
	return all, nil
}

func (m *measured) read(folder string) ([]layer.File, error) {
	paths, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(paths) == 0 {
		return nil, fmt.Errorf("no layers in %s", folder)
	}
	var files []layer.File
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		m.FileMB += float64(len(data)) / 1e6
		files = append(files, layer.File{Name: filepath.Base(path), Data: data})
	}
	return files, nil
}

// check checks a day in the middle of the chart, and again with one waypoint moved.
func (m *measured) check(c *chart.Chart, side int) error {
	p, err := day(side)
	if err != nil {
		return err
	}
	s := hazards.NewSession(c)
	begun := time.Now()
	if _, err := s.Check(p); err != nil {
		return err
	}
	m.ColdMS = float64(time.Since(begun).Microseconds()) / 1000
	points := p.Parts[0].Route.Points
	rnd, middle := rand.New(rand.NewPCG(20, 26)), points[legs/2]
	var times []float64
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for range moves {
		points[legs/2] = orb.Point{middle[0] + 2e-4*(rnd.Float64()-0.5), middle[1] + 2e-4*(rnd.Float64()-0.5)}
		begun := time.Now()
		if _, err := s.Check(p); err != nil {
			return err
		}
		times = append(times, float64(time.Since(begun).Microseconds())/1000)
	}
	runtime.ReadMemStats(&after)
	slices.Sort(times) // a tenth are quicker: what other programs took meanwhile is left out
	m.MovedMS, m.Allocs = times[len(times)/10], int(after.Mallocs-before.Mallocs)/moves
	m.countHits(c, points)
	return nil
}

// countHits counts what the two legs at the waypoint meet.
func (m *measured) countHits(c *chart.Chart, points []orb.Point) {
	q := c.NewQuery()
	for i := legs/2 - 1; i <= legs/2; i++ {
		for _, piece := range chart.Pieces(geo.NewRhumb(points[i], points[i+1])) {
			m.Hits += len(q.Along(piece, chart.Reach{HalfM: 25, HazardM: 10, WideM: 50}).Hits)
		}
	}
}

// day is the boat, the tide and the weather of the test plan, on a way of forty legs to
// and fro in the middle of the water.
func day(side int) (*plan.Plan, error) {
	root, err := contest.Root()
	if err != nil {
		return nil, err
	}
	text, err := os.ReadFile(filepath.Join(root, "testdata", "plans", "roads-day.geojson"))
	if err != nil {
		return nil, err
	}
	p, err := plan.Decode(text)
	if err != nil {
		return nil, err
	}
	route := *p.Parts[0].Route
	route.Points, route.SpeedsKn = nil, nil
	middle := float64(side / 2)
	for i := range legs + 1 {
		route.Points = append(route.Points, waters.At(middle+0.31*float64(i%8)-1.2, middle+0.23*float64(i%5)+0.11*float64(i/8)-0.7))
	}
	p.Parts, p.Berths = []plan.Part{{Route: &route}}, nil
	return p, nil
}
