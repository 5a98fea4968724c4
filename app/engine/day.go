package engine

import (
	"encoding/json"
	"math"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
	"keelroom/hazards/words"
)

// dayStep is how far apart the heights of a day are.
const dayStep = 10 * time.Minute

// mostDays is how many days a day may run over: more are cut off.
const mostDays = 7

// SetIDs are the names that the screen gives layer sets.
type SetIDs map[*chart.Set]string

// dayText is a plan's day for the strip that draws it. Times are Unix seconds.
type dayText struct {
	Zone      string     `json:"zone"`      // IANA
	ZoneName  string     `json:"zone_name"` // its abbreviation at departure
	Date      string     `json:"date"`
	From      int64      `json:"from"`
	To        int64      `json:"to"`
	StepS     int64      `json:"step_s"` // from one height or water to the next
	Hours     []hourText `json:"hours"`
	Tide      *tideText  `json:"tide"`
	Water     []*[4]num  `json:"water"`
	WaterSets []string   `json:"water_sets"`
	Light     []spanText `json:"light"`
	Wind      []windText `json:"wind"`
	Blocks    []Block    `json:"blocks"`
}

type hourText struct {
	T     int64  `json:"t"`
	Label string `json:"label"`
	Again bool   `json:"again,omitempty"` // the second of two with the label, as clocks go back
}

type tideText struct {
	DatumName string      `json:"datum_name"`
	Points    []*[2]num   `json:"points"`
	Events    []eventText `json:"events"`
}

type eventText struct {
	T    int64  `json:"t"`
	Kind string `json:"kind"`
	H    num    `json:"h"`
}

type spanText struct {
	From int64  `json:"from"`
	To   int64  `json:"to"`
	Kind string `json:"kind"`
}

type windText struct {
	T       int64 `json:"t"`
	FromDeg num   `json:"from_deg"`
	Kn      num   `json:"kn"`
	GustKn  num   `json:"gust_kn"`
}

// Day writes what a strip shows of a day: its hours, tide, water, light, wind
// and what she does when. It runs from the local midnight before the departure
// to the one after the end of the last block, at most a week.
//
// Heights of tide are as predicted; the water (hazards.WaterLevels) is for
// charted depths of the sets named. Figures of the water are rounded to the
// centimetre toward calling it shallower. A height that is not known is null.
func Day(c *chart.Chart, ids SetIDs, p *plan.Plan, r *plan.Report) ([]byte, error) {
	d := newDayOf(p, r)
	text := dayText{Zone: p.ZoneName, ZoneName: d.depart.Format("MST"), Date: d.from.Format(time.DateOnly),
		From: d.from.Unix(), To: d.to.Unix(), StepS: int64(dayStep / time.Second), Hours: d.hours(), Light: d.light(), Blocks: d.blocks, WaterSets: []string{}}
	var err error
	if text.Tide, err = d.tide(); err != nil {
		return nil, err
	}
	levels, err := hazards.NewWaterLevels(c, p, r, d.from, d.to)
	if err != nil {
		return nil, err
	}
	text.Water = d.water(levels)
	for _, s := range levels.Sets() {
		if id, ok := ids[s]; ok {
			text.WaterSets = append(text.WaterSets, id)
		}
	}
	if text.Wind, err = d.wind(); err != nil {
		return nil, err
	}
	return json.Marshal(text)
}

// dayOf is a day being written.
type dayOf struct {
	plan             *plan.Plan
	depart, from, to time.Time
	blocks           []Block
}

func newDayOf(p *plan.Plan, r *plan.Report) *dayOf {
	zone := zoneOf(p)
	d := &dayOf{plan: p, blocks: Blocks(p, r)}
	if routes := p.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		d.depart = routes[0].Depart.In(zone)
	}
	d.from = midnight(d.depart, 0)
	d.to = midnight(d.depart, 1)
	for n := 2; n <= mostDays && d.to.Unix() < d.end(); n++ {
		d.to = midnight(d.depart, n)
	}
	return d
}

// end is when the last block ends.
func (d *dayOf) end() int64 {
	end := int64(math.MinInt64)
	for _, b := range d.blocks {
		end = max(end, b.To)
	}
	return end
}

func zoneOf(p *plan.Plan) *time.Location {
	if p.Zone != nil {
		return p.Zone
	}
	return time.UTC
}

// midnight is the first instant of the calendar day so many days after that of a
// time, in the time's own zone. Where a change of the clocks leaves midnight out
// it is the instant of the change.
func midnight(t time.Time, days int) time.Time {
	y, m, day := t.Date()
	noon := time.Date(y, m, day+days, 12, 0, 0, 0, t.Location())
	want := noon.Format(time.DateOnly)
	early, late := noon.Add(-16*time.Hour), noon
	for late.Sub(early) > time.Second {
		mid := early.Add(late.Sub(early) / 2).Truncate(time.Second)
		if mid.Format(time.DateOnly) >= want {
			late = mid
		} else {
			early = mid
		}
	}
	return late
}

// hours are the whole hours of the clock, each as often as it occurs. Offsets
// from UT are whole quarters of an hour in every zone of our time.
func (d *dayOf) hours() []hourText {
	var out []hourText
	const quarter = 15 * 60
	for at := (d.from.Unix() + quarter - 1) / quarter * quarter; at < d.to.Unix(); at += quarter {
		if t := time.Unix(at, 0).In(d.from.Location()); t.Minute() == 0 && t.Second() == 0 {
			label := t.Format("15")
			out = append(out, hourText{at, label, len(out) > 0 && out[len(out)-1].Label == label})
		}
	}
	return out
}

// each calls fn for every step of the day, both ends included.
func (d *dayOf) each(fn func(time.Time)) {
	for t := d.from; !t.After(d.to); t = t.Add(dayStep) {
		fn(t)
	}
}

// tide is the tide of the day, nil where none is given.
func (d *dayOf) tide() (*tideText, error) {
	if d.plan.Tide == nil {
		return nil, nil
	}
	source, err := hazards.NewTide(d.plan.Tide)
	if err != nil {
		return nil, err
	}
	t := tide.NewWindow(source, d.from, d.to)
	out := &tideText{DatumName: words.English.Datum(d.plan.Tide.DatumOf()), Events: []eventText{}}
	d.each(func(at time.Time) {
		h, ok := t.HeightM(at)
		if !ok {
			out.Points = append(out.Points, nil)
			return
		}
		out.Points = append(out.Points, &[2]num{num(at.Unix()), rounded(h)})
	})
	for _, e := range t.Events(d.from, d.to) {
		out.Events = append(out.Events, eventText{e.Time.Unix(), e.Kind(), rounded(e.HeightM)})
	}
	return out, nil
}

func (d *dayOf) water(levels *hazards.WaterLevels) []*[4]num {
	var out []*[4]num
	d.each(func(at time.Time) {
		w, ok := levels.At(at)
		if !ok {
			out = append(out, nil)
			return
		}
		out = append(out, &[4]num{num(at.Unix()), roundedUp(w.DriesM), roundedUp(w.AfloatM), roundedUp(w.EnoughM)})
	})
	return out
}

// num is a figure that is written without an exponent.
type num float64

func rounded(v float64) num { return num(math.Round(v*1000) / 1000) }

// roundedUp is a bound of charted depths rounded so that it calls no water
// deeper than it is.
func roundedUp(v float64) num { return num(math.Ceil(v*100-1e-9) / 100) }
