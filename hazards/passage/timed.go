package passage

import (
	"time"

	"github.com/twpayne/go-geom"
)

// Timed is the track as one line of positions with their time, for whoever has
// to show where she is at an hour: X longitude and Y latitude in degrees, M seconds
// since 1970-01-01 UTC, whole milliseconds. There is a vertex at each end of every
// step, and at a stay one on arriving and one on leaving.
// Between vertices legs are rhumb lines and speed changes at a constant rate.
func (t *Track) Timed() *geom.LineString {
	var flat []float64
	add := func(lon, lat float64, at time.Time) {
		flat = append(flat, lon, lat, float64(at.UnixMilli())/1000)
	}
	for i := range t.Legs {
		leg := &t.Legs[i]
		for _, s := range t.StepsOf(leg) {
			p := leg.Rhumb.At(s.FromM)
			add(p.Lon(), p.Lat(), s.Start)
		}
		if i == len(t.Legs)-1 || t.Legs[i+1].Route != leg.Route {
			add(leg.Rhumb.To.Lon(), leg.Rhumb.To.Lat(), leg.End)
		}
	}
	return geom.NewLineStringFlat(geom.XYM, flat)
}
