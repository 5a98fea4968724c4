package chart

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// Ray is what a straight line over the water meets.
type Ray struct {
	// LengthM to land, to a bank that is dry, to the end of the data, or the
	// greatest length asked, metres.
	LengthM float64
	// Open: it left the data without meeting land.
	Open bool
	// MeanDepthM is the mean charted greatest depth along it (DRVAL2), +Inf
	// where any of it is unknown or has no greatest depth.
	MeanDepthM float64
}

// Origin is a place to cast rays from, with what is known of it.
type Origin struct {
	At    orb.Point
	plane geo.Plane
	// What lies there, by the standing of the sets that have data of it.
	there [official + 1]shoreHere
}

// shoreHere is what the sets of one standing say of a place.
type shoreHere struct {
	data  bool // one has data there
	land  bool
	banks []float64 // DRVAL2 of the drying areas it lies in
}

// stops reports whether all who have data of a place say that it is land or a bank
// that is dry; none do where there are no data.
func stops(there *[official + 1]shoreHere, dry func(drval2M float64) bool) bool {
	known := false
	for i := range there {
		h := &there[i]
		if h.data && !h.land && !slices.ContainsFunc(h.banks, dry) {
			return false
		}
		known = known || h.data
	}
	return known
}

// Origin looks at a place once, for all rays from it.
func (q *Query) Origin(p orb.Point) *Origin {
	return &Origin{At: p, plane: geo.NewPlane(p), there: q.shoreAt(CoordOf(p))}
}

// known reports whether a chart has data of the place, and whether one says that it
// is land.
func (o *Origin) known() (data, land bool) {
	for i := range o.there {
		data, land = data || o.there[i].data, land || o.there[i].land
	}
	return data, land
}

// shoreAt is what lies at a place, by the word of the largest scale of each standing.
func (q *Query) shoreAt(c Coord) (there [official + 1]shoreHere) {
	q.reset()
	q.markInside(c)
	cover := q.coverHere()
	for i := range q.work {
		w := &q.work[i]
		f := q.chart.features[w.feature]
		if !w.odd || !f.stopsWaves() {
			continue
		}
		level := q.chart.standing(f.Set)
		if h := &there[level]; rank(f.Set) > cover[level] {
			continue
		} else if f.Class == LNDARE {
			h.land = true
		} else {
			h.banks = append(h.banks, f.DepthMaxM)
		}
	}
	for level := range there {
		there[level].data = cover[level] < math.MaxInt
	}
	return there
}

// Cast follows a ray from a place in a direction (degrees true) to the shore,
// at most maxM. Areas that dry stop it where dry says so; it is asked with the
// area's DRVAL2 (a negative depth: all of the area lies at least so high).
// Land stops it always. Neither does where a larger scale has coverage and
// does not show it, nor what a derived chart shows and an official one does not,
// or the other way about. Private features and islets charted as points never do.
// A ray that starts where no chart has data is open and has no length.
//
// The ray is a rhumb line in a Plane about its start; at 20 km its length is
// out by no more than 0.3 % below 45° of latitude, 0.6 % below 60°.
func (q *Query) Cast(o *Origin, towardDeg, maxM float64, dry func(drval2M float64) bool) Ray {
	data, land := o.known()
	if !data || stops(&o.there, dry) {
		return Ray{Open: !data && !land, MeanDepthM: math.Inf(1)}
	}
	sin, cos := math.Sincos(towardDeg * math.Pi / 180)
	r := cast{query: q, plane: &o.plane, dir: geo.XY{X: sin, Y: cos}, dry: dry, hit: maxM}
	for s, step := 0.0, 500.0; s < r.hit; s, step = s+step, min(step*2, 8000) {
		r.part(s, min(s+step, r.hit))
	}
	return Ray{LengthM: r.hit, Open: r.open, MeanDepthM: q.chart.deep.mean(r.plane, r.dir, r.hit)}
}

// DryLevels lists the different DRVAL2 of the areas that can stop a ray when
// dry, in rising order: between two heights of tide with the same of them dry
// no ray changes.
func (c *Chart) DryLevels() []float64 {
	var out []float64
	for _, f := range c.features {
		if f.stopsWaves() && f.Class != LNDARE {
			out = append(out, f.DepthMaxM)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// cast is a ray being followed.
type cast struct {
	query *Query
	plane *geo.Plane
	dir   geo.XY
	dry   func(float64) bool
	hit   float64 // the nearest stop so far
	open  bool    // the data end there
}

// part looks for what stops the ray between two distances.
func (r *cast) part(from, to float64) {
	lo, hi := r.box(from, to)
	line := &strip{plane: r.plane, dir: r.dir}
	r.query.chart.shore.searchAlong(line, lo, hi, func(c chunk) {
		f := r.query.chart.features[c.feature]
		if f.Class == DEPARE && !r.dry(f.DepthMaxM) {
			return
		}
		r.chunk(f, c)
	})
}

// box holds the ray between two distances, in degrees; it may run beyond ±180°.
func (r *cast) box(from, to float64) (lo, hi [2]float64) {
	const margin = 2 * e7
	a, b := r.plane.Position(r.dir.Scale(from)), r.plane.Position(r.dir.Scale(to))
	east := a[0] + geo.Turn(a[0], b[0])
	lo = [2]float64{min(a[0], east) - margin, min(a[1], b[1]) - margin}
	hi = [2]float64{max(a[0], east) + margin, max(a[1], b[1]) + margin}
	return lo, hi
}

// chunk brings the ray's end to its nearest crossing with a run of boundary.
func (r *cast) chunk(f *Feature, c chunk) {
	a := r.frame(f.Coords[c.first])
	for _, v := range f.Coords[c.first+1 : c.first+c.segments+1] {
		b := r.frame(v)
		if s, ok := crossing(a, b); ok && s >= 0 && s < r.hit && r.counts(f, s) {
			r.hit, r.open = s, f.Class == gapCover
		}
		a = b
	}
}

func (r *cast) frame(c Coord) geo.XY {
	v := r.plane.XY(c.Position())
	return geo.XY{X: v.Dot(r.dir), Y: r.dir.Cross(v)}
}

// beyondM is how far beyond a crossing a ray is in what it has crossed into.
const beyondM = 0.1

// counts reports whether a feature that the ray meets is the word of the largest
// scale there; a decimetre beyond the crossing, where the ray would be in it. All
// who have data of the place must say the same.
func (r *cast) counts(f *Feature, s float64) bool {
	if f.Class == gapCover || !r.query.chart.scales && !r.query.chart.mixed {
		return true
	}
	there := r.query.shoreAt(CoordOf(r.plane.Position(r.dir.Scale(s + beyondM))))
	level := r.query.chart.standing(f.Set)
	if h := &there[level]; h.data {
		h.land = h.land || rank(f.Set) <= r.query.coverHere()[level]
	}
	return stops(&there, r.dry)
}
