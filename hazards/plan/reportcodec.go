package plan

import (
	"bytes"
	"cmp"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
)

// answer is a feature of the report.
type answer interface {
	record
	legNumber() int
	when() *time.Time
	checkName() string // "" for what is no finding
	shape() orb.Geometry
	setShape(orb.Geometry)
}

func (l *Leg) legNumber() int            { return l.Leg }
func (f *Finding) legNumber() int        { return f.Leg }
func (z *ZonePassage) legNumber() int    { return z.Leg }
func (s *SlowDown) legNumber() int       { return s.Leg }
func (c *Clearance) legNumber() int      { return c.Leg }
func (s *StayResult) legNumber() int     { return s.Leg }
func (s *SwingingCircle) legNumber() int { return s.Leg }

func (l *Leg) checkName() string            { return "" }
func (f *Finding) checkName() string        { return f.Check }
func (z *ZonePassage) checkName() string    { return "" }
func (s *SlowDown) checkName() string       { return "" }
func (c *Clearance) checkName() string      { return "" }
func (s *StayResult) checkName() string     { return "" }
func (s *SwingingCircle) checkName() string { return "" }

func (l *Leg) shape() orb.Geometry            { return l.Line }
func (f *Finding) shape() orb.Geometry        { return f.Geometry }
func (z *ZonePassage) shape() orb.Geometry    { return z.Entry }
func (s *SlowDown) shape() orb.Geometry       { return s.At }
func (c *Clearance) shape() orb.Geometry      { return c.At }
func (s *StayResult) shape() orb.Geometry     { return s.At }
func (s *SwingingCircle) shape() orb.Geometry { return s.Area }

func (l *Leg) setShape(g orb.Geometry)            { l.Line, _ = g.(orb.LineString) }
func (f *Finding) setShape(g orb.Geometry)        { f.Geometry = g }
func (z *ZonePassage) setShape(g orb.Geometry)    { z.Entry, _ = g.(orb.Point) }
func (s *SlowDown) setShape(g orb.Geometry)       { s.At, _ = g.(orb.Point) }
func (c *Clearance) setShape(g orb.Geometry)      { c.At, _ = g.(orb.Point) }
func (s *StayResult) setShape(g orb.Geometry)     { s.At, _ = g.(orb.Point) }
func (s *SwingingCircle) setShape(g orb.Geometry) { s.Area, _ = g.(orb.Polygon) }

// answers returns the features of the report, kind by kind.
func (r *Report) answers() []answer {
	var out []answer
	out = addAnswers(out, r.Legs)
	out = addAnswers(out, r.Findings)
	out = addAnswers(out, r.Zones)
	out = addAnswers(out, r.SlowDowns)
	out = addAnswers(out, r.Clearances)
	out = addAnswers(out, r.Stays)
	return addAnswers(out, r.Circles)
}

func addAnswers[T any, P interface {
	*T
	answer
}](out []answer, list []T) []answer {
	for i := range list {
		out = append(out, P(&list[i]))
	}
	return out
}

// Encode writes the report as RFC 7946 GeoJSON, times with the offset of the
// zone (nil: UTC). Equal reports give equal bytes: features are ordered by leg,
// time, check and position, whatever their order in the slices, and what still
// ties by what is written. What is not finite is written as null.
func (r *Report) Encode(zone *time.Location) []byte {
	if zone == nil {
		zone = time.UTC
	}
	w := &writer{zone: zone}
	out := append([]byte("{\n\"type\": \"FeatureCollection\",\n\"report\": "), w.record(r).AppendJSON(nil)...)
	return append(appendLines(append(out, ",\n\"features\": "...), w.answers(r)), "\n}\n"...)
}

// answers writes the features of the report in their order.
func (w *writer) answers(r *Report) [][]byte {
	var lines []written
	for _, a := range r.answers() {
		lines = append(lines, written{a, w.answer(a).AppendJSON(nil)})
	}
	slices.SortFunc(lines, func(a, b written) int {
		return cmp.Or(compareAnswers(a, b), bytes.Compare(a.text, b.text))
	})
	out := make([][]byte, len(lines))
	for i, l := range lines {
		out[i] = l.text
	}
	return out
}

// written is a feature of the report with its text.
type written struct {
	answer
	text []byte
}

// compareAnswers is the order of two features, as far as it does not take their
// texts.
func compareAnswers(a, b answer) int {
	p, q := firstPosition(a.shape()), firstPosition(b.shape())
	return cmp.Or(
		cmp.Compare(a.legNumber(), b.legNumber()),
		timeOf(a.when()).Compare(timeOf(b.when())),
		cmp.Compare(a.checkName(), b.checkName()),
		cmp.Compare(p.Lon(), q.Lon()),
		cmp.Compare(p.Lat(), q.Lat()))
}

// WorstFirst lists, by their places, the findings that weigh as the worst does and
// come first where the report is written: one, or several that only their words tell
// apart.
func (r *Report) WorstFirst() []int {
	var out []int
	for i := range r.Findings {
		order := -1
		if len(out) > 0 {
			f, first := &r.Findings[i], &r.Findings[out[0]]
			order = cmp.Or(cmp.Compare(first.Severity.known(), f.Severity.known()), compareAnswers(f, first))
		}
		switch {
		case order < 0:
			out = append(out[:0], i)
		case order == 0:
			out = append(out, i)
		}
	}
	return out
}

// Worst is, of the findings that weigh as the worst does, the one that comes
// first where the report is written in a zone; nil for a report without one.
func (r *Report) Worst(zone *time.Location) *Finding {
	if zone == nil {
		zone = time.UTC
	}
	w := &writer{zone: zone}
	var first *Finding
	for _, i := range r.WorstFirst() {
		if f := &r.Findings[i]; first == nil || w.before(f, first) {
			first = f
		}
	}
	return first
}

// before reports whether a is written before b, by their texts.
func (w *writer) before(a, b *Finding) bool {
	return bytes.Compare(w.answer(a).AppendJSON(nil), w.answer(b).AppendJSON(nil)) < 0
}

func (w *writer) answer(a answer) geojson.Value {
	var v geojson.Value
	v.Append("type", geojson.TextOf("Feature"))
	v.Append("geometry", geojson.ValueOf(a.shape(), positionDecimals))
	v.Append("properties", w.record(a))
	return v
}

// timeOf returns the second that is written, so that features do not change
// places for a difference nobody sees.
func timeOf(t *time.Time) time.Time {
	if t == nil {
		return time.Time{}
	}
	return t.Round(time.Second)
}

// firstPosition returns the position a feature is ordered by, as it is written.
func firstPosition(g orb.Geometry) orb.Point {
	switch g := g.(type) {
	case orb.Point:
		return rounded(g)
	case orb.LineString:
		if len(g) > 0 {
			return rounded(g[0])
		}
	case orb.Polygon:
		if len(g) > 0 && len(g[0]) > 0 {
			return rounded(g[0][0])
		}
	}
	return orb.Point{}
}

// DecodeReport reads a report, for tests and for comparing two reports. Its error
// is an [*Errors].
func DecodeReport(b []byte) (*Report, error) {
	d := &decoder{r: geojson.NewReader(b), offsets: map[string]int{}, forget: true}
	r := &Report{}
	var outer kept
	err := d.object(&outer, []field{
		constant("type", "FeatureCollection"),
		required(field{key: "report", kind: geojson.Object, walk: func(d *decoder) error { return d.record(r) }}),
		required(field{key: "features", kind: geojson.Array, fresh: true, walk: func(d *decoder) error {
			return d.items(func() error { return d.anyAnswer(r) })
		}}),
	})
	if err == nil {
		err = d.r.End()
	}
	if err = d.note(err); err != nil {
		return nil, fatal(err)
	}
	return r, listed(d.problems, d.more)
}

func (d *decoder) anyAnswer(r *Report) error {
	mark, err := d.r.Postpone()
	if err != nil {
		return err
	}
	var kind string
	err = d.r.Revisit(mark, func() error {
		return d.property("kind", func() (err error) { kind, err = d.r.String(); return err })
	})
	if err != nil {
		return err
	}
	return d.r.Revisit(mark, func() error { return d.answerOf(r, kind) })
}

func (d *decoder) answerOf(r *Report, kind string) error {
	switch kind {
	case "leg":
		return readAnswer(d, &r.Legs)
	case "finding":
		return readAnswer(d, &r.Findings)
	case "zone":
		return readAnswer(d, &r.Zones)
	case "slow-down":
		return readAnswer(d, &r.SlowDowns)
	case "clearance":
		return readAnswer(d, &r.Clearances)
	case "stay":
		return readAnswer(d, &r.Stays)
	case "swinging-circle":
		return readAnswer(d, &r.Circles)
	}
	return d.r.Err("the kind %s; a kind of the report is wanted", quoted(kind))
}

func readAnswer[T any, P interface {
	*T
	answer
}](d *decoder, list *[]T) error {
	var item T
	a := P(&item)
	var outer kept
	err := d.object(&outer, []field{
		constant("type", "Feature"),
		{key: "geometry", kind: geojson.Object, walk: func(d *decoder) error {
			var g geojson.Geometry
			err := d.r.Geometry(&g)
			if err == nil {
				a.setShape(g.Orb())
			}
			return err
		}},
		required(field{key: "properties", kind: geojson.Object, walk: func(d *decoder) error { return d.record(a) }}),
	})
	*list = append(*list, item)
	return err
}
