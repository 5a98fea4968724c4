package engine

import (
	"cmp"
	"math"
	"strconv"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
	"keelroom/hazards/plan"
)

// A view is what the screen shows of a check while a point is dragged: named items,
// each with its JSON. An answer holds the items that differ from the answer before:
//
//	{"seq":7,"state":"done","base":6,"items":{"leg 3":"care",…},"gone":["finding …"]}
//
// base is the answer that it changes; 0: the items are all. The items:
//
//	head              see Head
//	leg N             the worst severity found on leg N, "clear" for none above a note
//	clearance N       [lon, lat, metres] where the clearance of leg N is least
//	finding ID        {"severity","geometry","also":[[lon, lat]…]}
//	zones             [[lon, lat, knots, stated]…]
//	slow-downs        [[lon, lat, knots]…]
//	circles           [[[lon, lat]…]…], the outlines
//	blocks            as those of a day; see Block
//	moved             [[feature, vertex]…] of all points that do not lie where they did
//
// Times are Unix seconds, figures are rounded as in the report, null is not known.
type view struct {
	text  []byte
	items []viewItem
	index map[string]int // of items, by name
	worst []plan.Severity

	legNames, clearanceNames []string // made so far, by leg
}

// viewItem is one item and where its JSON lies in the text.
type viewItem struct {
	name     string
	from, to int
}

// of makes the view of a checked plan, which was another before a point was moved.
func (v *view) of(before, p *plan.Plan, r *plan.Report) {
	v.text, v.items = v.text[:0], v.items[:0]
	v.item("head", v.head(r))
	v.legs(r)
	for i := range r.Clearances {
		c := &r.Clearances[i]
		v.item(numbered(&v.clearanceNames, "clearance ", c.Leg), append(appendMetres(append(appendPair(append(v.text, '['), c.At), ','), c.ClearanceM), ']'))
	}
	v.findings(r)
	v.item("zones", v.zones(r))
	v.item("slow-downs", v.slowDowns(r))
	v.item("circles", v.circles(r))
	v.item("blocks", v.blocks(p, r))
	v.item("moved", v.moved(before, p))
	if v.index == nil {
		v.index = map[string]int{}
	}
	clear(v.index)
	for i := range v.items {
		v.index[v.items[i].name] = i
	}
}

// item adds an item; text is the view's own with the item's JSON at its end.
func (v *view) item(name string, text []byte) {
	v.items = append(v.items, viewItem{name, len(v.text), len(text)})
	v.text = text
}

// json is the JSON of an item.
func (v *view) json(i int) []byte { return v.text[v.items[i].from:v.items[i].to] }

// numbered is a name with a number, made once.
func numbered(made *[]string, name string, n int) string {
	for i := len(*made); i <= n; i++ {
		*made = append(*made, name+strconv.Itoa(i))
	}
	return (*made)[max(n, 0)]
}

// message writes the view as the answer to a move: against the one before if that is
// what base names, else whole.
func (v *view) message(seq, base int, before *view) []byte {
	b := appendHead(make([]byte, 0, 512), seq, Done)
	b = strconv.AppendInt(append(b, `,"base":`...), int64(base), 10)
	b = append(b, `,"items":{`...)
	first := true
	for i := range v.items {
		name := v.items[i].name
		if k, there := before.index[name]; base != 0 && there && string(before.json(k)) == string(v.json(i)) {
			continue
		}
		if !first {
			b = append(b, ',')
		}
		first = false
		b = append(append(geojson.AppendText(b, name), ':'), v.json(i)...)
	}
	b = append(b, `},"gone":[`...)
	for i := 0; base != 0 && i < len(before.items); i++ {
		name := before.items[i].name
		if _, there := v.index[name]; there {
			continue
		}
		if b[len(b)-1] != '[' {
			b = append(b, ',')
		}
		b = geojson.AppendText(b, name)
	}
	return append(b, `]}`...)
}

// appendHead begins the answer to a move.
func appendHead(b []byte, seq int, state string) []byte {
	b = strconv.AppendInt(append(b, `{"seq":`...), int64(seq), 10)
	return append(append(append(b, `,"state":"`...), state...), '"')
}

// Head is the item head of a view.
type Head struct {
	Verdict string   `json:"verdict"`
	Counts  [3]int   `json:"counts"` // see Tally
	Depart  *int64   `json:"depart"`
	Back    *int64   `json:"back"`
	LeastM  *float64 `json:"least_m"`
	LeastAt *int64   `json:"least_at"`
	Worst   string   `json:"worst"` // the title of the worst finding, "" where none is above a note
}

// head writes the verdict and the figures beside it.
func (v *view) head(r *plan.Report) []byte {
	n := Tally(r)
	b := append(append(append(v.text, `{"verdict":"`...), r.Verdict.String()...), `","counts":[`...)
	for i, c := range n {
		if i > 0 {
			b = append(b, ',')
		}
		b = strconv.AppendInt(b, int64(c), 10)
	}
	b = appendTime(append(b, `],"depart":`...), r.Depart)
	b = appendTime(append(b, `,"back":`...), r.Back)
	var least plan.LeastClearance
	if r.LeastClearance != nil {
		least = *r.LeastClearance
	}
	b = appendMetres(append(b, `,"least_m":`...), least.ClearanceM)
	b = appendTime(append(b, `,"least_at":`...), least.Time)
	if f := worstOf(r); f != nil {
		b = geojson.AppendText(append(b, `,"worst":`...), f.Title)
	}
	return append(b, '}')
}

// Tally counts what is not clear, not known and wants care, those that are only
// counted among them.
func Tally(r *plan.Report) (n [3]int) {
	place := map[plan.Severity]int{plan.NotClear: 0, plan.NoData: 1, plan.Care: 2}
	add := func(s plan.Severity, count int) {
		if i, ok := place[s]; ok {
			n[i] += count
		}
	}
	for i := range r.Findings {
		add(r.Findings[i].Severity, 1)
	}
	for i := range r.More {
		add(r.More[i].Severity, r.More[i].Count)
	}
	return n
}

// worstOf is, of the findings that weigh most, the one that comes first in the day,
// nil where nothing is above a note.
func worstOf(r *plan.Report) (worst *plan.Finding) {
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Severity != plan.Note && (worst == nil || before(f, worst)) {
			worst = f
		}
	}
	return worst
}

// before reports whether a is listed rather than b.
func before(a, b *plan.Finding) bool {
	if a.Severity != b.Severity {
		return a.Severity.Worse(b.Severity) == a.Severity
	}
	second := func(t *time.Time) int64 {
		if t == nil {
			return 0
		}
		return t.Round(time.Second).Unix()
	}
	return cmp.Or(cmp.Compare(a.Leg, b.Leg), cmp.Compare(second(a.Time), second(b.Time)), cmp.Compare(a.Check, b.Check), cmp.Compare(a.Title, b.Title)) < 0
}

// legs are the worst that was found on each leg.
func (v *view) legs(r *plan.Report) {
	v.worst = v.worst[:0]
	for range len(r.Legs) + 1 {
		v.worst = append(v.worst, plan.Clear)
	}
	note := func(leg int, s plan.Severity) {
		if leg > 0 && leg < len(v.worst) {
			v.worst[leg] = v.worst[leg].Worse(s)
		}
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		note(f.Leg, f.Severity)
		for k := range f.Also {
			note(f.Also[k].Leg, f.Severity)
		}
	}
	for i := range r.Legs {
		n := r.Legs[i].Leg
		s := plan.NoData // a leg that is not counted through the day is not known
		if n > 0 && n < len(v.worst) {
			s = v.worst[n]
		}
		v.item(numbered(&v.legNames, "leg ", n), append(append(append(v.text, '"'), s.String()...), '"'))
	}
}

// findings are what was found, by what they are.
func (v *view) findings(r *plan.Report) {
	for i := range r.Findings {
		f := &r.Findings[i]
		b := append(append(append(v.text, `{"severity":"`...), f.Severity.String()...), `","geometry":`...)
		b = appendGeometry(b, f.Geometry)
		b = append(b, `,"also":[`...)
		for k := range f.Also {
			if k > 0 {
				b = append(b, ',')
			}
			b = append(appendPair(append(b, '['), f.Also[k].At), ']')
		}
		v.item("finding "+f.ID, append(b, `]}`...))
	}
}

func (v *view) zones(r *plan.Report) []byte {
	b := append(v.text, '[')
	for i := range r.Zones {
		z := &r.Zones[i]
		if i > 0 {
			b = append(b, ',')
		}
		b = appendKnots(append(appendPair(append(b, '['), z.Entry), ','), z.LimitKn)
		b = append(strconv.AppendBool(append(b, ','), z.Stated), ']')
	}
	return append(b, ']')
}

func (v *view) slowDowns(r *plan.Report) []byte {
	b := append(v.text, '[')
	for i := range r.SlowDowns {
		s := &r.SlowDowns[i]
		if i > 0 {
			b = append(b, ',')
		}
		b = append(appendKnots(append(appendPair(append(b, '['), s.At), ','), s.ToKn), ']')
	}
	return append(b, ']')
}

func (v *view) circles(r *plan.Report) []byte {
	b := append(v.text, '[')
	for i := range r.Circles {
		for k, ring := range r.Circles[i].Area {
			if i+k > 0 {
				b = append(b, ',')
			}
			b = appendLine(b, ring)
		}
	}
	return append(b, ']')
}

func (v *view) blocks(p *plan.Plan, r *plan.Report) []byte {
	b := append(v.text, '[')
	for i, k := range Blocks(p, r) {
		if i > 0 {
			b = append(b, ',')
		}
		b = geojson.AppendText(append(b, `{"kind":`...), k.Kind)
		b = strconv.AppendInt(append(b, `,"part":`...), int64(k.Part), 10)
		b = geojson.AppendText(append(b, `,"name":`...), k.Name)
		b = strconv.AppendInt(append(b, `,"from":`...), k.From, 10)
		b = append(strconv.AppendInt(append(b, `,"to":`...), k.To, 10), '}')
	}
	return append(b, ']')
}

// moved are the points of the parts of a day that lie elsewhere than before. Where a
// waypoint was put in there are none.
func (v *view) moved(before, p *plan.Plan) []byte {
	b := append(v.text, '[')
	part := 0
	for feature, role := range p.Roles() {
		if role != plan.RoleRoute && role != plan.RoleStay {
			continue
		}
		was, now := before.Parts[part].Positions(), p.Parts[part].Positions()
		part++
		for i := 0; i < len(now) && len(now) == len(was); i++ {
			if now[i] == was[i] {
				continue
			}
			if b[len(b)-1] == ']' {
				b = append(b, ',')
			}
			b = strconv.AppendInt(append(b, '['), int64(feature), 10)
			b = append(strconv.AppendInt(append(b, ','), int64(i), 10), ']')
		}
	}
	return append(b, ']')
}

// appendMetres writes a clearance as the report does.
func appendMetres(b []byte, m *float64) []byte { return appendNumber(b, m, plan.FloorHundredths) }

// appendKnots writes a speed as the report does.
func appendKnots(b []byte, kn *float64) []byte {
	return appendNumber(b, kn, func(v float64) float64 { return math.Round(v*10) / 10 })
}

// appendNumber writes a figure rounded, null for none that is finite.
func appendNumber(b []byte, v *float64, round func(float64) float64) []byte {
	if v == nil || *v-*v != 0 {
		return append(b, "null"...)
	}
	return strconv.AppendFloat(b, round(*v)+0, 'f', -1, 64) // +0: no minus zero
}

func appendTime(b []byte, t *time.Time) []byte {
	if t == nil {
		return append(b, "null"...)
	}
	return strconv.AppendInt(b, t.Round(time.Second).Unix(), 10)
}

// appendPair writes a position with the decimals of the report, without brackets.
func appendPair(b []byte, p orb.Point) []byte {
	b = strconv.AppendFloat(b, p[0], 'f', 7, 64)
	return strconv.AppendFloat(append(b, ','), p[1], 'f', 7, 64)
}

// appendLine writes a list of positions.
func appendLine[T ~[]orb.Point](b []byte, line T) []byte {
	b = append(b, '[')
	for i, p := range line {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(appendPair(append(b, '['), p), ']')
	}
	return append(b, ']')
}

// appendGeometry writes a geometry of a report; null for none.
func appendGeometry(b []byte, g orb.Geometry) []byte {
	switch g := g.(type) {
	case orb.Point:
		return append(appendPair(append(b, `{"type":"Point","coordinates":[`...), g), `]}`...)
	case orb.LineString:
		return append(appendLine(append(b, `{"type":"LineString","coordinates":`...), g), '}')
	case orb.Polygon:
		b = append(b, `{"type":"Polygon","coordinates":[`...)
		for i, ring := range g {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendLine(b, ring)
		}
		return append(b, `]}`...)
	}
	return append(b, "null"...)
}
