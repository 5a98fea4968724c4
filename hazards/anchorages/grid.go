package anchorages

import (
	"fmt"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// Grid is how rough it is in an area, and whether it is clear to lie there, by cell and
// hour. It is worked out hour by hour and can be left off, by an error of
// Session.Between, and run on. What it says of a cell is of its middle.
type Grid struct {
	Question   Question
	Cols, Rows int
	Hours      []GridHour

	cell  int // of the hour at hand
	water []waterThere
}

// GridHour is what is known of all cells from one time to another, row by row from the
// south-west.
type GridHour struct {
	From, Until time.Time
	Cells       []GridCell
	Done        bool
}

// GridCell is a cell in an hour.
type GridCell struct {
	Water   bool          // water is charted there: the rest means something
	HsM     float64       // the greatest significant height of the sea
	Known   bool          // HsM is known
	Verdict plan.Severity // of lying there in that hour alone
}

// waterThere is whether water is charted in the middle of a cell.
type waterThere uint8

const (
	notAsked waterThere = iota
	thereIs
	thereIsNone
)

// Bounds of a grid: more cells or hours than are told apart on a screen take too long.
const (
	mostCells = 48 // on its longer side
	mostHours = 48
)

// NewGrid begins a grid of so many cells on the longer side of the question's area, from
// when she arrives until she leaves.
func NewGrid(q Question, cells int) (*Grid, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	if cells < 1 || cells > mostCells {
		return nil, fmt.Errorf("%d cells on a side; 1 to %d are wanted", cells, mostCells)
	}
	if hours := q.Stay.Until.Sub(q.Arrive); hours > mostHours*time.Hour {
		return nil, fmt.Errorf("a stay of %.0f hours; at most %d are wanted", hours.Hours(), mostHours)
	}
	w, h := sides(q.Area)
	side := math.Max(w, h) / float64(cells)
	g := &Grid{Question: q, Cols: max(1, int(math.Round(w/side))), Rows: max(1, int(math.Round(h/side)))}
	g.water = make([]waterThere, g.Cols*g.Rows)
	for from := q.Arrive; from.Before(q.Stay.Until); from = from.Add(time.Hour) {
		until := from.Add(time.Hour)
		if until.After(q.Stay.Until) {
			until = q.Stay.Until
		}
		g.Hours = append(g.Hours, GridHour{From: from, Until: until, Cells: make([]GridCell, g.Cols*g.Rows)})
	}
	return g, nil
}

// At is the middle of a cell, by its place in GridHour.Cells.
func (g *Grid) At(cell int) orb.Point {
	a, x, y := g.Question.Area, float64(cell%g.Cols)+0.5, float64(cell/g.Cols)+0.5
	return orb.Point{a.Min[0] + (a.Max[0]-a.Min[0])*x/float64(g.Cols), a.Min[1] + (a.Max[1]-a.Min[1])*y/float64(g.Rows)}
}

// Progress is how much of the work is done, from 0 to 1.
func (g *Grid) Progress() float64 {
	done := g.cell
	for i := range g.Hours {
		if g.Hours[i].Done {
			done += len(g.water)
		}
	}
	return float64(done) / float64(len(g.water)*len(g.Hours))
}

// Run works the hours out; each, unless it is nil, is called after every one. An error is
// that of the plan, of the Session's Between, or of each; after the last two Run can be
// called again.
func (g *Grid) Run(session *hazards.Session, each func() error) error {
	for i := range g.Hours {
		if g.Hours[i].Done {
			continue
		}
		if err := g.hour(session, &g.Hours[i]); err != nil {
			return err
		}
		if each == nil {
			continue
		}
		if err := each(); err != nil {
			return err
		}
	}
	return nil
}

// hour works one hour out, from the cell on where it was left off.
func (g *Grid) hour(session *hazards.Session, h *GridHour) error {
	stay := g.Question.Stay
	stay.At, stay.Until = g.Question.Area.Center(), h.Until
	l, err := session.Lying(g.Question.Plan, stay, h.From)
	if err != nil {
		return err
	}
	query := l.Chart().NewQuery()
	for ; g.cell < len(g.water); g.cell++ {
		if session.Between != nil {
			if err := session.Between(); err != nil {
				return err
			}
		}
		if err := g.look(l, query, &h.Cells[g.cell]); err != nil {
			return err
		}
	}
	g.cell, h.Done = 0, true
	return nil
}

// look works the cell at hand out.
func (g *Grid) look(l *hazards.Lying, query *chart.Query, c *GridCell) error {
	at := g.At(g.cell)
	if g.water[g.cell] == notAsked {
		g.water[g.cell] = waterAt(query, at)
	}
	if g.water[g.cell] == thereIsNone {
		return nil
	}
	c.Water = true
	c.HsM, c.Known = l.Sea(at)
	if f, out := l.RuledOut(at); out {
		c.Verdict = f.Severity
		return nil
	}
	lie, err := l.Judge(at)
	c.Verdict = lie.Worst
	return err
}

// waterAt tells whether a chart has water at a place, of whatever depth, and no land.
func waterAt(q *chart.Query, at orb.Point) waterThere {
	there := thereIsNone
	for _, f := range q.AreasAt(at) {
		switch {
		case f.Class == chart.LNDARE:
			return thereIsNone
		case f.Class.WaterArea():
			there = thereIs
		}
	}
	return there
}
