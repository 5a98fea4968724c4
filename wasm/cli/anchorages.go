//go:build !js

package cli

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/anchorages"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// aroundNM is how far about the stay is looked where no area is given.
const aroundNM = 3

// runAnchorages finds places to lie at for a stay of a plan.
func runAnchorages(args []string, out, diag io.Writer) error {
	f := flags("anchorages")
	var charts paths
	f.Var(&charts, "chart", "a chart, as for check; may be given several times")
	within := f.String("within", "", "lon,lat,nm: look within so many nautical miles of a place")
	box := f.String("box", "", "w,s,e,n: look in a box, degrees")
	number := f.Int("stay", 1, "which stay of the plan, from 1")
	if err := f.Parse(args); err != nil {
		return err
	}
	if err := oneDay(f, charts); err != nil {
		return err
	}
	if *within != "" && *box != "" {
		return fmt.Errorf("-within and -box; one of them is wanted")
	}
	p, err := readPlan(f.Arg(0))
	if err != nil {
		return err
	}
	sets, err := readSets(charts)
	if err != nil {
		return err
	}
	layer.AddSwapHints(sets)
	writeMessages(diag, sets)
	session := hazards.NewSession(chart.New(sets...))
	q, err := askedOf(session, p, *number)
	if err != nil {
		return err
	}
	if q.Area, err = areaOf(*within, *box, q.Stay.At); err != nil {
		return err
	}
	s, err := anchorages.New(q)
	if err != nil {
		return err
	}
	if err := s.Run(session, nil); err != nil {
		return named(f.Arg(0), err)
	}
	list := s.Worded(words.English, math.MaxInt)
	fmt.Fprintf(diag, "%d places; a planning aid, not a chart: check official charts and notices, keep a lookout, obey local rules\n", len(list))
	_, err = out.Write(plan.EncodeAnchorages(list, p.Zone))
	return err
}

// askedOf is the question of a stay of a plan, which arrives as a check of the plan
// has it.
func askedOf(session *hazards.Session, p *plan.Plan, number int) (q anchorages.Question, err error) {
	stays := p.Stays()
	if number < 1 || number > len(stays) {
		return q, fmt.Errorf("-stay %d; the plan has stays 1 to %d", number, len(stays))
	}
	r, err := session.Check(p)
	if err != nil {
		return q, err
	}
	stay := stays[number-1]
	for i := range r.Stays {
		if r.Stays[i].At == stay.At && r.Stays[i].Until.Equal(stay.Until) && r.Stays[i].Arrive != nil {
			return anchorages.Question{Plan: p, Stay: *stay, Arrive: r.Stays[i].Arrive.Truncate(time.Second), From: beginsBefore(p, stay)}, nil
		}
	}
	return q, fmt.Errorf("stay %d is not reached; a route that leads to it is wanted", number)
}

// beginsBefore is where the way that leads to a stay begins, nil without one.
func beginsBefore(p *plan.Plan, stay *plan.Stay) (from *orb.Point) {
	for _, part := range p.Parts {
		switch {
		case part.Stay == stay:
			return from
		case part.Route != nil && len(part.Route.Points) > 0:
			from = &part.Route.Points[0]
		}
	}
	return nil
}

// areaOf reads where to look.
func areaOf(within, box string, stay orb.Point) (orb.Bound, error) {
	switch {
	case within != "":
		v, err := numbers("-within", within, 3, "lon,lat,nm")
		if err != nil {
			return orb.Bound{}, err
		}
		return anchorages.Around(orb.Point{v[0], v[1]}, v[2]), nil
	case box != "":
		v, err := numbers("-box", box, 4, "w,s,e,n")
		if err != nil {
			return orb.Bound{}, err
		}
		return orb.Bound{Min: orb.Point{v[0], v[1]}, Max: orb.Point{v[2], v[3]}}, nil
	}
	return anchorages.Around(stay, aroundNM), nil
}

// numbers reads some numbers with commas between them.
func numbers(flag, text string, n int, wanted string) ([]float64, error) {
	parts := strings.Split(text, ",")
	out := make([]float64, 0, n)
	for _, s := range parts {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil {
			return nil, fmt.Errorf("%s %q: %q is no number; %s is wanted, in degrees and miles", flag, text, s, wanted)
		}
		out = append(out, v)
	}
	if len(out) != n {
		return nil, fmt.Errorf("%s %q: %d numbers; %s is wanted", flag, text, len(out), wanted)
	}
	return out, nil
}
