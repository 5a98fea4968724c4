package enc

import (
	"math"
	"testing"

	"keelroom/geo/chart"
)

// The areas of group 1, the skin of the earth, tile the coverage (S-57 App.
// B.1, 3.4; within 0.05 %, s57-note.md section 4): what was lost or turned
// inside out would show.
func TestGroupOneTilesCoverage(t *testing.T) {
	for _, c := range realCells {
		m := readModel(t, cellFiles(t, c.name, c.updates))
		s := newShaper(m, 1<<30)
		skin, cover, areas := 0.0, 0.0, 0
		m.features.each(func(r *featureRecord) uint32 { return r.id }, func(r *featureRecord) {
			_, covers := valueOf(r.attributes, 18)
			skinned := r.group == 1 && r.prim == 3
			if !skinned && r.class != uint16(chart.MCOVR) {
				return
			}
			if err := s.shape(r); err != nil {
				t.Fatal(err)
			}
			switch text, _ := valueOf(r.attributes, 18); {
			case skinned:
				skin += areaOf(&s)
				areas++
			case covers == stated && text == "1":
				cover += areaOf(&s)
			}
		})
		off := skin/cover - 1
		t.Logf("%s: %d areas, %.3f km2, coverage %.3f km2, off by %.5f %%", c.name, areas, skin, cover, 100*off)
		if areas < 100 || math.Abs(off) > 0.0005 {
			t.Errorf("%s: group 1 has %v of the coverage", c.name, skin/cover)
		}
	}
}

// areaOf is the area of the geometry in hand in square kilometres, by the
// shoelace formula on longitudes shrunk with the cosine of the latitude; rings
// after the first of a polygon are holes.
func areaOf(s *shaper) (km2 float64) {
	g := &s.geometry
	ring, start := int32(0), int32(0)
	for _, end := range s.polygons {
		for first := ring; ring < end; ring++ {
			sum := 0.0
			part := g.Coords[start:g.Ends[ring]]
			start = g.Ends[ring]
			for i := 1; i < len(part); i++ {
				a, b := part[i-1].Position(), part[i].Position()
				sum += (b[0] - a[0]) * math.Cos((a[1]+b[1])/2*math.Pi/180) * ((a[1]+b[1])/2 - 42)
			}
			const kmPerDegree = 111.195 // of latitude on a sphere of 6 371 km
			sum = math.Abs(sum) * kmPerDegree * kmPerDegree
			if ring > first {
				sum = -sum
			}
			km2 += sum
		}
	}
	return km2
}
