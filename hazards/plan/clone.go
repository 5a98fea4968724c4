package plan

import "slices"

// Clone returns a plan of its own with the same content: whatever is changed in
// one of the two, the other stays as it is. What was read and is never changed, as
// unknown members, is shared.
func (p *Plan) Clone() *Plan {
	q := *p
	q.BackBy = copied(p.BackBy)
	q.Boat, q.Margins = p.Boat.clone(), p.Margins
	q.Margins.Scope = copied(p.Margins.Scope)
	q.Tide = p.Tide.clone()
	q.Wind = slices.Clone(p.Wind)
	for i := range q.Wind {
		q.Wind[i].GustKn = copied(q.Wind[i].GustKn)
	}
	q.Swell, q.Stream = slices.Clone(p.Swell), slices.Clone(p.Stream)
	q.BuoyageDeg = copied(p.BuoyageDeg)
	q.Choices.TideAboveChartM = copied(p.Choices.TideAboveChartM)
	q.Choices.VesselClasses, q.Choices.Trust = slices.Clone(p.Choices.VesselClasses), slices.Clone(p.Choices.Trust)
	q.Parts = slices.Clone(p.Parts)
	for i := range q.Parts {
		q.Parts[i] = q.Parts[i].Clone()
	}
	q.Berths, q.Refuges, q.Private = slices.Clone(p.Berths), slices.Clone(p.Refuges), slices.Clone(p.Private)
	for i := range q.Berths {
		q.Berths[i].HeadingDeg = copied(q.Berths[i].HeadingDeg)
	}
	return &q
}

// Clone returns a part of its own with the same content; see [Plan.Clone].
func (p Part) Clone() Part {
	if r := p.Route; r != nil {
		c := *r
		c.Depart, c.Points, c.SpeedsKn = copied(r.Depart), slices.Clone(r.Points), slices.Clone(r.SpeedsKn)
		p.Route = &c
	}
	if s := p.Stay; s != nil {
		c := *s
		c.RodeM, c.SoundedM, c.SoundedAt = copied(s.RodeM), copied(s.SoundedM), copied(s.SoundedAt)
		c.Dropped = copied(s.Dropped)
		p.Stay = &c
	}
	return p
}

// clone returns a boat of its own.
func (b *Boat) clone() Boat {
	c := *b
	c.LengthM, c.BeamM, c.AirDraughtM = copied(b.LengthM), copied(b.BeamM), copied(b.AirDraughtM)
	c.WindageM2, c.HoldingN = copied(b.WindageM2), copied(b.HoldingN)
	if c.Fuel = copied(b.Fuel); c.Fuel != nil {
		f := c.Fuel
		f.TankL, f.InTankL, f.Reserve, f.Burn = copied(f.TankL), copied(f.InTankL), copied(f.Reserve), slices.Clone(f.Burn)
	}
	if c.Rode = copied(b.Rode); c.Rode != nil {
		c.Rode.ChainM, c.Rode.ChainKgPerM, c.Rode.MarksM = copied(c.Rode.ChainM), copied(c.Rode.ChainKgPerM), slices.Clone(c.Rode.MarksM)
	}
	return c
}

// clone returns a source of its own.
func (t *TideSource) clone() *TideSource {
	c := copied(t)
	if c == nil {
		return nil
	}
	c.Z0M, c.HeightDatumM, c.LevelM, c.Position = copied(t.Z0M), copied(t.HeightDatumM), copied(t.LevelM), copied(t.Position)
	c.Constituents, c.Events, c.Levels = slices.Clone(t.Constituents), slices.Clone(t.Events), slices.Clone(t.Levels)
	if c.Secondary = copied(t.Secondary); c.Secondary != nil {
		c.Secondary.Reference = t.Secondary.Reference.clone()
		c.Secondary.High, c.Secondary.Low = t.Secondary.High.clone(), t.Secondary.Low.clone()
	}
	return c
}

// clone returns a correction of its own.
func (c *Correction) clone() *Correction {
	d := copied(c)
	if d != nil {
		d.Metres, d.Factor = copied(c.Metres), copied(c.Factor)
	}
	return d
}

// copied returns a pointer to a value of its own, nil for nil.
func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
