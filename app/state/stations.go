package state

import (
	"encoding/json"
	"strings"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// Stations is the search for a tide station.
type Stations struct {
	history *History
	notices *Notices
	ports   *Ports
	view    *View

	Search stationSearch
}

// stationSearch is the search for a tide station.
type stationSearch struct {
	Text   string
	Busy   bool
	Failed string
	Found  []engine.StationFound
}

// find searches by name, or near the chart's middle without one.
func (s *Stations) find(text string) {
	q := engine.Request{Kind: engine.FindStations, Text: strings.TrimSpace(text)}
	if at, ok := s.middle(); ok {
		q.Lon, q.Lat = &at[0], &at[1]
	}
	s.Search = stationSearch{Text: text, Busy: true}
	s.ports.engine.Ask(q, func(a engine.Reply, _ map[string]Doc) {
		if a.State == engine.Progress || a.State == engine.Cancelled {
			return
		}
		s.Search.Busy = false
		var body engine.StationsBody
		if err := json.Unmarshal(a.Body, &body); a.State != engine.Done || err != nil {
			s.Search.Failed = a.Words
		}
		s.Search.Found = body.Stations
		if len(body.Stations) == 0 && s.Search.Failed == "" {
			s.Search.Failed = "No station is found by that name. Try a part of it, or type a tide table instead."
		}
		s.ports.redraw()
	})
	s.ports.redraw()
}

// take puts a station of the list into the plan.
func (s *Stations) take(id string) {
	plan := s.history.Open.ID
	s.ports.engine.Ask(engine.Request{Kind: engine.OneStation, Text: id}, func(a engine.Reply, _ map[string]Doc) {
		if a.State == engine.Progress || s.history.Open.ID != plan { // it was for another plan
			return
		}
		if a.State != engine.Done {
			s.notices.notify(true, "The station cannot be taken: "+a.Words)
			return
		}
		s.use(a.Body)
	})
}

// use puts a station's tide into the plan.
func (s *Stations) use(body json.RawMessage) {
	var answer engine.StationBody
	if err := json.Unmarshal(body, &answer); err != nil {
		s.notices.notify(true, "The station cannot be read: "+err.Error())
		return
	}
	source, err := decodeTide(answer.Tide)
	if err != nil {
		s.notices.notify(true, "The station cannot be used: "+plain(err))
		return
	}
	if s.history.try(func(p *plan.Plan) error {
		if p.Tide != nil {
			source.AdjustM = p.Tide.AdjustM
		}
		p.Tide = source
		return nil
	}) {
		s.notices.notify(false, "Heights of tide are those of "+answer.Name+", above "+answer.DatumName+". "+answer.Attribution)
		for _, note := range answer.Notes { // what is doubtful about its datum or its record
			s.notices.notify(true, answer.Name+": "+note)
		}
		s.Search.Found = nil
	}
}
