package plan

import (
	"errors"
	"fmt"

	"keelroom/geo/geojson"
)

// Limits of a plan file: as much as a day may hold that is checked, drawn and
// listed while a finger drags it (judgement; larger private layers are opened as
// charts).
const (
	MaxBytes            = 8 << 20
	MaxFeatures         = 4000
	MaxPositions        = 2000 // of routes, stays, berths and refuges
	MaxPrivatePositions = 20_000
)

// tooMany words the limit of positions as what a skipper counts.
func (d *decoder) tooMany(err error) error {
	var limit *geojson.LimitError
	if errors.As(err, &limit) && d.r.PositionCount() >= MaxPositions && d.private <= MaxPrivatePositions && d.features <= MaxFeatures {
		return &geojson.LimitError{Place: limit.Place, Msg: fmt.Sprintf("more than %d waypoints, stays, berths and refuges; at most as many are wanted: make it several days", MaxPositions)}
	}
	return err
}

// positionsIn counts the positions of a feature without decoding them: what is wrong
// with them is told by whoever reads the layer.
func positionsIn(feature []byte) (n int) {
	r := geojson.NewReader(feature)
	_ = r.Object(func(key string) error {
		if key != "geometry" || r.Kind() != geojson.Object {
			return nil
		}
		return r.Object(func(key string) error {
			if key != "coordinates" {
				return nil
			}
			list, err := r.Raw()
			n += lists(list)
			return err
		})
	})
	return n
}

// lists counts the lists that hold no list: positions, and empty ones.
func lists(coordinates []byte) (n int) {
	open := false // the last bracket opened a list
	for _, b := range coordinates {
		switch b {
		case '[':
			open = true
		case ']':
			if open {
				n++
			}
			open = false
		}
	}
	return n
}
