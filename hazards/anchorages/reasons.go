package anchorages

import (
	"math"
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// For is what speaks for a place, the weightiest first.
func For(p *Place, m *plan.Margins) []facts.Facts {
	var out []facts.Facts
	s := &p.Stay
	if s.SeaGreatestM != nil && s.WindFromDeg != nil {
		calm := facts.CalmHere{HsM: plan.CeilHundredths(*s.SeaGreatestM), LimitM: m.AnchoredSeaM, TurnDeg: m.WindRoomDeg, FromDeg: *s.WindFromDeg}
		if p.TurnedSeaM != nil {
			calm.TurnedM, calm.Turned = plan.CeilHundredths(*p.TurnedSeaM), true
		}
		out = append(out, calm)
	}
	if s.ClearanceLeastM != nil {
		out = append(out, facts.DeepHere{KeelM: plan.FloorHundredths(*s.ClearanceLeastM), WantedM: m.AnchoredUnderKeelM})
	}
	if s.RoomM != nil && s.RadiusM != nil {
		out = append(out, facts.RoomHere{RoomM: math.Floor(*s.RoomM), NeededM: math.Ceil(*s.RadiusM)})
	}
	if g := s.Ground; g != nil && g.Holds != facts.HoldsNotCharted {
		out = append(out, *g)
	}
	if p.FromMin != nil {
		out = append(out, facts.NearHere{Minutes: *p.FromMin})
	}
	return out
}

// Worded are the best places in words, ranked, at most so many: what a stay's report
// carries, what speaks for each, and against it what wants care there.
func (s *Search) Worded(l *words.Language, most int) []plan.Anchorage {
	zone := s.question.Plan.Zone
	if zone == nil {
		zone = time.UTC
	}
	t := l.For(zone, s.question.Arrive)
	var out []plan.Anchorage
	places := s.Places()
	for n, p := range places[:min(most, len(places))] {
		p.Stay.Leg = 0 // it is on no way yet
		a := plan.Anchorage{StayResult: p.Stay, Rank: n + 1, Severity: p.Worst, FromRouteMin: p.FromMin, SeaTurnedM: p.TurnedSeaM}
		if g := p.Stay.Ground; g != nil {
			a.Bottom = t.Other(*g)
		}
		for _, f := range For(&p, &s.question.Plan.Margins) {
			a.Why = append(a.Why, t.Other(f))
		}
		for _, f := range p.Findings {
			if f.Severity == plan.Care && f.Facts != nil {
				a.Against = append(a.Against, t.Title(f.Facts)+". "+t.Detail(f.Facts))
			}
		}
		points := PointsOf(&p, &s.question.Plan.Margins)
		a.Points = &plan.AnchoragePoints{Sea: points.Sea, Room: points.Room, Bottom: points.Bottom, Way: points.Way, Care: points.Care}
		out = append(out, a)
	}
	return out
}
