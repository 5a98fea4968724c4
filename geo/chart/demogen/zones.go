package main

import "math"

// zone is a convex part of the water that is charted by its outline, not by
// contours: dredged to a maintained depth, or not surveyed.
type zone struct {
	class   string // DRGARE or UNSARE
	name    string
	leastM  float64      // maintained depth
	mostM   float64      // greatest depth inside
	corners [][2]float64 // local metres, counter-clockwise
}

// The fairway's dredged depths keep to the flat core of the works in the
// bed, so what is stated is true over the whole outline.
var zones = []zone{
	{class: "DRGARE", name: "INVENTED Harbour Fairway", leastM: 3.0, mostM: 3.3,
		corners: [][2]float64{{-3896, 1476}, {-3804.5, 1476}, {-3824, 2204}, {-3915.5, 2204}}},
	{class: "DRGARE", name: "INVENTED Harbour Basin", leastM: 2.5, mostM: 3.3,
		corners: [][2]float64{{-3978, 2117}, {-3772, 2117}, {-3772, 2263}, {-3978, 2263}}},
	{class: "UNSARE", name: "INVENTED unsurveyed ground",
		corners: [][2]float64{{4300, -4000}, {5250, -4000}, {5250, -3500}, {4300, -3500}}},
}

// outside returns how far, in metres, local x, y lies outside the zone; a
// negative value is inside. Near a corner it is the greater of the
// distances from the two edge lines.
func (z zone) outside(x, y float64) float64 {
	far := math.Inf(-1)
	for i, a := range z.corners {
		b := z.corners[(i+1)%len(z.corners)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		d := (float64((x-a[0])*dy) - float64((y-a[1])*dx)) / length(dx, dy)
		far = math.Max(far, d)
	}
	return far
}

// nearCorner reports whether a corner lies within r of x, y.
func (z zone) nearCorner(x, y, r float64) bool {
	for _, c := range z.corners {
		if length(c[0]-x, c[1]-y) < r {
			return true
		}
	}
	return false
}
