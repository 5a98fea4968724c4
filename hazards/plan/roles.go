package plan

import "time"

// Roles returns the role of each feature of the plan file, in its order.
func (p *Plan) Roles() []string {
	items := p.order()
	roles := make([]string, len(items))
	for i, it := range items {
		roles[i] = it.role
		if it.located != nil {
			roles[i] = it.located.role()
		}
	}
	return roles
}

// Write encodes a plan that was changed and stays in use: what [Encode] gives, and
// afterwards the plan is what [DecodeDraft] would make of that text. It shares no
// part of the day with another plan. A plan that is larger than a plan file may be
// is an [*Errors].
func (p *Plan) Write() ([]byte, error) {
	b, err := Encode(p)
	if err != nil {
		return nil, err
	}
	if p.mayBeTooLarge(len(b)) {
		if _, err := DecodeDraft(b); err != nil {
			return nil, err
		}
	}
	p.number()
	p.useUTC()
	return b, nil
}

// mayBeTooLarge reports whether a plan with a text of so many bytes may pass a limit
// of a plan file. A position of a private feature takes at least 5 bytes.
func (p *Plan) mayBeTooLarge(bytes int) bool {
	positions, private, items := 0, 0, p.order()
	for _, it := range items {
		private += len(it.private)
		if it.located != nil {
			positions += len(it.located.positions())
		}
	}
	return bytes > MaxBytes || len(items) > MaxFeatures || positions > MaxPositions || private > 5*MaxPrivatePositions
}

// number counts the features as the plan file has them.
func (p *Plan) number() {
	index := map[*byte]int{} // of a private feature, by where its text begins
	items := p.order()
	for i, it := range items {
		switch {
		case it.located != nil:
			it.located.source().rank = i + 1
		case len(it.private) > 0:
			index[&it.private[0]] = i
		}
	}
	for i := range p.Private {
		f := &p.Private[i]
		f.Index = index[&f.Feature[0]]
		f.rank = f.Index + 1
	}
	p.featuresWhenRead = len(items)
}

// useUTC holds every time of the plan in UTC.
func (p *Plan) useUTC() {
	times := []*time.Time{p.BackBy}
	for _, part := range p.Parts {
		if part.Route != nil {
			times = append(times, part.Route.Depart)
		} else if part.Stay != nil {
			times = append(times, &part.Stay.Until, part.Stay.SoundedAt)
			if d := part.Stay.Dropped; d != nil {
				times = append(times, &d.Time)
			}
		}
	}
	for i := range p.Wind {
		times = append(times, &p.Wind[i].Time)
	}
	for i := range p.Swell {
		times = append(times, &p.Swell[i].Time)
	}
	for i := range p.Stream {
		times = append(times, &p.Stream[i].Time)
	}
	for _, t := range times {
		if t != nil {
			*t = t.Round(0).UTC() // without what a clock of the machine adds
		}
	}
	p.Tide.useUTC()
}

// useUTC holds the times of a tide table in UTC.
func (t *TideSource) useUTC() {
	if t == nil {
		return
	}
	for i := range t.Events {
		t.Events[i].Time = t.Events[i].Time.Round(0).UTC()
	}
	if t.Secondary != nil {
		t.Secondary.Reference.useUTC()
	}
}
