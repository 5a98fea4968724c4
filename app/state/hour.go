package state

import (
	"encoding/json"
	"slices"
	"time"

	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// Hour is the hour that the chart's water is shown at.
type Hour struct {
	history *History
	ports   *Ports

	Day    dayDoc
	At     int64
	chosen bool // the skipper chose it
}

// dayDoc is what the screen needs of the day that the strip draws.
type dayDoc struct {
	From      int64         `json:"from"`
	To        int64         `json:"to"`
	Water     [][]*float64  `json:"water"`
	WaterSets []string      `json:"water_sets"`
	Tide      *dayDocHeight `json:"tide"`
}

type dayDocHeight struct {
	DatumName string       `json:"datum_name"`
	Points    [][]*float64 `json:"points"`
}

func readDayDoc(d Doc) (day dayDoc) {
	if d != nil {
		_ = json.Unmarshal([]byte(d.String()), &day) // what cannot be read has no water: shown as unknown
	}
	return day
}

// place puts the hour where the skipper left it, else at the departure.
func (h *Hour) place(depart *time.Time) {
	inside := h.At >= h.Day.From && h.At <= h.Day.To
	if (!h.chosen || !inside) && depart != nil {
		h.At, h.chosen = depart.Unix(), false
	}
	h.ports.strip.SetCursor(h.At)
	h.colour()
}

// move takes note that the skipper moved the hour.
func (h *Hour) move(at int64) {
	h.At, h.chosen = at, true
	h.colour()
}

// colour colours the chart for the hour: by the nearest of the heights the
// engine worked out.
func (h *Hour) colour() {
	h.ports.chart.SetWater(h.WaterAt(h.At), h.Day.WaterSets)
}

func (h *Hour) WaterAt(at int64) *hazards.Water {
	const step = 600 // seconds from one row to the next
	d := &h.Day
	if at < d.From || at > d.To {
		return nil
	}
	first := int((at - d.From) / step)
	last := first
	if (at-d.From)%step != 0 {
		last++ // between two heights the lower one is the safe one
	}
	var worst *hazards.Water
	for i := first; i <= last; i++ {
		if i >= len(d.Water) || len(d.Water[i]) != 4 || slices.Contains(d.Water[i], nil) {
			return nil
		}
		if row := d.Water[i]; worst == nil || *row[1] > worst.DriesM {
			worst = &hazards.Water{DriesM: *row[1], AfloatM: *row[2], EnoughM: *row[3]}
		}
	}
	return worst
}

// HeightAt is the height of tide at the hour, for the words beside the chart.
func (h *Hour) HeightAt(at int64) *float64 {
	if h.Day.Tide == nil {
		return nil
	}
	var near *float64
	best := int64(5*60 + 1)
	for _, p := range h.Day.Tide.Points {
		if len(p) == 2 && p[0] != nil && p[1] != nil {
			if d := max(int64(*p[0])-at, at-int64(*p[0])); d < best {
				best, near = d, p[1]
			}
		}
	}
	return near
}

// follow moves the hour with the departure: the water on the chart is that
// of the day as it is now planned.
func (h *Hour) follow(before *plan.Plan) {
	was, now := departure(before), departure(h.history.Plan)
	if was == nil || now == nil || was.Equal(*now) {
		return
	}
	h.At, h.chosen = now.Unix(), false
	h.ports.strip.SetCursor(h.At)
	h.colour()
}
