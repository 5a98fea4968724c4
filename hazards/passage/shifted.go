package passage

import (
	"time"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// Shifted is the track of a plan that differs from the track's own in nothing but that
// the departure and the end of each stay are so much later, where nothing that the
// track depends on is another then: see [Timeless]. It is made in the room of an old
// track, which may be nil.
func (t *Track) Shifted(p *plan.Plan, by time.Duration, room *Track) *Track {
	if room == nil {
		room = &Track{}
	}
	room.Depart, room.Back, room.Unstemmed = t.Depart.Add(by), t.Back.Add(by), nil
	room.Legs = append(room.Legs[:0], t.Legs...)
	for i := range room.Legs {
		l := &room.Legs[i]
		l.Start, l.End = l.Start.Add(by), l.End.Add(by)
	}
	room.Steps = append(room.Steps[:0], t.Steps...)
	for i := range room.Steps {
		s := &room.Steps[i]
		s.Start, s.End = s.Start.Add(by), s.End.Add(by)
	}
	room.Sea = append(room.Sea[:0], t.Sea...)
	for i := range room.Sea {
		c := &room.Sea[i]
		c.enter, c.leave = c.enter.Add(by), c.leave.Add(by)
	}
	room.Stops = append(room.Stops[:0], t.Stops...)
	for i := range room.Stops {
		s := &room.Stops[i]
		s.Stay, s.Arrive, s.Leave = p.Parts[s.part].Stay, s.Arrive.Add(by), s.Leave.Add(by)
	}
	room.Zones = append(room.Zones[:0], t.Zones...)
	for i := range room.Zones {
		room.Zones[i].shift(by)
	}
	return room
}

func (z *ZonePassage) shift(by time.Duration) {
	z.Enter, z.Leave = z.Enter.Add(by), z.Leave.Add(by)
	if z.Slow != nil {
		slow := *z.Slow
		slow.Time = slow.Time.Add(by)
		z.Slow = &slow
	}
}

// Timeless tells whether a plan is laid out the same at any time from its own departure
// until so much later, as far as streams and the seasons of speed zones go: there is no
// stream, and each zone is in force at all times of the day or at none. The track is
// the plan's, laid out. Where she is slowed by the sea, the caller has to know.
func (t *Track) Timeless(p *plan.Plan, w Waters, later time.Duration) bool {
	if w.Stream != nil || len(t.Unstemmed) > 0 {
		return false
	}
	if w.Zones == nil {
		return true
	}
	zone := (&run{scheduler: &scheduler{plan: p}}).zone()
	// The first guess of a route, at cruising speed, may end later than the day does.
	guess := seconds(t.DistanceM() / (p.Boat.CruiseKn * geo.KnotMPS))
	from, to := t.Depart.In(zone), t.Back.Add(later+guess+dayLength)
	for i := range t.Legs {
		for _, z := range w.Zones(t.Legs[i].Rhumb) {
			if s := z.Feature.Rules.Season; s.Touches(from, to) && !s.HoldsFrom(from, to) {
				return false
			}
		}
	}
	return true
}

const dayLength = 24 * time.Hour
