package main

import (
	"math"

	"keelroom/geo/chart/demobed"
)

// derivedFeatures returns all that follows from the bed: areas, contours and
// coastline, soundings, by class.
func derivedFeatures() (map[string][]feature, error) {
	cut, err := cutMesh(buildMesh())
	if err != nil {
		return nil, err
	}
	arcs := cut.borders().arcs()
	for i, a := range arcs {
		arcs[i] = a.thin()
	}
	polygons, err := areas(arcs)
	if err != nil {
		return nil, err
	}
	out := map[string][]feature{"SOUNDG": soundings()}
	for _, a := range polygons {
		name, p := a.class.describe()
		out[name] = append(out[name], feature{p, polygon(a.rings)})
	}
	for _, a := range arcs {
		if name, p := a.describe(); name != "" {
			out[name] = append(out[name], feature{p, line(a.line)})
		}
	}
	return out, nil
}

func object(class string, more ...pair) props {
	return append(props{{"objectClass", class}}, more...)
}

// describe gives the class and properties of an area.
func (c class) describe() (string, props) {
	if c == land {
		return "LNDARE", object("LNDARE")
	}
	if int(c) > len(contoursM) {
		return zones[int(c)-len(contoursM)-1].describe()
	}
	deepest := demobed.GreatestDepthM
	if int(c) < len(contoursM) {
		deepest = tenths(contoursM[c] + 2*marginM)
	}
	return "DEPARE", object("DEPARE", pair{"DRVAL1", contoursM[c-1]}, pair{"DRVAL2", deepest})
}

func (z zone) describe() (string, props) {
	p := object(z.class)
	if z.class == "DRGARE" {
		p = append(p, pair{"DRVAL1", z.leastM}, pair{"DRVAL2", z.mostM}, pair{"OBJNAM", z.name})
	}
	return z.class, append(p, pair{"INFORM", "INVENTED"})
}

// describe gives the class and properties of a line between areas: the
// coastline around land, a contour between two bands, else none.
func (a arc) describe() (string, props) {
	switch {
	case a.right == outside || a.left == outside:
		return "", nil
	case a.left == land || a.right == land:
		return "COALNE", object("COALNE")
	case int(a.left) > len(contoursM) || int(a.right) > len(contoursM):
		return "", nil
	}
	return "DEPCNT", object("DEPCNT", pair{"VALDCO", contoursM[min(a.left, a.right)]})
}

// tenths rounds up to 0.1.
func tenths(v float64) float64 { return math.Ceil(v*10-1e-9) / 10 }

// soundings are spot depths on a staggered pattern, closer inshore, rounded
// towards shoaler.
func soundings() []feature {
	var near, far depths
	b := demobed.Bounds()
	west, south := demobed.Local(b.Min)
	east, north := demobed.Local(b.Max)
	const stepM = 95
	for j := 1; south+float64(j*stepM) < north; j++ {
		for i := 1; west+float64(i*stepM) < east; i++ {
			x := west + float64((float64(i)+float64((j*7+i*3)%5-2)/9)*stepM)
			y := south + float64((float64(j)+float64((j*3+i*5)%7-3)/10)*stepM)
			s := local(x, y)
			z := demobed.DepthM(s.point())
			if !plotted(i, j, x, y, z) {
				continue
			}
			d := sounding{s, int(math.Floor(z * 10))}
			if z < 10 {
				near = append(near, d)
			} else {
				far = append(far, d)
			}
		}
	}
	return []feature{{object("SOUNDG"), near}, {object("SOUNDG"), far}}
}

// plotted thins the pattern with depth and leaves out land and the
// unsurveyed ground.
func plotted(i, j int, x, y, z float64) bool {
	for _, u := range zones {
		if u.class == "UNSARE" && u.outside(x, y) < 60 {
			return false
		}
	}
	switch {
	case z < -1.8:
		return false
	case z < 3:
		return (i+2*j)%4 == 0
	case z < 10:
		return (i%5 == 0 && j%4 == 0) || (i%5 == 2 && j%4 == 2)
	}
	return i%8 == j/6%2*4 && j%6 == 0
}
