package hazards

import (
	"encoding/binary"
	"math"
	"strconv"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
	"keelroom/hazards/sun"
	"keelroom/hazards/tide"
)

// memory keeps what departures of one day share besides the ground: the tide
// with its turning points, the sun's events, and, as long as the settings stand, the
// sea and the outcomes of legs. All of it is a function of what
// it is kept under, so that a check with it gives what one without it gives.
type memory struct {
	ground   *ground  // that the rest but for the tide and the sun was made on
	settings settings // that it was made with
	room     []byte   // of the settings before, for the next
	states   recent[seaKey, seaState]
	outcomes recent[string, *legOutcome]
	ways     recent[string, wayOutcome]
	keyRoom  []byte      // of the key at hand
	times    []time.Time // of the looks at hand
	tideKey  string
	tide     tide.Tide
	windows  map[[2]int64]*tide.Window // of tide, by their ends in Unix seconds
	suns     map[sunKey]sun.Day
	seas     map[orb.Point]seaMemo // of the check at hand: only the room is kept
	// work counts what is looked at: pieces of track, steps, cells of sea. It is how
	// tests see that work is bounded.
	work int
}

// sunKey is a calendar day at a place.
type sunKey struct {
	year, day int // day of the year
	zone      *time.Location
	at        orb.Point
}

func newMemory() *memory {
	return &memory{windows: map[[2]int64]*tide.Window{}, suns: map[sunKey]sun.Day{}, seas: map[orb.Point]seaMemo{},
		states: newRecent[seaKey, seaState](mostStates), outcomes: newRecent[string, *legOutcome](mostOutcomes), ways: newRecent[string, wayOutcome](mostWays)}
}

// Bounds of what is kept for the next check: some checks' worth of each.
const (
	mostStates   = 4_000
	mostOutcomes = 1_000
	mostWays     = 500
)

// serve makes the memory ready for a check: what was made on another ground or with
// other settings is forgotten.
func (m *memory) serve(g *ground, p *plan.Plan) {
	now := settingsOf(p, m.room)
	if m.ground == g && now.equal(&m.settings) {
		m.room = now.bytes
		return
	}
	m.room, m.ground, m.settings = m.settings.bytes, g, now
	m.states.clear()
	m.outcomes.clear()
	m.ways.clear()
}

// recent is a map that forgets what was not asked for lately: once a number of new
// things came, what was not asked for since the last time is let go.
type recent[K comparable, V any] struct {
	now, before map[K]V
	most        int
}

func newRecent[K comparable, V any](most int) recent[K, V] {
	return recent[K, V]{map[K]V{}, map[K]V{}, most}
}

func (r *recent[K, V]) get(key K) (V, bool) {
	v, ok := r.now[key]
	if !ok {
		if v, ok = r.before[key]; ok {
			r.put(key, v)
		}
	}
	return v, ok
}

func (r *recent[K, V]) put(key K, v V) {
	if len(r.now) >= r.most {
		r.now, r.before = r.before, r.now
		clear(r.now)
	}
	r.now[key] = v
}

func (r *recent[K, V]) clear() {
	clear(r.now)
	clear(r.before)
}

// seaKey is a place and a time, by the tide that makes banks dry or wet there.
type seaKey struct {
	tide *tide.Window // nil: none is given
	at   orb.Point
	time int64 // Unix nanoseconds
}

// seaState is the sea then; known is false where the wind is not known.
type seaState struct {
	state sea.State
	known bool
}

// seaLying is the sea where she lies at a time. Departures of one day lie there at the
// same hours.
func (c *checker) seaLying(p orb.Point, t time.Time) (sea.State, bool) {
	window, _ := c.heights.tide.(*tide.Window)
	if c.lyingSeas == nil || window == nil && c.heights.tide != nil {
		return c.seaAt(p, t)
	}
	key := seaKey{window, p, t.UnixNano()}
	s, seen := c.lyingSeas.get(key)
	if !seen {
		s.state, s.known = c.sea.At(p, t)
		c.lyingSeas.put(key, s)
	}
	return s.state, s.known
}

// seaAt is the sea at a place and a time.
func (c *checker) seaAt(p orb.Point, t time.Time) (sea.State, bool) {
	window, _ := c.heights.tide.(*tide.Window)
	if c.passing || window == nil && c.heights.tide != nil {
		return c.sea.At(p, t)
	}
	key := seaKey{window, p, t.UnixNano()}
	s, seen := c.memory.states.get(key)
	if !seen {
		s.state, s.known = c.sea.At(p, t)
		c.memory.states.put(key, s)
	}
	return s.state, s.known
}

// tideOf is the tide of a source: the one kept if the figures are the same.
func (m *memory) tideOf(s *plan.TideSource) (tide.Tide, error) {
	key := string(appendTideKey(nil, s))
	if m.tide != nil && key == m.tideKey {
		return m.tide, nil
	}
	t, err := NewTide(s)
	if err != nil {
		return nil, err
	}
	clear(m.windows)
	m.tideKey, m.tide = key, t
	return t, nil
}

// window is the kept tide with its turning points from one time to another, each
// set back or forward to the next midnight of UT, so that departures of a day
// have few of them.
func (m *memory) window(from, to time.Time) *tide.Window {
	const day = 24 * time.Hour
	from = from.Truncate(day)
	to = to.Add(day - 1).Truncate(day)
	key := [2]int64{from.Unix(), to.Unix()}
	if w := m.windows[key]; w != nil {
		return w
	}
	if len(m.windows) >= maxWindows {
		clear(m.windows)
	}
	w := tide.NewWindow(m.tide, from, to)
	m.windows[key] = w
	return w
}

const maxWindows = 64

// sunOn is sun.On.
func (m *memory) sunOn(date time.Time, p orb.Point) sun.Day {
	key := sunKey{date.Year(), date.YearDay(), date.Location(), p}
	d, ok := m.suns[key]
	if !ok {
		if len(m.suns) >= maxRemembered/100 {
			clear(m.suns)
		}
		d = sun.On(date, p)
		m.suns[key] = d
	}
	return d
}

// appendTideKey writes all figures that a tide is made of, each with its length
// or in a fixed one, so that different sources differ.
func appendTideKey(b []byte, s *plan.TideSource) []byte {
	if s == nil {
		return append(b, 0)
	}
	number := func(v float64) { b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v)) }
	optional := func(v *float64) {
		if v == nil {
			b = append(b, 0)
			return
		}
		b = append(b, 1)
		number(*v)
	}
	b = append(b, 1)
	optional(s.Z0M)
	optional(s.LevelM)
	number(s.AdjustM)
	number(s.RecordYears)
	number(s.LeftOutM)
	b = append(binary.AppendUvarint(b, uint64(len(s.LeftOut))), s.LeftOut...)
	b = binary.AppendUvarint(b, uint64(len(s.Constituents)))
	for _, c := range s.Constituents {
		b = append(binary.AppendUvarint(b, uint64(len(c.Name))), c.Name...)
		number(c.AmplitudeM)
		number(c.PhaseDeg)
	}
	b = binary.AppendUvarint(b, uint64(len(s.Events)))
	for _, e := range s.Events {
		b = binary.LittleEndian.AppendUint64(b, uint64(e.Time.Unix()))
		b = binary.LittleEndian.AppendUint32(b, uint32(e.Time.Nanosecond()))
		number(e.HeightM)
		b = append(binary.AppendUvarint(b, uint64(len(e.Kind))), e.Kind...)
		b = strconv.AppendBool(b, e.Double)
	}
	if s.Secondary == nil {
		return append(b, 0)
	}
	b = append(b, 1)
	for _, c := range []*plan.Correction{s.Secondary.High, s.Secondary.Low} {
		if c == nil {
			b = append(b, 0)
			continue
		}
		b = append(b, 1)
		number(c.Minutes)
		optional(c.Metres)
		optional(c.Factor)
	}
	return appendTideKey(b, s.Secondary.Reference)
}
