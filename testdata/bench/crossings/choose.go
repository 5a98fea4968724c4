package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// The charted strip, and the lengths of legs.
const (
	west, east, south, north = -71.05, -70.74, 42.3005, 42.3275
	shortestM                = 200
	longestM                 = chart.MaxPieceM
)

// chooser makes legs from charted soundings, on any course, that stay within
// the strip. The seed is fixed, and no leg comes twice.
type chooser struct {
	from []orb.Point
	rand *rand.Rand
}

func newChooser(folder string) (*chooser, error) {
	path := filepath.Join(folder, "SOUNDG.geojson")
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var file struct {
		Features []struct {
			Geometry struct{ Coordinates []float64 }
		}
	}
	if err := json.Unmarshal(data, &file); err != nil {
		return nil, fmt.Errorf("SOUNDG.geojson: %w; wanted single soundings", err)
	}
	c := &chooser{rand: rand.New(rand.NewPCG(1958, 98))}
	for _, f := range file.Features {
		c.from = append(c.from, orb.Point{f.Geometry.Coordinates[0], f.Geometry.Coordinates[1]})
	}
	if len(c.from) == 0 {
		return nil, fmt.Errorf("SOUNDG.geojson: no soundings; wanted some to start legs from")
	}
	return c, nil
}

func (c *chooser) legs(n int) [][4]float64 {
	var out [][4]float64
	for len(out) < n {
		from := geo.RhumbDirect(c.from[c.rand.IntN(len(c.from))], 360*c.rand.Float64(), 100*c.rand.Float64())
		to := geo.RhumbDirect(from, 360*c.rand.Float64(), shortestM+(longestM-shortestM)*c.rand.Float64())
		if inStrip(from) && inStrip(to) {
			out = append(out, [4]float64{from[0], from[1], to[0], to[1]})
		}
	}
	return out
}

func inStrip(p orb.Point) bool { return p[0] > west && p[0] < east && p[1] > south && p[1] < north }
