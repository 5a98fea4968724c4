package plan

import (
	"maps"
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
)

// How the figures of a report are rounded. All members of the contract are
// written, null where the value is not known.

// FloorHundredths rounds a clearance or a depth in metres down to 0.01 m, toward
// minus infinity, after rounding it to whole millimetres as all sums are (see
// Enough): what is enough for 0.50 m must not be shown as 0.49.
func FloorHundredths(metres float64) float64 {
	return math.Floor(math.Round(metres*1000)/10) / 100
}

func rounding(key string, p **float64, round func(float64) geojson.Value) field {
	f := optional(key, p, numberRange{})
	f.check = nil
	f.get = func(*writer) (geojson.Value, bool) {
		if *p == nil {
			return null, true
		}
		return round(**p), true
	}
	return f
}

var null = geojson.Value{Kind: geojson.Null}

func decimals(n int) func(float64) geojson.Value {
	return func(v float64) geojson.Value { return geojson.NumberSpelled(v, n) }
}

// hundredths is for metres, nautical miles and differences of degrees.
func hundredths(key string, p **float64) field { return rounding(key, p, decimals(2)) }

// tenths is for knots, litres and minutes.
func tenths(key string, p **float64) field { return rounding(key, p, decimals(1)) }

// down is for clearances, depths and room.
func down(key string, p **float64) field {
	return rounding(key, p, func(v float64) geojson.Value { return geojson.NumberSpelled(FloorHundredths(v), 2) })
}

// up is for heights of sea and for what is wanted: no more than a limit must not
// be shown where it is more.
func up(key string, p **float64) field {
	return rounding(key, p, func(v float64) geojson.Value { return geojson.NumberSpelled(CeilHundredths(v), 2) })
}

// bearing is for courses and directions: what rounds to 360 is 0.
func bearing(key string, p **float64) field {
	return rounding(key, p, func(v float64) geojson.Value {
		out := geojson.NumberSpelled(v, 2)
		if out.Num == 360 {
			return geojson.NumberSpelled(0, 2)
		}
		return out
	})
}

// figure is a number that is always known.
func figure(key string, p *float64, places int) field {
	f := number(key, p, 0, numberRange{})
	f.check = nil
	f.def = geojson.Value{}
	f.get = func(*writer) (geojson.Value, bool) { return geojson.NumberSpelled(*p, places), true }
	return f
}

// count is a whole number from 1; 0 is null.
func count(key string, p *int) field {
	f := whole(key, p, func(int) bool { return true }, "a whole number")
	f.get = func(*writer) (geojson.Value, bool) {
		if *p == 0 {
			return null, true
		}
		return geojson.NumberOf(float64(*p)), true
	}
	return f
}

func words(key string, p *string) field {
	f := text(key, p)
	f.def = geojson.Value{}
	return f
}

func yesOrNo(key string, p *bool) field {
	f := flag(key, p)
	f.def = geojson.Value{}
	return f
}

func severity(key string, p *Severity) field {
	return field{
		key: key, kind: geojson.String,
		set: func(v geojson.Value) string {
			s, ok := ParseSeverity(v.Str)
			if !ok {
				return quoted(v.Str) + "; note, clear, care, no-data or not-clear is wanted"
			}
			*p = s
			return ""
		},
		get: func(*writer) (geojson.Value, bool) { return geojson.TextOf(p.String()), true },
	}
}

// at is a time to the nearest second.
func at(key string, p **time.Time) field {
	return moving(key, p, func(t time.Time) time.Time { return t.Round(time.Second) })
}

// atOrBefore is a time that must not be missed: the second is cut.
func atOrBefore(key string, p **time.Time) field { return moving(key, p, wholeSecondBefore) }

func moving(key string, p **time.Time, move func(time.Time) time.Time) field {
	f := maybe(key, p)
	f.get = func(w *writer) (geojson.Value, bool) {
		if *p == nil || (*p).IsZero() {
			return null, true
		}
		return w.time(move(**p)), true
	}
	return f
}

func instant(key string, p *time.Time) field {
	f := moment(key, p)
	f.get = func(w *writer) (geojson.Value, bool) { return w.time(p.Round(time.Second)), true }
	return f
}

func wholeSecondBefore(t time.Time) time.Time { return t.Truncate(time.Second) }

func wholeSecondAfter(t time.Time) time.Time {
	if cut := t.Truncate(time.Second); !cut.Equal(t) {
		return cut.Add(time.Second)
	}
	return t
}

// windows is a list of spans of time, each rounded to lie within what is clear.
func windows(key string, p *[][2]time.Time) field {
	return field{
		key: key, kind: geojson.Array,
		walk: func(d *decoder) error {
			*p = [][2]time.Time{}
			return d.items(func() error {
				var w [2]time.Time
				err := d.r.Array(func(i int) error {
					s, err := d.r.String()
					if err == nil && i < 2 {
						w[i], _ = parseTime(s)
					}
					return err
				})
				*p = append(*p, w)
				return err
			})
		},
		get: func(w *writer) (geojson.Value, bool) {
			if *p == nil {
				return null, true
			}
			v := geojson.Value{Kind: geojson.Array}
			for _, span := range *p {
				v.Items = append(v.Items, geojson.Value{Kind: geojson.Array, Items: []geojson.Value{
					w.time(wholeSecondAfter(span[0])), w.time(wholeSecondBefore(span[1])),
				}})
			}
			return v, true
		},
	}
}

// position is a [longitude, latitude]; one that is not finite is null.
func position(key string, p *orb.Point) field {
	return field{
		key: key, kind: geojson.Array,
		walk: func(d *decoder) error {
			return d.r.Array(func(i int) error {
				v, err := d.r.Number()
				if i < 2 {
					p[i] = v
				}
				return err
			})
		},
		get: func(*writer) (geojson.Value, bool) {
			if v, ok := geojson.ValueOf(*p, positionDecimals).Get("coordinates"); ok {
				return v, true
			}
			return null, true
		},
	}
}

// states is what became of each check, by name in alphabetical order.
func states(key string, p *map[string]string) field {
	return field{
		key: key, kind: geojson.Object,
		walk: func(d *decoder) error {
			*p = map[string]string{}
			return d.r.Object(func(check string) (err error) {
				(*p)[check], err = d.r.String()
				return err
			})
		},
		get: func(*writer) (geojson.Value, bool) {
			v := geojson.Value{Kind: geojson.Object}
			for _, check := range slices.Sorted(maps.Keys(*p)) {
				v.Append(check, geojson.TextOf((*p)[check]))
			}
			return v, true
		},
	}
}

// all writes a list though it is empty.
func all(f field) field {
	get := f.get
	f.get = func(w *writer) (geojson.Value, bool) {
		v, _ := get(w)
		return v, true
	}
	return f
}

// orNull writes null for an object that is missing.
func orNull(f field) field {
	get := f.get
	f.get = func(w *writer) (geojson.Value, bool) {
		if v, ok := get(w); ok {
			return v, true
		}
		return null, true
	}
	return f
}

// heightChecks are the checks whose measured metres are water under or room over
// or around the boat: less is worse, so they are rounded down.
var heightChecks = []string{
	CheckClearance, CheckTideWindow, CheckBridge, CheckLand, CheckHazard, CheckMark,
	CheckCoverage, CheckDatum, CheckChain, CheckSwing, CheckAnchoringRule,
}

// LessIsWorse reports whether, of two findings of this check, the one that measured
// less is the worse.
func (f *Finding) LessIsWorse() bool {
	return f.Check == CheckWindShift || slices.Contains(heightChecks, f.Check)
}

// seaChecks are those whose measured metres are a height of sea: more is worse.
var seaChecks = []string{CheckSea, CheckShelter}

func (f *Finding) measured() field {
	switch {
	case f.Unit == "m" && slices.Contains(heightChecks, f.Check):
		return down("measured", &f.Measured)
	case f.Unit == "m" && slices.Contains(seaChecks, f.Check):
		return up("measured", &f.Measured)
	}
	return rounding("measured", &f.Measured, decimals(placesOf(f.Unit)))
}

// required is what is wanted, rounded up, or for a height of sea the limit, which
// is rounded down.
func (f *Finding) required() field {
	switch {
	case f.Unit == "m" && slices.Contains(seaChecks, f.Check):
		return down("required", &f.Required)
	case f.Unit == "m":
		return up("required", &f.Required)
	}
	return rounding("required", &f.Required, decimals(placesOf(f.Unit)))
}

// placesOf returns the decimals of a figure in that unit.
func placesOf(unit string) int {
	switch unit {
	case "kn", "l", "min":
		return 1
	}
	return 2
}

// bearings is a list of arcs, each from one bearing clockwise to another.
func bearings(key string, p *[][2]float64) field {
	return field{
		key: key, kind: geojson.Array,
		walk: func(d *decoder) error {
			*p = nil
			return d.items(func() error {
				var arc [2]float64
				err := d.r.Array(func(i int) error {
					v, err := d.r.Number()
					if err == nil && i < 2 {
						arc[i] = v
					}
					return err
				})
				*p = append(*p, arc)
				return err
			})
		},
		get: func(*writer) (geojson.Value, bool) {
			v := geojson.Value{Kind: geojson.Array}
			for _, arc := range *p {
				v.Items = append(v.Items, geojson.Value{Kind: geojson.Array, Items: []geojson.Value{geojson.NumberSpelled(arc[0], 2), geojson.NumberSpelled(arc[1], 2)}})
			}
			return v, true
		},
	}
}
