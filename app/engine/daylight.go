package engine

import (
	"slices"
	"strconv"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards"
	"keelroom/hazards/sun"
)

// MarshalJSON writes the figure, null for none that is finite.
func (n num) MarshalJSON() ([]byte, error) {
	if v := float64(n); v-v == 0 {
		return strconv.AppendFloat(nil, v+0, 'f', -1, 64), nil // +0: no minus zero
	}
	return []byte("null"), nil
}

var lightNames = map[sun.Light]string{sun.Night: "night", sun.Twilight: "twilight", sun.Daylight: "day"}

// light is the light where the day begins, as spans that cover it.
func (d *dayOf) light() []spanText {
	place, ok := d.place()
	if !ok {
		return []spanText{}
	}
	turns := []time.Time{d.from, d.to}
	for t := d.from.AddDate(0, 0, -1); t.Before(d.to.AddDate(0, 0, 1)); t = t.AddDate(0, 0, 1) {
		s := sun.On(t, place)
		for _, e := range []time.Time{s.CivilDawn, s.Sunrise, s.Sunset, s.CivilDusk} {
			if e.After(d.from) && e.Before(d.to) {
				turns = append(turns, e)
			}
		}
	}
	slices.SortFunc(turns, time.Time.Compare)
	out := []spanText{}
	for i, from := range turns[:len(turns)-1] {
		to := turns[i+1]
		kind := lightNames[sun.LightAt(from.Add(to.Sub(from)/2), place)]
		switch n := len(out); {
		case n > 0 && out[n-1].Kind == kind:
			out[n-1].To = to.Unix()
		case from.Unix() < to.Unix():
			out = append(out, spanText{from.Unix(), to.Unix(), kind})
		}
	}
	return out
}

// place is where the day begins.
func (d *dayOf) place() (orb.Point, bool) {
	for _, r := range d.plan.Routes() {
		if len(r.Points) > 0 {
			return r.Points[0], true
		}
	}
	return orb.Point{}, false
}

// wind is the wind at each hour for which it is known.
func (d *dayOf) wind() ([]windText, error) {
	series, err := hazards.WindOf(d.plan)
	if err != nil {
		return nil, err
	}
	out := []windText{}
	for _, h := range d.hours() {
		if w, ok := series.At(time.Unix(h.T, 0)); ok {
			out = append(out, windText{h.T, rounded(w.FromDeg), rounded(w.Kn), rounded(w.GustKn)})
		}
	}
	return out, nil
}
