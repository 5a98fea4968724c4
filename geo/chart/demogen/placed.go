package main

import (
	"github.com/paulmach/orb"

	"keelroom/geo/chart/demobed"
)

// Everything that does not follow from the bed, in local metres.

// invented closes the properties of a thing placed by hand; INFORM says that
// it is invented unless more already does.
func invented(class, name string, more ...pair) props {
	p := object(class, more...)
	if name != "" {
		p = append(p, pair{"OBJNAM", "INVENTED " + name})
	}
	for _, kv := range p {
		if kv.key == "INFORM" {
			return p
		}
	}
	return append(p, pair{"INFORM", "INVENTED"})
}

func at(p orb.Point) point { return point(spotOf(p)) }

func pointAt(xM, yM float64) point { return point(local(xM, yM)) }

// outline is a polygon of one ring, path a line, through local positions.
func outline(xy ...[2]float64) polygon {
	ring := []spot(path(xy...))
	return polygon{append(ring, ring[0])}
}

func path(xy ...[2]float64) line {
	var l line
	for _, c := range xy {
		l = append(l, local(c[0], c[1]))
	}
	return l
}

// strip is a band of the given width about the line from one local position
// to another.
func strip(x0, y0, x1, y1, widthM float64) polygon {
	l := length(x1-x0, y1-y0)
	nx, ny := -(y1-y0)/l*widthM/2, (x1-x0)/l*widthM/2
	return outline([2]float64{x0 - nx, y0 - ny}, [2]float64{x1 - nx, y1 - ny},
		[2]float64{x1 + nx, y1 + ny}, [2]float64{x0 + nx, y0 + ny})
}

// placedFeatures returns the features placed by hand, by class.
func placedFeatures() map[string][]feature {
	out := map[string][]feature{}
	for _, list := range [][]feature{
		metaFeatures(), dangerFeatures(), markFeatures(), harbourFeatures(),
		ruleFeatures(), groundFeatures(), nameFeatures(),
	} {
		for _, f := range list {
			class := f.props[0].value.(string)
			out[class] = append(out[class], f)
		}
	}
	return out
}

// box is the part of the coverage between two local y, or all of it.
func box(south, north float64) polygon {
	b := demobed.Bounds()
	sw, ne := spotOf(b.Min), spotOf(b.Max)
	if _, y := sw.metres(); south > y {
		sw.lat = local(0, south).lat
	}
	if _, y := ne.metres(); north < y {
		ne.lat = local(0, north).lat
	}
	se, nw := spot{ne.lon, sw.lat}, spot{sw.lon, ne.lat}
	return polygon{{sw, se, ne, nw, sw}}
}

const everywhere = 1e6

func metaFeatures() []feature {
	poor := outline([2]float64{2600, -4300}, [2]float64{5600, -4300}, [2]float64{5600, -2700}, [2]float64{2600, -2700})
	south := box(-everywhere, -600)
	south = append(south, reversed(poor[0]))
	return []feature{
		{object("DSID", pair{"DSID_EXPP", 1}, pair{"DSID_INTU", 5}, pair{"DSID_DSNM", "INVENTED"},
			pair{"DSID_EDTN", "1"}, pair{"DSID_UPDN", "0"}, pair{"DSID_UADT", "20260101"}, pair{"DSID_ISDT", "20260101"},
			pair{"DSPM_HDAT", 2}, pair{"DSPM_VDAT", 17}, pair{"DSPM_SDAT", 23}, pair{"DSPM_CSCL", 12000},
			pair{"DSPM_DUNI", 1}, pair{"DSPM_HUNI", 1}, pair{"DSPM_PUNI", 1}, pair{"DSPM_COUN", 1},
			pair{"DSPM_COMT", "INVENTED waters, not for navigation"}), nil},
		{invented("M_COVR", "", pair{"CATCOV", 1}), box(-everywhere, everywhere)},
		{invented("M_NSYS", "", pair{"MARSYS", 1}, pair{"ORIENT", 358.0}), box(-everywhere, everywhere)},
		{invented("M_QUAL", "", pair{"CATZOC", 1}), box(-600, everywhere)},
		{invented("M_QUAL", "", pair{"CATZOC", 3}), south},
		{invented("M_QUAL", "", pair{"CATZOC", 4}), poor},
	}
}

// hazardProps says what the chart tells of each of demobed's hazards, in
// their order, beyond a depth.
var hazardProps = [][]pair{
	{{"WATLEV", 3}, {"QUASOU", []string{"6"}}},
	{{"WATLEV", 4}, {"QUASOU", []string{"2"}}},
	{{"WATLEV", 4}, {"QUASOU", []string{"1"}}},
	{{"WATLEV", 3}, {"QUASOU", []string{"2"}}, {"EXPSOU", 2}},
	{{"WATLEV", 5}},
	{{"WATLEV", 3}, {"QUASOU", []string{"1"}}},
	{{"WATLEV", 4}, {"QUASOU", []string{"1"}}},
	{{"WATLEV", 3}, {"QUASOU", []string{"6"}}},
	{{"WATLEV", 3}, {"QUASOU", []string{"4"}}},
	{{"WATLEV", 4}, {"QUASOU", []string{"2"}}},
	{{"CATWRK", 2}, {"WATLEV", 3}, {"QUASOU", []string{"6"}}},
	{{"CATWRK", 1}, {"WATLEV", 3}, {"QUASOU", []string{"2"}}},
	{{"CATOBS", 6}, {"WATLEV", 3}, {"QUASOU", []string{"6"}}},
	{{"CATOBS", 1}, {"WATLEV", 3}, {"QUASOU", []string{"2"}}},
	{},
	{},
}

func dangerFeatures() []feature {
	var out []feature
	for i, h := range demobed.Hazards() {
		more := hazardProps[i]
		if h.Charted {
			more = append([]pair{{"VALSOU", h.LeastM}}, more...)
		}
		out = append(out, feature{invented(h.Class, "", more...), at(h.At)})
	}
	foul := outline([2]float64{-1250, 860}, [2]float64{-1120, 830}, [2]float64{-1080, 930}, [2]float64{-1200, 980})
	return append(out,
		feature{invented("OBSTRN", "", pair{"CATOBS", 7}, pair{"WATLEV", 3}), foul},
		feature{invented("SOUNDG", "", pair{"VALSOU", 16.5}, pair{"QUASOU", []string{"9"}}), pointAt(2300, -3300)},
		feature{invented("SOUNDG", "", pair{"VALSOU", 20.0}, pair{"QUASOU", []string{"8"}}), pointAt(-4300, -2700)},
	)
}

// port and starboard are lateral marks of IALA region A, as met going with
// the direction of buoyage (into the harbour).
func port(class, shape string, code int, name string, x, y float64) feature {
	return feature{invented(class, name, pair{"CATLAM", 1}, pair{shape, code}, pair{"COLOUR", []string{"3"}}), pointAt(x, y)}
}

func starboard(class, shape string, code int, name string, x, y float64) feature {
	return feature{invented(class, name, pair{"CATLAM", 2}, pair{shape, code}, pair{"COLOUR", []string{"4"}}), pointAt(x, y)}
}

func markFeatures() []feature {
	cardinal := func(code int, colours []string, name string, x, y float64) feature {
		return feature{invented("BOYCAR", name, pair{"CATCAM", code}, pair{"BOYSHP", 4},
			pair{"COLOUR", colours}, pair{"COLPAT", []string{"1"}}), pointAt(x, y)}
	}
	light := func(colour string, x, y float64) feature {
		return feature{invented("LIGHTS", "", pair{"COLOUR", []string{colour}}, pair{"LITCHR", 2},
			pair{"SIGGRP", "(2)"}, pair{"SIGPER", 6.0}, pair{"HEIGHT", 5.0}), pointAt(x, y)}
	}
	return []feature{
		port("BOYLAT", "BOYSHP", 2, "Fairway 2", -3925, 980),
		starboard("BOYLAT", "BOYSHP", 1, "Fairway 1", -3775, 980),
		port("BOYLAT", "BOYSHP", 2, "Fairway 4", -3915, 1440),
		starboard("BOYLAT", "BOYSHP", 1, "Fairway 3", -3790, 1440),
		port("BOYLAT", "BOYSHP", 2, "Gat 2", 2345, 1470),
		starboard("BOYLAT", "BOYSHP", 1, "Gat 1", 2505, 1470),
		port("BCNLAT", "BCNSHP", 1, "West Pier Head", -3967, 1578),
		starboard("BCNLAT", "BCNSHP", 1, "East Pier Head", -3760, 1638),
		port("BCNLAT", "BCNSHP", 1, "Creek perch", -3640, 2760),
		cardinal(3, []string{"6", "2"}, "Hook Ledge South", 1450, -1860),
		cardinal(4, []string{"6", "2", "6"}, "Drying Sands West", -3180, 560),
		{invented("BOYISD", "Lone Rock", pair{"BOYSHP", 4}, pair{"COLOUR", []string{"2", "3", "2"}},
			pair{"COLPAT", []string{"1"}}), pointAt(-2492, -1462)},
		{invented("BOYSPP", "bathing limit", pair{"BOYSHP", 3}, pair{"CATSPM", []string{"8"}},
			pair{"COLOUR", []string{"6"}}, pair{"PERSTA", "--0515"}, pair{"PEREND", "--0915"}), pointAt(330, 1180)},
		light("3", -3967, 1578), light("4", -3760, 1638),
	}
}

func harbourFeatures() []feature {
	pier := func(name string, l line) feature {
		return feature{invented("SLCONS", name, pair{"CATSLC", 1}, pair{"WATLEV", 2}), l}
	}
	quay := func(l line) feature {
		return feature{invented("SLCONS", "", pair{"CATSLC", 6}, pair{"WATLEV", 2}), l}
	}
	pile := func(x, y float64) feature { return feature{invented("PILPNT", ""), pointAt(x, y)} }
	return []feature{
		pier("West Pier", path([2]float64{-4020, 1990}, [2]float64{-3968, 1580})),
		pier("East Pier", path([2]float64{-3715, 1990}, [2]float64{-3760, 1640})),
		quay(path([2]float64{-3990, 2105}, [2]float64{-3990, 2275}, [2]float64{-3940, 2275})),
		quay(path([2]float64{-3760, 2105}, [2]float64{-3760, 2275}, [2]float64{-3800, 2275})),
		{invented("PONTON", "Visitors' Pontoon"), strip(-3990, 2185, -3935, 2185, 4)},
		{invented("PONTON", "South Pontoon"), strip(-3990, 2140, -3935, 2140, 4)},
		pile(-3934, 2147), pile(-3934, 2133), pile(-3800, 2160), pile(-3800, 2140),
		{invented("FAIRWY", "Harbour Fairway", pair{"ORIENT", 358.0}, pair{"TRAFIC", 4}),
			outline([2]float64{-3918, 960}, [2]float64{-3782, 960}, [2]float64{-3797, 1440}, [2]float64{-3824, 2204},
				[2]float64{-3915, 2204}, [2]float64{-3903, 1440})},
		{invented("BRIDGE", "Creek Bridge", pair{"CATBRG", []string{"1"}}, pair{"VERCLR", 3.4}, pair{"HORCLR", 7.0}),
			strip(-3660, 2964, -3540, 2936, 8)},
		{invented("CBLOHD", "", pair{"CATCBL", 1}, pair{"VERCLR", 14.0}, pair{"VERCSA", 11.0}),
			path([2]float64{-3440, 3389}, [2]float64{-3280, 3211})},
		{invented("HRBFAC", "Harbour", pair{"CATHAF", []string{"5"}}), pointAt(-3990, 2250)},
		{invented("BUAARE", "Harbour village"), outline([2]float64{-4300, 2150}, [2]float64{-4060, 2150},
			[2]float64{-4040, 2420}, [2]float64{-4250, 2500})},
		{invented("LNDMRK", "tower", pair{"CATLMK", []string{"17"}}, pair{"CONVIS", 1}), pointAt(-100, -500)},
	}
}
