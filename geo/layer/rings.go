package layer

import (
	"github.com/tidwall/rtree"

	"keelroom/geo/chart"
)

// Inside an area is decided even-odd over all its rings, which is right only
// where the rings lie as RFC 7946, 3.1.6 wants them: each hole in its own part,
// parts beside each other (an island in a lake may be a part of its own). A
// part drawn twice, or a hole like its outer ring, would make the area vanish;
// such geometry is refused, and so becomes unknown.

// maxRingLooks bounds the vertices looked at for one area; beyond it the rings
// lie over each other so often that they are not as they should be.
const maxRingLooks = 20_000_000

// areaRing is one ring of an area as read.
type areaRing struct {
	vertices []chart.Coord
	part     int
	hole     bool
	flat     bool // encloses nothing
}

// ringsOf splits an area into rings. polygons gives, for each part, the index
// in Ends after its last ring; without it there is one part.
func ringsOf(g *chart.Geometry, polygons []int32) []areaRing {
	var out []areaRing
	start, part := int32(0), 0
	for i, end := range g.Ends {
		for part < len(polygons) && int32(i) >= polygons[part] {
			part++
		}
		first := i == 0
		if part > 0 && part <= len(polygons) {
			first = first || int32(i) == polygons[part-1]
		}
		v := g.Coords[start:end]
		out = append(out, areaRing{vertices: v, part: part, hole: !first, flat: flat(v)})
		start = end
	}
	return out
}

// flat reports whether a ring encloses nothing: all on one line, or there and
// back.
func flat(v []chart.Coord) bool {
	sum := 0.0
	for i := 2; i < len(v); i++ {
		ux, uy := float64(v[i-1].Lon)-float64(v[0].Lon), float64(v[i-1].Lat)-float64(v[0].Lat)
		wx, wy := float64(v[i].Lon)-float64(v[0].Lon), float64(v[i].Lat)-float64(v[0].Lat)
		sum += ux*wy - uy*wx
	}
	return sum == 0
}

// wellNested reports whether even-odd over the rings means what their parts mean.
func wellNested(g *chart.Geometry, polygons []int32) bool {
	rings := ringsOf(g, polygons)
	if len(rings) < 2 {
		return true
	}
	var boxes rtree.RTreeGN[float64, int]
	outer := map[int]int{}
	for i := range rings {
		r := &rings[i]
		if !r.hole {
			outer[r.part] = i
		}
		if !r.flat {
			lo, hi := box(r.vertices)
			boxes.Insert([2]float64{float64(lo.Lon), float64(lo.Lat)}, [2]float64{float64(hi.Lon), float64(hi.Lat)}, i)
		}
	}
	looks := 0
	for i := range rings {
		if !placedWell(rings, i, outer[rings[i].part], &boxes, &looks) {
			return false
		}
	}
	return true
}

// placedWell looks at a place just inside a ring: a part's outer ring lies in
// an even number of other rings, a hole in an odd one, its own outer among
// them.
func placedWell(rings []areaRing, i, outer int, boxes *rtree.RTreeGN[float64, int], looks *int) bool {
	r := &rings[i]
	if r.hole && rings[outer].flat && !r.flat {
		return false // a hole in nothing would become the area
	}
	p, ok := innerPlace(r.vertices)
	if r.flat || !ok {
		return true // thinner than the resolution of positions
	}
	count, inOuter := 0, false
	at := [2]float64{float64(p.Lon), float64(p.Lat)}
	boxes.Search(at, at, func(_, _ [2]float64, k int) bool {
		if *looks += len(rings[k].vertices); k != i && encloses(rings[k].vertices, p) {
			count++
			inOuter = inOuter || k == outer
		}
		return *looks <= maxRingLooks
	})
	if *looks > maxRingLooks {
		return false
	}
	if r.hole {
		return count%2 == 1 && inOuter
	}
	return count%2 == 0
}

// innerPlace is a place just inside a ring, beside the middle of its longest
// edge.
func innerPlace(v []chart.Coord) (p chart.Coord, ok bool) {
	var a, b chart.Coord
	longest := -1.0
	for i := range v {
		c, d := v[i], v[(i+1)%len(v)]
		dx, dy := float64(d.Lon)-float64(c.Lon), float64(d.Lat)-float64(c.Lat)
		if l := dx*dx + dy*dy; l > longest {
			a, b, longest = c, d, l
		}
	}
	dx, dy := float64(b.Lon)-float64(a.Lon), float64(b.Lat)-float64(a.Lat)
	size := max(1, dx, -dx, dy, -dy)
	nx, ny := int32(-dy/size*2), int32(dx/size*2) // a few centimetres
	mid := chart.Coord{Lon: int32((int64(a.Lon) + int64(b.Lon)) / 2), Lat: int32((int64(a.Lat) + int64(b.Lat)) / 2)}
	for _, p := range []chart.Coord{{Lon: mid.Lon + nx, Lat: mid.Lat + ny}, {Lon: mid.Lon - nx, Lat: mid.Lat - ny}} {
		if encloses(v, p) {
			return p, true
		}
	}
	return p, false
}

// encloses reports whether a place lies in a ring, even-odd, open or closed.
func encloses(v []chart.Coord, p chart.Coord) bool {
	inside := false
	for i := range v {
		a, b := v[i], v[(i+1)%len(v)]
		if (a.Lat > p.Lat) == (b.Lat > p.Lat) {
			continue
		}
		if b.Lat < a.Lat {
			a, b = b, a
		}
		cross := (int64(b.Lon)-int64(a.Lon))*(int64(p.Lat)-int64(a.Lat)) - (int64(b.Lat)-int64(a.Lat))*(int64(p.Lon)-int64(a.Lon))
		if cross > 0 {
			inside = !inside
		}
	}
	return inside
}
