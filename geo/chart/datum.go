package chart

// resolveDatums gives every depth its VERDAT: the feature's own (already set),
// else that of the M_SDAT area it lies in, else the set's; and every clearance
// overhead likewise, with M_VDAT and the set's datum of heights. A feature that
// lies only partly in such an area of another datum has none: which of its
// water is meant is not known.
func resolveDatums(s *Set) {
	soundings, heights := s.areasOf(MSDAT), s.areasOf(MVDAT)
	for i := range s.Features {
		f := &s.Features[i]
		if f.Datum == 0 && f.hasDepth() {
			f.Datum = datumWithin(f, soundings, s.SoundingDatum)
		}
		if o := f.Overhead; o != nil && o.HeightDatum == 0 {
			o.HeightDatum = datumWithin(f, heights, s.HeightDatum)
		}
	}
}

// areasOf lists the metadata areas of a class.
func (s *Set) areasOf(class Class) []*Feature {
	var areas []*Feature
	for i := range s.Features {
		if f := &s.Features[i]; f.Class == class && f.Meta != nil {
			areas = append(areas, f)
		}
	}
	return areas
}

// hasDepth reports whether a datum matters to the feature.
func (f *Feature) hasDepth() bool {
	return f.Class.WaterArea() || f.Class.Danger() || f.Class == DEPCNT || f.Class == SOUNDG
}

// datumWithin is the datum of the M_SDAT areas that hold the feature, else the
// one that holds outside them; 0 if it lies partly in one of another datum, or
// in two that differ.
func datumWithin(f *Feature, areas []*Feature, outside int) int {
	datum, found := outside, false
	for _, a := range areas {
		switch f.liesIn(a) {
		case partly:
			if a.Meta.VerDat != outside {
				return 0
			}
		case wholly:
			if found && a.Meta.VerDat != datum {
				return 0
			}
			datum, found = a.Meta.VerDat, true
		}
	}
	return datum
}

// lying is how a feature lies to an area.
type lying int

const (
	apart lying = iota // it may touch the area's border
	wholly
	partly
)

// liesIn tells how the feature lies to an area. Its vertices on the area's
// border say nothing, as neighbours share them; where all are, a place just
// within the feature tells.
func (f *Feature) liesIn(a *Feature) lying {
	lo, hi := box(f.Coords)
	alo, ahi := box(a.Coords)
	if lo.Lon > ahi.Lon || hi.Lon < alo.Lon || lo.Lat > ahi.Lat || hi.Lat < alo.Lat {
		return apart
	}
	in, out := 0, 0
	for _, v := range f.Coords {
		switch {
		case a.onBorder(v):
		case a.contains(v):
			in++
		default:
			out++
		}
	}
	switch {
	case in > 0 && out > 0 || f.Prim == Area && f.holdsSome(a) || f.Prim != Point && f.crosses(a):
		return partly
	case in > 0:
		return wholly
	case out > 0:
		return apart
	}
	return f.lyingInside(a)
}

// lyingInside tells how a feature lies whose vertices are all on the border.
func (f *Feature) lyingInside(a *Feature) lying {
	if f.Prim == Area && len(f.Coords) > 1 {
		left, right := edge{f.Coords[0], f.Coords[1]}.sides()
		for _, p := range [2]Coord{left, right} {
			if f.contains(p) && a.contains(p) {
				return wholly
			}
		}
		return apart
	}
	return partly
}

// holdsSome reports whether a vertex of the other's border lies within the
// feature.
func (f *Feature) holdsSome(a *Feature) bool {
	lo, hi := box(f.Coords)
	for _, v := range a.Coords {
		if v.Lon > lo.Lon && v.Lon < hi.Lon && v.Lat > lo.Lat && v.Lat < hi.Lat && f.contains(v) && !f.onBorder(v) {
			return true
		}
	}
	return false
}

// crosses reports whether a line or border crosses the area's, other than at a
// vertex of one on the other.
func (f *Feature) crosses(a *Feature) bool {
	lo, hi := box(f.Coords)
	found := false
	a.edges(func(e edge) {
		if max(e.a.Lon, e.b.Lon) < lo.Lon || min(e.a.Lon, e.b.Lon) > hi.Lon ||
			max(e.a.Lat, e.b.Lat) < lo.Lat || min(e.a.Lat, e.b.Lat) > hi.Lat {
			return
		}
		f.edges(func(g edge) { found = found || e.cuts(g) })
	})
	return found
}

// cuts reports whether two edges cross within both, clear of their ends.
func (e edge) cuts(g edge) bool {
	for _, v := range [2]Coord{g.a, g.b} {
		if _, on := e.passes(v); on || v == e.a || v == e.b {
			return false
		}
	}
	for _, v := range [2]Coord{e.a, e.b} {
		if _, on := g.passes(v); on {
			return false
		}
	}
	_, one := e.crossedBy(g.a, g.b)
	_, two := g.crossedBy(e.a, e.b)
	return one && two
}

// edges calls fn for each edge of a line or area.
func (g *Geometry) edges(fn func(edge)) {
	g.Parts(func(part []Coord) {
		for i := 1; i < len(part); i++ {
			fn(edge{part[i-1], part[i]})
		}
	})
}

// onBorder reports whether a position lies on the area's border, within rounding.
func (f *Feature) onBorder(c Coord) bool {
	on := false
	f.edges(func(e edge) {
		if !on && (c == e.a || c == e.b) {
			on = true
		} else if !on {
			_, on = e.passes(c)
		}
	})
	return on
}

// contains reports whether a position lies in an area, even-odd, by walking its
// whole boundary.
func (f *Feature) contains(c Coord) bool {
	inside := false
	f.edges(func(e edge) {
		if crossesEast(c, e.a, e.b) {
			inside = !inside
		}
	})
	return inside
}

// TidalDatumUnusable reports whether depths above this VERDAT may fail a check
// but never pass it: unknown (0), mean sea level (3), approximate mean sea
// level and the like (19, 26), as the layer profile lists them. Source of the
// codes: IHO S-57 App. A, attribute VERDAT.
func TidalDatumUnusable(verdat int) bool {
	return verdat == 0 || verdat == 3 || verdat == 19 || verdat == 26
}
