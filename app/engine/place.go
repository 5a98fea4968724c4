package engine

import (
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// PlaceBody is what the charts say of a place; see hazards.Place. Metres, nil
// where not known.
type PlaceBody struct {
	Lines     []string `json:"lines"`
	Land      bool     `json:"land"`
	DepthMinM *float64 `json:"depth_min_m"`
	DepthMaxM *float64 `json:"depth_max_m"`
	TideM     *float64 `json:"tide_m"`
	WaterM    *float64 `json:"water_m"`
}

// place tells what the charts say of a place. A plan that cannot be read gives
// no tide, and no zones or hazards of its own, and the answer says so.
func (s *Service) place(j *job) error {
	at, session, err := s.askedAbout(j)
	if err != nil {
		return err
	}
	p, planErr := plan.DecodeDraft([]byte(j.Plan))
	if planErr != nil {
		p = nil
	}
	found, err := session.Place(p, at, time.Unix(j.Time, 0))
	if err != nil {
		return checkFailed(err)
	}
	var zone *time.Location
	if p != nil {
		zone = p.Zone
	}
	lines := words.English.For(zone, time.Unix(j.Time, 0)).Others(found.Found)
	if planErr != nil && j.Plan != "" {
		lines = append(lines, "The plan cannot be read, so neither its tide nor its own zones and hazards are in this.")
	}
	return s.jobs.done(j, PlaceBody{lines, found.Land, found.DepthMinM, found.DepthMaxM, found.TideM, found.WaterM}, nil)
}

// askedAbout is the place that a request is about, and the session that answers it.
func (s *Service) askedAbout(j *job) (at orb.Point, session *hazards.Session, err error) {
	at, placed, err := positionOf(j)
	if err != nil {
		return at, nil, err
	}
	if !placed {
		return at, nil, &failure{words: "A position is wanted: longitude and latitude in degrees."}
	}
	session, err = s.charts.ready(j)
	return at, session, err
}
