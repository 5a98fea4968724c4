package plan

import (
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
	"keelroom/hazards/tide"
)

// TideSource is where heights of tide come from: harmonic constituents, a table,
// a secondary port, or a level without tide. [TideSource.Form] says which.
type TideSource struct {
	Station      string
	Datum        int      // of its heights, VERDAT number; 0 is unknown
	Z0M          *float64 // mean level above Datum; with Constituents
	HeightDatumM *float64 // the chart's datum of heights above Datum, this tide's own; nil: see Levels
	Constituents []Constituent
	Events       []TideEvent // as copied from a tide table
	Secondary    *Secondary
	LevelM       *float64 // the steady level of tideless water above Datum
	AdjustM      float64  // added to every height

	// What is known of the station that the source was made from: all of it may be
	// missing. Checks compare it with the waters of the plan.
	Position    *orb.Point // longitude, latitude
	ZoneName    string     // its own time zone, IANA
	Levels      []Level    // tidal levels above Datum
	RecordYears float64    // of the gauge's record that its levels rest on; 0 is unknown
	LeftOut     string     // constituents of its analysis that could not be used, by name
	LeftOutM    float64    // their amplitudes, summed

	kept
}

// Level is a tidal level of a station.
type Level struct {
	Datum   int     // VERDAT number
	HeightM float64 // above the datum of the tide's heights

	kept
}

// LevelOf is how far a vertical datum, by its VERDAT number, lies above Datum, as
// the station's levels say.
func (t *TideSource) LevelOf(datum int) (heightM float64, ok bool) {
	for _, l := range t.Levels {
		if l.Datum == datum {
			return l.HeightM, true
		}
	}
	return 0, false
}

// Constituent is one harmonic constituent.
type Constituent struct {
	Name       string
	AmplitudeM float64
	PhaseDeg   float64 // Greenwich phase lag

	kept
}

// TideEvent is a high or low water of a tide table.
type TideEvent struct {
	Time    time.Time
	HeightM float64
	Kind    string // HighWater or LowWater; "" where the table does not say
	Double  bool   // one of two like waters running, where a high or low water stands double

	kept
}

// Secondary is a secondary port: a reference port and the differences at its
// high and low waters.
type Secondary struct {
	Reference *TideSource // harmonic or a table
	High, Low *Correction
}

// Correction is what turns a high or low water of the reference port into that
// of the secondary port.
type Correction struct {
	Minutes float64  // later than at the reference port
	Metres  *float64 // added to the height; this or Factor
	Factor  *float64 // the height is multiplied by it

	kept
}

// Waters are the events of a tide table as the package that computes with them
// takes them, with clock times of a zone for its words.
func (t *TideSource) Waters(zone *time.Location) []tide.Water {
	waters := make([]tide.Water, len(t.Events))
	for i, e := range t.Events {
		waters[i] = tide.Water{Time: e.Time.In(zone), HeightM: e.HeightM, Kind: e.Kind, Double: e.Double}
	}
	return waters
}

// EncodeTide writes a source as the plan file's member `tide`, times in UT.
func EncodeTide(t *TideSource) []byte {
	w := &writer{zone: time.UTC}
	return w.record(t).AppendJSON(nil)
}

// Forms of a tide source.
const (
	Harmonic      = "harmonic"
	Table         = "table"
	SecondaryPort = "secondary"
	Tideless      = "tideless"
)

// Form returns Harmonic, Table, SecondaryPort or Tideless, and "" for a source
// that is none or several of them.
func (t *TideSource) Form() string {
	form, n := "", 0
	for _, f := range []struct {
		name  string
		given bool
	}{
		{Harmonic, len(t.Constituents) > 0}, {Table, len(t.Events) > 0},
		{SecondaryPort, t.Secondary != nil}, {Tideless, t.LevelM != nil},
	} {
		if f.given {
			form = f.name
			n++
		}
	}
	if n != 1 {
		return ""
	}
	return form
}

// DatumOf returns the datum of the heights, a secondary port without its own
// taking that of its reference port; 0 is unknown.
func (t *TideSource) DatumOf() int {
	if t.Datum == 0 && t.Secondary != nil && t.Secondary.Reference != nil {
		return t.Secondary.Reference.Datum
	}
	return t.Datum
}

func (t *TideSource) fields() []field {
	s := t.Secondary
	if s == nil {
		s = &Secondary{}
	}
	return []field{
		text("station", &t.Station),
		datum("datum", &t.Datum),
		optional("z0_m", &t.Z0M, numberRange{-20, 20, "metres"}),
		optional("height_datum_m", &t.HeightDatumM, numberRange{-20, 20, "metres"}),
		list("constituents", &t.Constituents),
		inOrder(list("events", &t.Events), func() int { return len(t.Events) }, func(i int) time.Time { return t.Events[i].Time }),
		t.secondary(nested("reference", &s.Reference, func() TideSource { return TideSource{} }), s),
		t.secondary(nested("high", &s.High, func() Correction { return Correction{} }), s),
		t.secondary(nested("low", &s.Low, func() Correction { return Correction{} }), s),
		optional("level_m", &t.LevelM, numberRange{-20, 20, "metres"}),
		number("adjust_m", &t.AdjustM, 0, numberRange{-5, 5, "metres"}),
		place("position", &t.Position),
		zoneName("time_zone", &t.ZoneName),
		list("levels", &t.Levels),
		number("record_years", &t.RecordYears, 0, numberRange{0, 1000, "years"}),
		text("left_out", &t.LeftOut),
		number("left_out_m", &t.LeftOutM, 0, numberRange{0, 20, "metres"}),
	}
}

func (l *Level) fields() []field {
	return []field{
		required(datum("datum", &l.Datum)),
		required(number("height_m", &l.HeightM, 0, numberRange{-20, 40, "metres"})),
	}
}

// place is a position that may be unknown: longitude, latitude.
func place(key string, p **orb.Point) field {
	var given []float64
	f := numbers(key, &given, numberRange{-180, 180, "degrees"})
	read := f.walk
	f.walk = func(d *decoder) error {
		err := read(d)
		if err == nil && len(given) != 2 {
			return d.r.Err("%d numbers; longitude and latitude are wanted", len(given))
		}
		if err == nil {
			*p = &orb.Point{given[0], given[1]}
		}
		return err
	}
	f.get = func(*writer) (geojson.Value, bool) {
		if *p == nil {
			return geojson.Value{}, false
		}
		return geojson.Value{Kind: geojson.Array, Items: []geojson.Value{geojson.NumberOf((*p)[0]), geojson.NumberOf((*p)[1])}}, true
	}
	f.check = func(c *checker) {
		if *p != nil {
			c.wrong(key, positionWrong(**p))
		}
	}
	return f
}

// spot is a position that is there: longitude, latitude.
func spot(key string, p *orb.Point) field {
	at := p
	f := required(place(key, &at))
	read := f.walk
	f.walk = func(d *decoder) error {
		err := read(d)
		*p = *at
		return err
	}
	return f
}

// zoneName is the IANA name of a time zone that may be unknown.
func zoneName(key string, p *string) field {
	return checked(text(key, p), func() (wrong string) {
		if *p != "" {
			_, wrong = loadZone(*p)
		}
		return wrong
	})
}

// secondary makes reading f also make the source a secondary port.
func (t *TideSource) secondary(f field, s *Secondary) field {
	walk := f.walk
	f.walk = func(d *decoder) error {
		t.Secondary = s
		return walk(d)
	}
	return f
}

func (c *Constituent) fields() []field {
	return []field{
		required(checked(text("name", &c.Name), func() string {
			if c.Name == "" {
				return "an empty name; a constituent such as M2 is wanted"
			}
			return ""
		})),
		required(number("amplitude_m", &c.AmplitudeM, 0, numberRange{0, 20, "metres"})),
		required(number("phase_deg", &c.PhaseDeg, 0, numberRange{-360, 360, "degrees"})),
	}
}

func (e *TideEvent) fields() []field {
	return []field{
		required(moment("time", &e.Time)),
		required(number("height_m", &e.HeightM, 0, numberRange{-20, 30, "metres"})),
		choice("kind", &e.Kind, "", HighWater, LowWater),
		flag("double", &e.Double),
	}
}

func (c *Correction) fields() []field {
	return []field{
		required(number("minutes", &c.Minutes, 0, numberRange{-720, 720, "minutes"})),
		optional("metres", &c.Metres, numberRange{-20, 20, "metres"}),
		optional("factor", &c.Factor, numberRange{0, 10, ""}),
	}
}
