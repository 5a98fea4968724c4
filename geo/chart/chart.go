package chart

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// Chart is a number of layer sets, indexed. It does not change after New and
// may be asked from many goroutines, each with a Query of its own.
type Chart struct {
	sets     []*Set // largest scale first
	features []*Feature
	// boundaries of the areas that a leg may meet, by feature; nil for others.
	boundaries []*boundary
	rims       *tree // boundaries of the areas that a leg may meet
	areas      *tree // the same areas, each as a whole
	others     *tree // points and lines that a leg may meet
	shore      *tree // land and drying areas, and where the data end
	marks      *tree
	deep       *depthGrid
	onlyOwn    bool // only private sets are loaded
	scales     bool // charts of more than one scale are loaded
	mixed      bool // derived charts are loaded beside official ones
	trusted    map[*Set]bool
	cuts       int    // how many vertices long edges may still be given
	between    func() // nil once the index is made
	work       int    // since between was called
}

// Classes of our own for places where the charts say nothing.
const (
	// gapCover is an edge beyond which no set has data.
	gapCover Class = 60001
	// gapTiles is an edge beyond which a set that should has no depth or land.
	gapTiles Class = 60002
	// refusedArea is the box of a feature that was left out.
	refusedArea Class = 60003
	// refusedMark is the box of a mark that was left out: its water is as charted,
	// but not on which side of it.
	refusedMark Class = 60004
)

// New indexes layer sets. It sorts them by scale, gives every feature its set
// and its depth datum, and cuts edges longer than a kilometre, so that a
// straight edge means the same line (straight in longitude and latitude, as
// RFC 7946 has it) in every Plane. A set may be in several charts; none of them
// may be asked while New works on it.
func New(sets ...*Set) *Chart { return index(sets, nil, nil) }

// NewBetween is New for whoever has other things to do as well: between is called
// wherever some milliseconds of work may lie behind.
func NewBetween(between func(), sets ...*Set) *Chart { return index(sets, nil, between) }

// index is NewBetween with the derived sets that count like official ones.
func index(sets []*Set, trusted map[*Set]bool, between func()) *Chart {
	c := &Chart{sets: slices.Clone(sets), onlyOwn: true, cuts: maxCuts, trusted: trusted, between: between}
	defer func() { c.between = nil }()
	slices.SortStableFunc(c.sets, bySet)
	stands := map[standing]bool{}
	for _, s := range c.sets {
		c.onlyOwn = c.onlyOwn && s.Authority == Private
		c.scales = c.scales || s.Authority != Private && rank(s) != rank(c.sets[0])
		stands[c.standing(s)] = true
		c.addSet(s)
	}
	c.mixed = stands[derived] && stands[official]
	c.addGaps()
	c.pack()
	c.deep = newDepthGrid(c)
	return c
}

// workBetween is how much is done between two calls of between: vertices and boxes
// looked at, steps along edges.
const workBetween = 20_000

// did counts work on the index.
func (c *Chart) did(n int) {
	if c.work += n; c.work >= workBetween && c.between != nil {
		c.work = 0
		c.between()
	}
}

func bySet(a, b *Set) int { return cmp.Compare(rank(a), rank(b)) }

// rank orders sets: charts before private layers, larger scales first, and
// charts of unknown scale after those of known.
func rank(s *Set) int {
	switch {
	case s.Authority == Private:
		return 1 << 31
	case s.Scale <= 0:
		return 1 << 30
	}
	return min(s.Scale, 1<<30-1)
}

// Sets are the layer sets, largest scale first, private ones last.
func (c *Chart) Sets() []*Set { return c.sets }

// OnlyPrivate reports whether no chart but private layers is loaded.
func (c *Chart) OnlyPrivate() bool { return c.onlyOwn }

// Features are all features of all sets.
func (c *Chart) Features() []*Feature { return c.features }

func (c *Chart) addSet(s *Set) {
	c.rims, c.others = &tree{under: c.rims}, &tree{under: c.others}
	c.shore, c.marks, c.areas = &tree{under: c.shore}, &tree{under: c.marks}, &tree{under: c.areas}
	resolveDatums(s)
	for i := range s.Features {
		f := &s.Features[i]
		f.Set = s
		if !c.densify(&f.Geometry) {
			f = leftOut(f)
		}
		c.add(f)
	}
	for _, r := range s.Refused {
		if !r.Boxless {
			f := refusedFeature(s, r)
			if f.Class == refusedArea {
				c.densify(&f.Geometry)
			}
			c.add(f)
		}
	}
	c.pack()
}

// pack makes what was added to the trees ready to be found.
func (c *Chart) pack() {
	for _, t := range []*tree{c.rims, c.others, c.shore, c.marks, c.areas} {
		if t != nil {
			t.pack(c.did)
		}
	}
}

// add gives a feature its number and puts it where it will be looked for.
func (c *Chart) add(f *Feature) {
	i := len(c.features)
	c.features, c.boundaries = append(c.features, f), append(c.boundaries, nil)
	c.did(len(f.Coords))
	if f.Class.Mark() && f.Prim == Point || f.Class == refusedMark {
		c.marks.add(i, &f.Geometry)
	}
	switch {
	case f.meetsLegs() && f.Prim == Area && len(f.Coords) > 0:
		c.rims.add(i, &f.Geometry)
		c.areas.addWhole(i, &f.Geometry)
		c.boundaries[i] = newBoundary(&f.Geometry)
	case f.meetsLegs():
		c.others.add(i, &f.Geometry)
	}
	if f.stopsWaves() || f.Class == gapCover {
		c.shore.add(i, &f.Geometry)
	}
}

// meetsLegs reports whether a leg has to know of the feature.
func (f *Feature) meetsLegs() bool {
	k := f.Class
	switch {
	case f.Prim == None || k == NoClass && f.Rules == nil:
		return false
	case k.group1(), k.Danger(), k.NoGo(), k.CloseBy(), k.Overhead(), k.Shoreline(), k.Confined(), k.SpecialWater(), k.SeaBed(), f.Rules != nil:
		return true
	}
	switch k {
	case DEPCNT, SOUNDG, GATCON, CTNARE, PRCARE, FAIRWY, RECTRC, FERYRT, NAVLNE, ACHARE, ACHBRT, ICEARE, WATTUR,
		CBLSUB, CBLARE, PIPSOL, PIPARE, MCOVR, MQUAL, MNSYS, gapCover, gapTiles, refusedArea:
		return true
	}
	return false
}

// stopsWaves reports whether the feature can stop a ray to the shore: land areas
// of charts, and areas that dry throughout (the height of tide decides, so their
// datum has to be known). Private layers never shorten a fetch, nor do islets
// charted as points.
func (f *Feature) stopsWaves() bool {
	if f.Prim != Area || f.Set == nil || f.Set.Authority == Private {
		return false
	}
	return f.Class == LNDARE || f.Class == DEPARE && f.DepthMaxM < 0 && !TidalDatumUnusable(f.Datum)
}

// refusedFeature stands for a feature that was left out: unknown water, or a mark
// of which nothing is known.
func refusedFeature(s *Set, r Refused) *Feature {
	lo, hi := r.Min, r.Max
	ring := []Coord{lo, {hi.Lon, lo.Lat}, hi, {lo.Lon, hi.Lat}, lo}
	class := refusedArea
	switch k := r.Class; {
	case k.Mark(), k == BOYINB, k == LITFLT, k == LITVES:
		class = refusedMark
	}
	return &Feature{Class: class, leftOut: r.Class, Set: s, Index: r.Index, File: r.File, Info: r.Code,
		DepthMinM: Unknown, DepthMaxM: Unknown,
		Geometry: Geometry{Prim: Area, Coords: ring, Ends: []int32{5}}}
}

// leftOut stands for a feature whose edges are too many to be cut.
func leftOut(f *Feature) *Feature {
	lo, hi := box(f.Coords)
	return refusedFeature(f.Set, Refused{Class: f.Class, File: f.File, Index: f.Index, Min: lo, Max: hi, Code: "E-SIZE"})
}

// maxCuts bounds the vertices that cutting long edges adds to a chart. The
// border of a hemisphere takes 60 000.
const maxCuts = 4_000_000

// densify cuts edges longer than a kilometre. It tells whether the chart's
// allowance of cuts was enough; if not, the geometry is as it was.
func (c *Chart) densify(g *Geometry) bool {
	n := cutsOf(g)
	if n == 0 {
		return true
	}
	if n > c.cuts {
		return false
	}
	c.cuts -= n
	out := Geometry{Prim: g.Prim, Coords: make([]Coord, 0, len(g.Coords)+n)}
	seen, border := int32(0), g.Border
	g.Parts(func(part []Coord) {
		for i, v := range part {
			if i > 0 {
				out.Coords = appendBetween(out.Coords, part[i-1], v)
			}
			for ; len(border) > 0 && border[0] == seen; border = border[1:] {
				out.Border = append(out.Border, int32(len(out.Coords)))
			}
			out.Coords = append(out.Coords, v)
			seen++
		}
		out.Ends = append(out.Ends, int32(len(out.Coords)))
	})
	g.Coords, g.Ends, g.Border = out.Coords, out.Ends, out.Border
	return true
}

// cutsOf counts the vertices that cutting adds to the geometry.
func cutsOf(g *Geometry) int {
	n := 0
	if g.Prim == Line || g.Prim == Area {
		g.Parts(func(part []Coord) {
			for i := 1; i < len(part); i++ {
				n += max(0, partsOf(part[i-1], part[i])-1)
			}
		})
	}
	return n
}

// longEdge is about a kilometre of latitude, in 1e-7 degrees. A degree of
// longitude is no longer than one of latitude.
const longEdge = 90000

func edgeLength(a, b Coord) int64 {
	return max(abs(int64(a.Lon)-int64(b.Lon)), abs(int64(a.Lat)-int64(b.Lat)))
}

func abs(v int64) int64 { return max(v, -v) }

// partsOf is how many short edges a-b is cut into.
func partsOf(a, b Coord) int { return int((edgeLength(a, b) + longEdge - 1) / longEdge) }

// appendBetween appends the vertices that cut a-b into short edges. Seen from
// either end the same places come out, so shared edges stay shared.
func appendBetween(out []Coord, a, b Coord) []Coord {
	n := int64(partsOf(a, b))
	e := edge{a, b}.canonical()
	for i := int64(1); i < n; i++ {
		k := i
		if e.a != a {
			k = n - i
		}
		out = append(out, Coord{
			int32(int64(e.a.Lon) + (int64(e.b.Lon)-int64(e.a.Lon))*k/n),
			int32(int64(e.a.Lat) + (int64(e.b.Lat)-int64(e.a.Lat))*k/n)})
	}
	return out
}

// Bounds is the box of all M_COVR 1 areas, or of all features where there is
// none. ok is false for an empty chart.
func (c *Chart) Bounds() (b orb.Bound, ok bool) {
	for _, covered := range []bool{true, false} {
		for _, f := range c.features {
			if len(f.Coords) == 0 || covered && !f.covers() {
				continue
			}
			lo, hi := box(f.Coords)
			fb := orb.Bound{Min: lo.Position(), Max: hi.Position()}
			if !ok {
				b, ok = fb, true
			}
			b = b.Union(fb)
		}
		if ok {
			break
		}
	}
	return b, ok
}

// covers reports whether the feature says that there are data inside it.
func (f *Feature) covers() bool { return f.Class == MCOVR && f.Meta != nil && f.Meta.CatCov == 1 }

// uncovers reports whether the feature says that there are no data inside it, of
// its set.
func (f *Feature) uncovers() bool { return f.Class == MCOVR && f.Meta != nil && f.Meta.CatCov == 2 }

// With is the chart with one more layer set over it. For a private layer over
// charts (the one that travels with a plan) this is as cheap as the set is
// small: the trees stay what they are and get a small one over them, and the
// chart may be asked meanwhile. Any other set makes a new index, as New does,
// and nothing may be asked meanwhile.
func (c *Chart) With(s *Set) *Chart {
	if c.onlyOwn || s.Authority != Private { // who gives coverage may change
		return index(append(slices.Clone(c.sets), s), c.trusted, nil)
	}
	d := *c
	d.sets = append(slices.Clone(c.sets), s)
	slices.SortStableFunc(d.sets, bySet)
	d.features, d.boundaries = slices.Clip(c.features), slices.Clip(c.boundaries)
	d.cuts = maxCuts
	d.addSet(s)
	return &d
}
