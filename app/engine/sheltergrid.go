package engine

import (
	"math"

	"keelroom/hazards/anchorages"
	"keelroom/hazards/plan"
)

// ShelterBody is how rough it is in a part of the chart, and whether it is clear to lie
// there, by cell and hour.
type ShelterBody struct {
	Bounds [4]float64    `json:"bounds"` // west, south, east, north
	Cols   int           `json:"cols"`
	Rows   int           `json:"rows"`
	Hours  []ShelterHour `json:"hours"` // those that are worked out
}

// ShelterHour is what holds from one time to another, Unix seconds, in each cell, row by
// row from the south-west.
type ShelterHour struct {
	From  int64 `json:"from"`
	Until int64 `json:"until"`
	// SeaCM is the greatest significant height in centimetres, rounded up: SeaUnknown
	// where it is not known, NoWater where no water is charted.
	SeaCM []int `json:"sea_cm"`
	// Verdict is of lying there in that hour alone: 0 clear, 1 care, 2 not known, 3 not
	// clear; NoWater where no water is charted.
	Verdict []int `json:"verdict"`
}

// Marks of cells of which there is no figure.
const (
	NoWater    = -1
	SeaUnknown = -2
)

// shelterCells is how many cells a grid has on its longer side where the request does
// not say.
const shelterCells = 24

// shelterGrid works a grid out. What was worked out stays when a shorter request goes
// first.
func (s *Service) shelterGrid(j *job) error {
	session, err := s.charts.ready(j)
	if err != nil {
		return err
	}
	if j.grid == nil {
		q, err := s.whereToLieIn(session, j)
		if err != nil {
			return err
		}
		cells := j.Cells
		if cells == 0 {
			cells = shelterCells
		}
		if j.grid, err = anchorages.NewGrid(q, cells); err != nil {
			return &failure{words: "No shelter was worked out: " + err.Error() + "."}
		}
	}
	err = j.grid.Run(session, func() error {
		raw, err := bodyOf(shelterBody(j.grid))
		if err != nil {
			return err
		}
		s.jobs.post(j, Reply{State: Progress, Words: "Working out the shelter.", Done: int(1000 * j.grid.Progress()), Total: 1000, Body: raw})
		return nil
	})
	if err != nil {
		return checkFailed(err)
	}
	return s.jobs.done(j, shelterBody(j.grid), nil)
}

// shelterBody is what is worked out of a grid.
func shelterBody(g *anchorages.Grid) ShelterBody {
	a := g.Question.Area
	out := ShelterBody{Bounds: [4]float64{a.Min[0], a.Min[1], a.Max[0], a.Max[1]}, Cols: g.Cols, Rows: g.Rows, Hours: []ShelterHour{}}
	for i := range g.Hours {
		h := &g.Hours[i]
		if !h.Done {
			break
		}
		hour := ShelterHour{From: h.From.Unix(), Until: h.Until.Unix(), SeaCM: make([]int, len(h.Cells)), Verdict: make([]int, len(h.Cells))}
		for k := range h.Cells {
			hour.SeaCM[k], hour.Verdict[k] = cellFigures(&h.Cells[k])
		}
		out.Hours = append(out.Hours, hour)
	}
	return out
}

// cellFigures are the sea and the verdict of a cell as they are sent.
func cellFigures(c *anchorages.GridCell) (seaCM, verdict int) {
	switch {
	case !c.Water:
		return NoWater, NoWater
	case !c.Known:
		return SeaUnknown, verdictMark(c)
	}
	return int(math.Ceil(c.HsM*100 - 1e-6)), verdictMark(c)
}

// verdictMark is the verdict of a cell as it is sent; a note does not count.
func verdictMark(c *anchorages.GridCell) int {
	switch c.Verdict {
	case plan.NotClear:
		return 3
	case plan.Care:
		return 1
	case plan.Clear, plan.Note:
		return 0
	}
	return 2
}
