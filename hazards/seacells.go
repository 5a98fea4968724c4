package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/passage"
	"keelroom/hazards/sea"
)

// seaLook is the sea at one time; known is false where the wind then is not known.
type seaLook struct {
	at    time.Time
	state sea.State
	known bool
}

// seaMemo keeps the sea at a place for the times it was last asked for.
type seaMemo struct {
	from, to time.Time
	looks    []seaLook
}

// seaMemoFor is how far apart in time one answer serves where nothing turns.
const seaMemoFor = 5 * time.Second

// seaWhile is the sea at a place at each of the times that count from one time to
// another.
func (c *checker) seaWhile(p orb.Point, from, to time.Time) []seaLook {
	m, seen := c.seas[p]
	if seen && from.Equal(m.from) && to.Equal(m.to) {
		return m.looks
	}
	m = seaMemo{from: from, to: to}
	times := c.looks(c.memory.times[:0], from, to)
	m.looks, c.memory.times = make([]seaLook, 0, len(times)), times
	for _, t := range times {
		l := seaLook{at: t}
		l.state, l.known = c.seaAt(p, t)
		m.looks = append(m.looks, l)
	}
	c.seas[p] = m
	return m.looks
}

// seaIn is the sea in a cell while she is there. The times at which the track was laid
// out with it serve where they are nearly hers.
func (c *checker) seaIn(cell *passage.SeaCell, from, to time.Time) []seaLook {
	if c.bounding {
		return c.mostSea(cell.At, from, to)
	}
	enter, leave, looked := cell.Looked()
	if looked && from.Sub(enter).Abs() <= seaMemoFor && to.Sub(leave).Abs() <= seaMemoFor &&
		len(c.turnsIn(earlier(from, enter).Add(-1), later(to, leave).Add(1))) == 0 {
		from, to = enter, leave
	}
	return c.seaWhile(cell.At, from, to)
}

// seaCell is a stretch of a leg with the sea that she meets there.
type seaCell struct {
	passage.SeaCell
	looks      []seaLook
	hsM, openM float64 // greatest significant height: within the data, and with open water beyond
	known      bool    // at all times looked at
}

// legSea is the sea along a leg.
func (c *checker) legSea(index int) []seaCell {
	if c.cells == nil {
		c.cells = make([][]seaCell, len(c.track.Legs))
	}
	if c.cells[index] == nil {
		c.cells[index] = c.lookAlong(index)
	}
	return c.cells[index]
}

func (c *checker) lookAlong(index int) []seaCell {
	leg := &c.track.Legs[index]
	cells := c.track.SeaOf(index)
	out := make([]seaCell, len(cells))
	for i, cell := range cells {
		c.did(1)
		s := seaCell{SeaCell: cell, known: true}
		s.looks = c.seaIn(&cell, c.track.TimeAt(leg, cell.FromM), c.track.TimeAt(leg, cell.ToM))
		for _, l := range s.looks {
			s.known = s.known && l.known && !l.state.SwellUnknown
			s.hsM, s.openM = math.Max(s.hsM, l.state.HsM), math.Max(s.openM, l.state.WithOpenHsM)
		}
		out[i] = s
	}
	return out
}

// waves is the greatest significant height on [from, to] metres of a leg:
// within the data and with open water beyond them. ok is false where the sea is
// not known for any of it, a swell that is given for other hours only among it.
func (c *checker) waves(index int, from, to float64) (withinM, withOpenM float64, ok bool) {
	ok = true
	for _, cell := range touching(c.legSea(index), from, to, func(s *seaCell) (float64, float64) { return s.FromM, s.ToM }) {
		c.did(1)
		ok = ok && cell.known
		withinM, withOpenM = math.Max(withinM, cell.hsM), math.Max(withOpenM, cell.openM)
	}
	return withinM, withOpenM, ok
}
