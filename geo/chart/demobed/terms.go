package demobed

import "math"

// The bed of the invented waters. Local metres, see [Local]; order matters
// for works, which act on what the terms before them made.
var bed = buildBed()

func buildBed() []term {
	terms := append([]term(nil), mainland()...)
	terms = append(terms, headland()...)
	terms = append(terms, southBay()...)
	terms = append(terms, banksAndIslets()...)
	terms = append(terms, roughness()...)
	return append(terms, works()...)
}

// heading returns the unit vector of a direction given as metres east and
// north.
func heading(east, north float64) (x, y float64) {
	l := math.Sqrt(float64(east*east) + float64(north*north))
	return east / l, north / l
}

// round is a circular hump.
func round(x, y, radius, height float64) term {
	return hump{xM: x, yM: y, longM: radius, shortM: radius, dirX: 1, heightM: height}
}

// long is an elliptic hump whose long axis points (east, north).
func long(x, y, longM, shortM, east, north, height float64) term {
	dx, dy := heading(east, north)
	return hump{xM: x, yM: y, longM: longM, shortM: shortM, dirX: dx, dirY: dy, heightM: height}
}

// reach is a work whose core runs from one point to another.
func reach(x0, y0, x1, y1, sideM, bankM, depthM float64) term {
	dx, dy := heading(x1-x0, y1-y0)
	half := math.Sqrt(float64((x1-x0)*(x1-x0))+float64((y1-y0)*(y1-y0))) / 2
	return work{xM: (x0 + x1) / 2, yM: (y0 + y1) / 2, dirX: dx, dirY: dy,
		halfM: half, sideM: sideM, bankM: bankM, depthM: depthM}
}

func mainland() []term {
	dx, dy := heading(-0.06, 1)
	return []term{
		ramp{xM: 0, yM: 800, dirX: dx, dirY: dy, widthM: 3100, heightM: 36},
		round(-5650, 1250, 1500, 12),              // the western point
		long(-4750, 2250, 900, 600, 1, 0.5, -5),   // the bight east of it
		round(-4300, 1500, 1000, 4.5),             // sand flats either side of
		long(-3150, 1550, 900, 620, 1, -0.2, 6.5), // the fairway
		long(-1900, 2350, 900, 650, 1, -0.7, 12),  // shore north of west bay
		round(-2350, 2100, 420, 6),
		round(900, 2150, 1000, 10), // the root of the headland, eastern side
		round(5500, 1750, 1400, 14),
		long(4500, 1300, 1000, 480, 1, -0.6, 10),
		round(4150, 2550, 800, -11), // a shallow cove
		round(4750, 2350, 500, 7),
	}
}

func headland() []term {
	return []term{
		long(-380, 2050, 1900, 1300, 1, 0.1, 22),  // its root
		long(-330, 700, 1700, 620, -0.1, 1, 40),   // its waist
		long(-330, -420, 1150, 620, 1, -0.12, 34), // its head
		long(560, -640, 980, 480, 1, -0.42, 24),   // the hook towards the east
		long(420, 620, 1150, 900, 0.2, 1, 8.5),    // east bay, shelving, in its lee
		round(330, 1150, 800, 5.5),
		round(150, -90, 420, 8),
		long(-980, 560, 1100, 700, -0.2, 1, 6.5), // west bay, steeper
		round(-760, 1150, 520, 9),
		round(-620, 240, 300, 5),
		long(-1230, -330, 620, 330, -1, 0.35, 15), // the west bay's southern arm
		round(-560, -820, 480, 13),
		long(1150, -1330, 700, 300, 1, -0.75, 13), // the ledge off the end
		round(1320, -1480, 240, 6),
	}
}

func southBay() []term {
	return []term{
		long(2350, 2450, 900, 760, 0.1, 1, -17.5),
		long(1500, 1980, 760, 420, 0.25, 1, 14),
		long(3270, 2000, 800, 420, -0.2, 1, 15),
		reach(1800, 1540, 3040, 1600, 20, 240, 0.3), // the bar across its mouth
		reach(2210, 2500, 2330, 2510, 60, 380, 3.1), // a shelf of sand at its head
		round(1600, 1580, 420, 3.4),                 // its ends on the two points
		round(3210, 1600, 420, 4.2),
		long(2430, 1570, 480, 230, 0.15, 1, -1.95), // the gat through the bar
		long(2080, 1590, 420, 170, 1, 0.2, 1.2),    // dries, either side of the gat
		long(2830, 1600, 380, 170, 1, -0.1, 1.0),
	}
}

func banksAndIslets() []term {
	return []term{
		long(3400, -950, 1500, 760, 1, 0.45, 11),
		long(3150, -1050, 520, 300, 1, 0.3, 27),
		round(2900, -900, 260, 9),
		round(3800, -620, 240, 17),
		round(3640, -1230, 190, 11),
		round(4250, -480, 200, 9),
		long(-2650, 850, 1000, 460, 0.5, 1, 13.5), // drying sands
		long(-2450, 500, 460, 260, 1, 0.3, 4),
		round(-2500, -1450, 380, 15), // an isolated rock head
		long(1900, -2950, 900, 420, 1, 0.4, 9),
		round(-4600, -900, 1100, 7),
		round(4600, -3000, 1300, -6),
		long(-900, -3200, 1700, 800, 1, 0.2, -4),
		round(-3200, -3300, 900, 4),
	}
}

// roughness is a scatter of low humps and hollows that breaks up smooth
// curves. The generator is the "minimal standard" one of Park and Miller
// (CACM 31, 1988), in integers: the same everywhere.
func roughness() []term {
	seed := int64(20260718)
	next := func(lo, hi float64) float64 {
		seed = seed * 16807 % 2147483647
		return lo + float64((hi-lo)*float64(seed)/2147483647)
	}
	var terms []term
	scatter := func(count int, south, north, least, greatest, height float64) {
		for range count {
			x, y := next(-6400, 6400), next(south, north)
			r := next(least, greatest)
			terms = append(terms, round(x, y, r, next(-height, height)*r/greatest))
		}
	}
	scatter(40, -5200, 3000, 900, 1900, 4)
	scatter(140, -4800, 3000, 350, 800, 2.6)
	scatter(130, -1500, 3000, 220, 420, 1.2)
	return terms
}

func works() []term {
	return []term{
		// the creek, from its head down to the harbour
		reach(-3020, 3760, -3160, 3480, 6, 60, 0.2),
		reach(-3160, 3480, -3560, 3120, 8, 65, 0.6),
		reach(-3560, 3120, -3640, 2780, 10, 65, 1.0),
		reach(-3640, 2780, -3860, 2420, 14, 70, 1.6),
		// the harbour: quays, basin, fairway
		reach(-4090, 2180, -3660, 2180, 150, 60, -3.8),
		reach(-3870, 2430, -3870, 2250, 22, 40, 1.9),
		reach(-3980, 2190, -3770, 2190, 75, 34, 2.6),
		reach(-3870, 2210, -3850, 1470, 48, 70, 3.2),
		// breakwaters
		reach(-4020, 1990, -3968, 1580, 6, 28, -4.4),
		reach(-3715, 1990, -3760, 1640, 6, 28, -4.4),
	}
}
