package enc

import (
	"errors"
	"fmt"
	"slices"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// The codes of the spatial pointers (S-57 Part 3, 4.7.1 and 5.1.4).
const (
	reversed  = 2 // ORNT
	interior  = 2 // USAG
	truncated = 3 // USAG: exterior, cut off by the limit of the data
	masked    = 1 // MASK
	beginNode = 1 // TOPI
	endNode   = 2
)

// shaper joins the edges of one feature after another. Its results lie in its
// own memory and hold until the next call.
type shaper struct {
	model     *model
	records   vectorIndex // the model's, once it is whole
	positions int         // that the cell may still come to

	geometry chart.Geometry
	polygons []int32
	edges    []edgeUse
	vertices []chart.Coord       // of all edges of the feature, as they are run through
	limits   map[vectorName]bool // edges at the limit of the data, nil until asked for
}

// newShaper joins the edges of a cell that changes no more, up to so many positions.
func newShaper(m *model, positions int) shaper {
	return shaper{model: m, records: newVectorIndex(&m.vectors), positions: positions}
}

// edgeUse is an edge as a feature uses it: its vertices in running order.
type edgeUse struct {
	from, to int // in shaper.vertices
	hole     bool
	border   bool
	used     bool
}

// geometryFault is what is wrong with the geometry of one feature. whole tells
// that all its positions are in the geometry, so that its place is known.
type geometryFault struct {
	found, wanted string
	whole         bool
}

func (f *geometryFault) Error() string { return f.found }

// shape is the geometry of a feature, without the soundings' depths: those are
// many features. A *geometryFault concerns this feature, other errors the cell.
func (s *shaper) shape(f *featureRecord) error {
	g := &s.geometry
	g.Coords, g.Ends, g.DepthsM, g.Border = g.Coords[:0], g.Ends[:0], g.DepthsM[:0], g.Border[:0]
	s.polygons = s.polygons[:0]
	g.Prim = chart.None
	switch f.prim {
	case 1:
		return s.point(f)
	case 2, 3:
		g.Prim = chart.Line
		if f.prim == 3 {
			g.Prim = chart.Area
		}
		if err := s.gather(f); err != nil {
			return err
		}
		if f.prim == 2 {
			s.line()
			return nil
		}
		return s.rings()
	case uint8(chart.None):
		return nil
	}
	return &geometryFault{found: fmt.Sprintf("PRIM %d", f.prim), wanted: "1 point, 2 line, 3 area or 255 none"}
}

// point takes the positions of the node that the first pointer names.
func (s *shaper) point(f *featureRecord) error {
	s.geometry.Prim = chart.Point
	if len(f.spatial) == 0 {
		return &geometryFault{found: "no pointer to a node", wanted: "one"}
	}
	name := pointed(f.spatial)
	node := s.records.get(name)
	if node == nil || name.kind() == edgeName {
		return &geometryFault{found: name.String() + ", which the cell does not have", wanted: "a node of the cell"}
	}
	size := planeSize
	if node.depths {
		size = depthSize
	}
	for b := range slices.Chunk(node.places, size) {
		p, err := s.coord(b)
		if err != nil {
			return err
		}
		s.geometry.Coords = append(s.geometry.Coords, p)
		if node.depths {
			s.geometry.DepthsM = append(s.geometry.DepthsM, float64(number(b[planeSize:]))/float64(s.model.params.depthFactor))
		}
	}
	return s.spend(len(s.geometry.Coords))
}

// spend bounds the positions of all features together: many features may point
// to one long edge.
func (s *shaper) spend(n int) error {
	if s.positions -= n; s.positions < 0 {
		return &fault{"E-SIZE", "", "too many positions", fmt.Sprintf("%d or fewer in a cell, and no more than its bytes", layer.MaxPositions)}
	}
	return nil
}

// e7 is the number of units of chart.Coord in a degree.
const e7 = 10_000_000

// coord reads YCOO and XCOO. Positions of COMF 10 000 000 are exact, others are
// rounded to 1e-7 degrees, half away from zero.
func (s *shaper) coord(b []byte) (chart.Coord, error) {
	lat, lon := s.units(number(b)), s.units(number(b[4:]))
	if max(lat, -lat) > 90*e7 || max(lon, -lon) > 180*e7 {
		return chart.Coord{}, &fault{"E-COORD", "", fmt.Sprintf("XCOO %d, YCOO %d with COMF %d", number(b[4:]), number(b), s.model.params.factor),
			"longitude within 180 and latitude within 90 degrees"}
	}
	return chart.Coord{Lon: int32(lon), Lat: int32(lat)}, nil
}

func (s *shaper) units(v int32) int64 {
	n, factor := int64(v)*e7, s.model.params.factor
	if factor == e7 { // as most cells have it: exact, and dividing is dear
		return int64(v)
	}
	if n < 0 {
		return -((-n + factor/2) / factor)
	}
	return (n + factor/2) / factor
}

// gather lists the edges of a feature in the order of its pointers.
func (s *shaper) gather(f *featureRecord) error {
	s.edges, s.vertices = s.edges[:0], s.vertices[:0]
	if len(f.spatial) == 0 {
		return &geometryFault{found: "no pointer to an edge", wanted: "one or more"}
	}
	for at := 0; at < len(f.spatial); at += spatialSize {
		p := f.spatial[at:min(at+spatialSize, len(f.spatial))]
		name := pointed(p)
		if f.prim == 2 && p[7] == masked && s.onLimit(name) {
			continue
		}
		edge := s.records.get(name)
		if edge == nil || name.kind() != edgeName {
			return &geometryFault{found: name.String() + ", which the cell does not have", wanted: "edges of the cell"}
		}
		from := len(s.vertices)
		if err := s.run(edge); err != nil {
			return err
		}
		if p[5] == reversed {
			slices.Reverse(s.vertices[from:])
		}
		s.edges = append(s.edges, edgeUse{from: from, to: len(s.vertices), hole: p[6] == interior, border: p[6] == truncated || p[7] == masked})
	}
	if len(s.edges) == 0 {
		return errBorderOnly
	}
	return nil
}

// errBorderOnly says that a line is nothing but the limit of the data.
var errBorderOnly = errors.New("a line along the limit of the data")

// onLimit reports whether an edge lies at the limit of the data: some area is cut
// off there. A masked piece of a line on it is no coast and no contour, it only
// closes the line at the border of the cell; masked pieces elsewhere stay,
// because what is not to be drawn twice is still there.
func (s *shaper) onLimit(name vectorName) bool {
	if s.limits == nil {
		s.limits = map[vectorName]bool{}
		for i := range s.model.features.records {
			for p := range slices.Chunk(s.model.features.records[i].spatial, spatialSize) {
				if p[6] == truncated {
					s.limits[pointed(p)] = true
				}
			}
		}
	}
	return s.limits[name]
}

// run appends an edge: its begin node, the positions of its own, its end node.
func (s *shaper) run(edge *vectorRecord) error {
	if edge.depths {
		return &geometryFault{found: edge.name.String() + " with depths", wanted: "positions without"}
	}
	var nodes [2][]byte
	for at := 0; at < len(edge.ends); at += vectorSize {
		p := edge.ends[at:min(at+vectorSize, len(edge.ends))]
		topology := p[7]
		if topology != beginNode && topology != endNode || nodes[topology-1] != nil {
			continue
		}
		if node := s.records.get(pointed(p)); node != nil && !node.depths && len(node.places) == planeSize {
			nodes[topology-1] = node.places
		}
	}
	if nodes[0] == nil || nodes[1] == nil {
		return &geometryFault{found: edge.name.String() + " without its two nodes", wanted: "a begin and an end node of the cell"}
	}
	if err := s.spend(2 + len(edge.places)/planeSize); err != nil {
		return err
	}
	for _, run := range [...][]byte{nodes[0], edge.places, nodes[1]} {
		if err := s.places(run); err != nil {
			return err
		}
	}
	return nil
}

// places appends the vertices of a run of positions.
func (s *shaper) places(run []byte) error {
	exact := s.model.params.factor == e7 // as most cells have it
	for ; len(run) >= planeSize; run = run[planeSize:] {
		lat, lon := number(run), number(run[4:])
		if exact && lat >= -90*e7 && lat <= 90*e7 && lon >= -180*e7 && lon <= 180*e7 {
			s.vertices = append(s.vertices, chart.Coord{Lon: lon, Lat: lat})
			continue
		}
		p, err := s.coord(run)
		if err != nil {
			return err
		}
		s.vertices = append(s.vertices, p)
	}
	return nil
}

// line joins the edges in their order; a gap begins a new part.
func (s *shaper) line() {
	for i := range s.edges {
		if i > 0 && s.vertices[s.edges[i].from] != s.geometry.Coords[len(s.geometry.Coords)-1] {
			s.endPart()
		}
		s.extend(&s.edges[i])
	}
	s.endPart()
}

// extend runs an edge on from where the part stands.
func (s *shaper) extend(e *edgeUse) {
	g := &s.geometry
	run := s.vertices[e.from:e.to]
	if start := s.partStart(); len(g.Coords) > start {
		run = run[1:]
	}
	if e.border {
		s.addBorder(len(g.Coords), len(run))
	}
	g.Coords = append(g.Coords, run...)
	e.used = true
}

func (s *shaper) partStart() int {
	if n := len(s.geometry.Ends); n > 0 {
		return int(s.geometry.Ends[n-1])
	}
	return 0
}

func (s *shaper) endPart() { s.geometry.Ends = append(s.geometry.Ends, int32(len(s.geometry.Coords))) }

// addBorder notes that the n vertices to be appended run along the border.
func (s *shaper) addBorder(at, n int) {
	first, last := int32(at), int32(at+n-1)
	if at > s.partStart() {
		first-- // the edge begins at the vertex before
	}
	if b := s.geometry.Border; len(b) > 0 && b[len(b)-1] == first && at > s.partStart() {
		b[len(b)-1] = last
		return
	}
	s.geometry.Border = append(s.geometry.Border, first, last)
}
