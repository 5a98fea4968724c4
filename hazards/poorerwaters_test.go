package hazards

import (
	"encoding/json"
	"fmt"
	"math/rand"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// Days and layers as documents, so that anything a file can lack may be taken
// out of them. The waters and all names are INVENTED.

type object = map[string]any

// document is a plan or a layer as JSON values.
type document struct{ root object }

// copied is a copy that shares nothing.
func (d document) copied() document {
	text, err := json.Marshal(d.root)
	if err != nil {
		panic(err)
	}
	var out document
	if err := json.Unmarshal(text, &out.root); err != nil {
		panic(err)
	}
	return out
}

func (d document) text() []byte {
	text, err := json.Marshal(d.root)
	if err != nil {
		panic(err)
	}
	return text
}

func clockText(t time.Time) string { return t.Format(time.RFC3339) }

// steady is a series that says the same at each of its times.
func steady(from time.Time, every time.Duration, rows int, row object) []any {
	var out []any
	for i := range rows {
		o := object{"time": clockText(from.Add(time.Duration(i) * every))}
		for k, v := range row {
			o[k] = v
		}
		out = append(out, o)
	}
	return out
}

// tideTable is two days of a semidiurnal tide of random range, with kinds.
func tideTable(rnd *rand.Rand) []any {
	at := leaving.Add(-24 * time.Hour).Add(time.Duration(rnd.Intn(12*60)) * time.Minute)
	high := rnd.Intn(2) == 0
	mean, half := 1.6+rnd.Float64(), 0.8+rnd.Float64()
	var out []any
	for range 10 {
		kind, height := "LW", mean-half*(0.9+0.2*rnd.Float64())
		if high {
			kind, height = "HW", mean+half*(0.9+0.2*rnd.Float64())
		}
		out = append(out, object{"time": clockText(at), "height_m": round2(height), "kind": kind})
		at, high = at.Add(time.Duration(5*60+50+rnd.Intn(45))*time.Minute), !high
	}
	return out
}

func round2(v float64) float64 { return float64(int(v*100)) / 100 }

// randomTide is one of the forms of a tide.
func randomTide(rnd *rand.Rand) object {
	switch rnd.Intn(4) {
	case 0:
		return object{"datum": lat, "height_datum_m": 3.2, "z0_m": 1.8, "constituents": []any{
			object{"name": "M2", "amplitude_m": 0.8 + 0.6*rnd.Float64(), "phase_deg": float64(rnd.Intn(360))},
			object{"name": "S2", "amplitude_m": 0.3 * rnd.Float64(), "phase_deg": float64(rnd.Intn(360))}}}
	case 1:
		return object{"datum": lat, "height_datum_m": 3.2, "reference": object{"datum": lat, "events": tideTable(rnd)},
			"high": object{"minutes": 20, "metres": 0.2}, "low": object{"minutes": 25, "metres": 0.1}}
	}
	return object{"datum": lat, "height_datum_m": 3.2, "events": tideTable(rnd)}
}

// randomDay is a day out over the banks of randomWaters, to lie at anchor and
// back. The series are steady, so that leaving rows out takes no peak away.
func randomDay(rnd *rand.Rand) document {
	start, wind := leaving.Add(-24*time.Hour), object{"from_deg": float64(rnd.Intn(360)), "kn": float64(rnd.Intn(14))}
	if rnd.Intn(2) == 0 {
		wind["gust_kn"] = wind["kn"].(float64) * 1.3
	}
	route := []any{spot(10, 30+40*rnd.Float64()), spot(30, 30+40*rnd.Float64()), spot(50, 30+40*rnd.Float64())}
	lunch := leaving.Add(time.Duration(150+rnd.Intn(240)) * time.Minute)
	margins := object{"berth_m": 0}
	return document{object{"type": "FeatureCollection", "plan": object{"version": 1, "time_zone": "UTC", "margins": margins, "buoyage_deg": 90, "buoyage_region": "A",
		"boat": object{"name": "INVENTED", "length_m": 7.5, "beam_m": 2.5, "draught_m": 0.7 + 0.5*rnd.Float64(), "air_draught_m": 2.8, "cruise_kn": 20,
			"fuel": object{"tank_l": 300, "in_tank_l": 200, "burn": []any{object{"kn": 0, "lph": 2}, object{"kn": 8, "lph": 12}, object{"kn": 22, "lph": 45}}},
			"rode": object{"chain_m": 150, "chain_kg_per_m": 1.4}, "holding_n": 20000},
		"tide": randomTide(rnd), "wind": steady(start, 6*time.Hour, 13, wind),
		"swell":  steady(start, 6*time.Hour, 13, object{"from_deg": float64(rnd.Intn(360)), "height_m": 0.3 * rnd.Float64(), "period_s": 8}),
		"stream": steady(start, 6*time.Hour, 13, object{"toward_deg": float64(rnd.Intn(360)), "kn": 1.5 * rnd.Float64()})},
		"features": []any{
			feature(object{"role": "route", "name": "INVENTED out", "depart": clockText(leaving.Add(time.Duration(rnd.Intn(360)) * time.Minute))}, "LineString", route),
			feature(object{"role": "stay", "name": "INVENTED bay", "until": clockText(lunch.Add(6 * time.Hour)), "kind": "anchor", "rode_m": 110}, "Point", route[2]),
			feature(object{"role": "route", "name": "INVENTED home"}, "LineString", []any{route[2], route[1], route[0]}),
		}}}
}

func spot(x, y float64) []any {
	p := at(x, y)
	return []any{p[0], p[1]}
}

func feature(properties object, kind string, coordinates any) object {
	return object{"type": "Feature", "properties": properties, "geometry": object{"type": kind, "coordinates": coordinates}}
}

func square(x0, y0, x1, y1 float64) []any {
	return []any{[]any{spot(x0, y0), spot(x1, y0), spot(x1, y1), spot(x0, y1), spot(x0, y0)}}
}

// randomWaters is a layer of open water with one or two things where a day
// passes: what is known of them decides the verdict.
func randomWaters(rnd *rand.Rand, day document) document {
	things := []any{
		object{"type": "Feature", "geometry": nil, "properties": object{"objectClass": "DSID", "DSPM_SDAT": lat, "DSPM_VDAT": 17, "DSPM_HDAT": 2, "DSPM_CSCL": 12000, "DSPM_DUNI": 1, "DSPM_HUNI": 1}},
		feature(object{"objectClass": "M_COVR", "CATCOV": 1}, "Polygon", square(0, 0, 100, 100)),
		feature(object{"objectClass": "M_QUAL", "CATZOC": 1 + rnd.Intn(3)}, "Polygon", square(0, 0, 100, 100)),
		feature(object{"objectClass": "DEPARE", "DRVAL1": 8, "DRVAL2": 20}, "Polygon", square(0, 0, 100, 100)),
	}
	for _, make := range []func() any{func() any { return randomBank(rnd) }, func() any { return ruledArea(rnd) }, func() any { return spanning(rnd) },
		func() any { return thingBeside(rnd, day) }, func() any { return thingBeside(rnd, day) }} {
		if rnd.Intn(3) == 0 {
			things = append(things, make())
		}
	}
	return document{object{"type": "FeatureCollection", "layer": object{"title": "INVENTED waters"}, "features": things}}
}

// across is a strip that every day crosses.
func across(rnd *rand.Rand) (x0, x1 float64) {
	x := 14 + 30*rnd.Float64()
	return x, x + 0.5 + 3*rnd.Float64()
}

func randomBank(rnd *rand.Rand) any {
	x0, x1 := across(rnd)
	d := round2(-1 + 4*rnd.Float64())
	return feature(object{"objectClass": "DEPARE", "DRVAL1": d, "DRVAL2": d + 1}, "Polygon", square(x0, 5, x1, 95))
}

func ruledArea(rnd *rand.Rand) any {
	x0, x1 := across(rnd)
	return feature(pick(rnd,
		object{"objectClass": "RESARE", "RESTRN": []any{"7"}},
		object{"objectClass": "RESARE", "CATREA": []any{"18"}},
		object{"objectClass": "RESARE", "RESTRN": []any{"8"}},
		object{"objectClass": "RESARE", "RESTRN": []any{"7"}, "PERSTA": "--1001", "PEREND": "--0401"},
		object{"objectClass": "UNSARE"}, object{"objectClass": "LNDARE"},
		object{"objectClass": "CTNARE"}, object{"objectClass": "TSEZNE"}), "Polygon", square(x0, 5, x1, 95))
}

func spanning(rnd *rand.Rand) any {
	x, _ := across(rnd)
	return feature(pick(rnd,
		object{"objectClass": "BRIDGE", "CATBRG": []any{"1"}, "VERCLR": 5 + 4*rnd.Float64(), "HORCLR": 4 + 4*rnd.Float64()},
		object{"objectClass": "BRIDGE", "CATBRG": []any{"5"}, "VERCLR": 20, "VERCCL": 3 + 5*rnd.Float64(), "HORCLR": 30},
		object{"objectClass": "BRIDGE", "VERCLR": 20, "VERCCL": 3 + 5*rnd.Float64(), "HORCLR": 30},
		object{"objectClass": "PIPOHD", "VERCLR": 5 + 4*rnd.Float64()},
		object{"objectClass": "CBLOHD", "VERCLR": 20, "VERCSA": 5 + 5*rnd.Float64()}), "LineString", []any{spot(x, 5), spot(x, 95)})
}

// thingBeside is a thing within some 60 m of the way out.
func thingBeside(rnd *rand.Rand, day document) any {
	line := day.root["features"].([]any)[0].(object)["geometry"].(object)["coordinates"].([]any)
	leg, share := rnd.Intn(len(line)-1), rnd.Float64()
	a, b := line[leg].([]any), line[leg+1].([]any)
	off := 0.0006 * (2*rnd.Float64() - 1)
	p := []any{a[0].(float64) + share*(b[0].(float64)-a[0].(float64)), a[1].(float64) + share*(b[1].(float64)-a[1].(float64)) + off}
	return feature(pick(rnd,
		object{"objectClass": "WRECKS", "VALSOU": round2(4 * rnd.Float64()), "WATLEV": 3},
		object{"objectClass": "OBSTRN", "VALSOU": round2(4 * rnd.Float64()), "WATLEV": 3},
		object{"objectClass": "SOUNDG", "VALSOU": round2(4 * rnd.Float64())},
		object{"objectClass": "OBSTRN", "CATOBS": 7, "WATLEV": 3},
		object{"objectClass": "UWTROC", "WATLEV": 3, "EXPSOU": 1},
		object{"objectClass": "BOYLAT", "CATLAM": 1 + rnd.Intn(2), "COLOUR": []any{"3"}, "BOYSHP": 2},
		object{"objectClass": "BOYCAR", "CATCAM": 1 + rnd.Intn(4), "BOYSHP": 4},
		object{"objectClass": "BCNLAT", "CATLAM": 1 + rnd.Intn(2), "BCNSHP": 1},
		object{"objectClass": "BOYISD"}, object{"objectClass": "MORFAC", "CATMOR": 1},
		object{"objectClass": "PILPNT"}), "Point", p)
}

func pick(rnd *rand.Rand, from ...object) object { return from[rnd.Intn(len(from))] }

// reading is what becomes of a plan and a layer: a report, or a refusal.
type reading struct {
	report  *plan.Report
	refused string
}

func read(t testing.TB, day, waters document) reading {
	t.Helper()
	p, err := plan.Decode(day.text())
	if err != nil {
		return reading{refused: err.Error()}
	}
	c := new(chart.Chart)
	set, messages := layer.Decode([]layer.File{{Name: "waters.geojson", Data: waters.text()}})
	if set == nil {
		return reading{refused: fmt.Sprint(messages)}
	}
	c = chart.New(set)
	r, err := Check(c, p)
	if err != nil {
		return reading{refused: err.Error()}
	}
	words.English.Fill(r, p.Zone)
	return reading{report: r}
}
