package passage

import "time"

// A zone with a season is in force for all of her passage through it if it is on any
// day that she is inside. Being in force slows her, so that she is inside longer and
// may come into others later: what was found in force stays so.

// decideForce decides which zones are in force, with the times of the round before;
// with keep, those that were stay so. It tells whether there are more than before.
func (r *run) decideForce(when func(x float64) time.Time, keep bool) (more bool) {
	if r.force == nil {
		r.force = make([]bool, len(r.zones))
	}
	for i := range r.zones {
		z := &r.zones[i]
		was := r.force[i]
		now := z.Feature.Rules.Season.Touches(when(z.from).In(r.zone()), when(z.to)) || keep && was
		more = more || now && !was
		r.force[i] = now
	}
	return more
}

// settleForce lays the route out anew until no more zones are in force with its
// final times than it was laid out with. After some rounds it takes all of them.
func (r *run) settleForce(p timed) timed {
	for round := 0; r.decideForce(p.time, true); round++ {
		if round == rounds {
			for i := range r.force {
				r.force[i] = true
			}
		}
		r.unstemmed = r.unstemmed[:0]
		p = r.profile(p.time)
	}
	return p
}
