package chart

// resolveDatums gives every depth its VERDAT: the feature's own (already set),
// else that of the M_SDAT area it lies in, else the set's; and every clearance
// overhead likewise, with M_VDAT and the set's datum of heights. A feature that
// lies only partly in such an area of another datum has none: which of its
// water is meant cannot be told.
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

// hasDepth tells whether a datum matters to the feature.
func (f *Feature) hasDepth() bool {
	return f.Class.WaterArea() || f.Class.Danger() || f.Class == DEPCNT || f.Class == SOUNDG
}

func datumWithin(f *Feature, areas []*Feature, outside int) int {
	datum := outside
	for _, a := range areas {
		if a.Meta.VerDat == datum {
			continue
		}
		in := 0
		for _, c := range f.Coords {
			if a.contains(c) {
				in++
			}
		}
		switch {
		case in == 0:
		case in == len(f.Coords):
			datum = a.Meta.VerDat
		default:
			return 0
		}
	}
	return datum
}

// contains tells whether a position lies in an area, even-odd, by walking its
// whole boundary.
func (f *Feature) contains(c Coord) bool {
	inside := false
	f.Parts(func(ring []Coord) {
		for i := 1; i < len(ring); i++ {
			if crossesEast(c, ring[i-1], ring[i]) {
				inside = !inside
			}
		}
	})
	return inside
}

// TidalDatumUnusable tells whether depths above this VERDAT may fail a check
// but never pass it: unknown (0), mean sea level (3), approximate mean sea
// level and the like (19, 26), as the layer profile lists them. Source of the
// codes: IHO S-57 App. A, attribute VERDAT.
func TidalDatumUnusable(verdat int) bool {
	return verdat == 0 || verdat == 3 || verdat == 19 || verdat == 26
}
