package enc

import (
	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// Loaded is a layer set that was read, with the description of the cell that it came
// from, nil for GeoJSON layers.
type Loaded struct {
	Set  *chart.Set
	Cell *Cell
}

// ReadCharts reads files of either kind that were given together: each cell is a
// chart of its own, and all GeoJSON layers are one. The messages are those that
// belong to no chart that was read: why a file, a cell or the layers were refused,
// and what is missing. Charts come in the order of their names, the layers last.
// Between, if it is set, is called from time to time; its error ends the reading,
// and is the only one.
func ReadCharts(files []layer.File, between func() error) (charts []Loaded, messages []chart.Message, err error) {
	var cells, layers []layer.File
	for _, f := range files {
		if Is(f) {
			cells = append(cells, f)
		} else {
			layers = append(layers, f)
		}
	}
	if len(cells) > 0 {
		d := Decoder{Between: between}
		r, err := d.Decode(cells)
		if err != nil {
			return nil, nil, err
		}
		messages = r.Apart
		for i := range r.Cells {
			if c := &r.Cells[i]; c.Set != nil {
				charts = append(charts, Loaded{c.Set, c})
			}
		}
	}
	if len(layers) == 0 && len(cells) > 0 {
		return charts, messages, nil
	}
	turn := func() {
		if between != nil && err == nil {
			err = between()
		}
	}
	set, why := layer.DecodeWith(layers, turn)
	if err != nil {
		return nil, nil, err
	}
	if set == nil {
		return charts, append(messages, why...), nil
	}
	return append(charts, Loaded{Set: set}), messages, nil
}
