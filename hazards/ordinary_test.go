package hazards

import (
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// ordinaryDay is a day such as a skipper of a small fast motor boat would make
// over the real charts: along the marked water, the shoals given a berth. Names of
// boat, routes and stays are invented.
type ordinaryDay struct {
	name    string
	hour    float64       // of departure, local time
	buoyage bool          // whether the plan says the direction of buoyage
	routes  [][]orb.Point // with a stay of two hours between them
}

func (d *ordinaryDay) plan(base *plan.Plan) *plan.Plan {
	p := *base
	p.Title, p.Parts, p.Berths = "INVENTED "+d.name, nil, nil
	if !d.buoyage {
		p.BuoyageDeg = nil
	}
	y, m, day := base.Parts[0].Route.Depart.In(base.Zone).Date()
	leave := time.Date(y, m, day, 0, 0, 0, 0, base.Zone).Add(time.Duration(d.hour * float64(time.Hour)))
	for i, points := range d.routes {
		r := &plan.Route{Name: "INVENTED way", Points: points}
		if i == 0 {
			r.Depart = &leave
		} else {
			until := leave.Add(time.Duration(i) * 150 * time.Minute)
			p.Parts = append(p.Parts, plan.Part{Stay: &plan.Stay{Name: "INVENTED stop", Kind: plan.AtAnchor, At: points[0], Until: until}})
		}
		p.Parts = append(p.Parts, plan.Part{Route: r})
	}
	return &p
}

// way joins stretches of water; there and back is a way and its reverse.
func way(parts ...[]orb.Point) []orb.Point {
	var out []orb.Point
	for _, part := range parts {
		for _, p := range part {
			if len(out) == 0 || out[len(out)-1] != p {
				out = append(out, p)
			}
		}
	}
	return out
}

func back(points []orb.Point) []orb.Point {
	out := make([]orb.Point, len(points))
	for i, p := range points {
		out[len(out)-1-i] = p
	}
	return out
}

// Stretches of the waters of the cell, west of the long island and east of it.
var (
	savinHill = []orb.Point{{-71.0428, 42.3083}, {-71.0420, 42.3073}, {-71.0344, 42.3072}, {-71.0312, 42.3084}}
	neponset  = []orb.Point{{-71.0428, 42.3036}, {-71.0408, 42.3060}, {-71.0332, 42.3075}, {-71.0312, 42.3084}}
	squantum  = []orb.Point{{-71.0304, 42.3036}, {-71.0312, 42.3084}}
	reach     = []orb.Point{{-71.0312, 42.3084}, {-71.0284, 42.3102}, {-71.0252, 42.3129}, {-71.0220, 42.3165}, {-71.0188, 42.3180}}
	inlet     = []orb.Point{{-71.0290, 42.3161}, {-71.0235, 42.3166}, {-71.0188, 42.3180}}
	spectacle = []orb.Point{{-71.0188, 42.3180}, {-71.0120, 42.3204}, {-71.0068, 42.3234}, {-71.0016, 42.3252}, {-70.9964, 42.3249}, {-70.9920, 42.3219}, {-70.9910, 42.3195}}
	thompson  = []orb.Point{{-70.9910, 42.3195}, {-70.9952, 42.3152}, {-71.0048, 42.3165}}
	castle    = []orb.Point{{-71.0188, 42.3180}, {-71.0120, 42.3204}, {-71.0116, 42.3252}}
	moonHead  = []orb.Point{{-70.9910, 42.3195}, {-70.9868, 42.3162}, {-70.9884, 42.3096}}
	quincyBay = []orb.Point{{-70.9852, 42.3024}, {-70.9800, 42.3024}, {-70.9544, 42.3153}, {-70.9504, 42.3153}, {-70.9480, 42.3138}}

	gutGeorges    = []orb.Point{{-70.9244, 42.3015}, {-70.9276, 42.3126}, {-70.9316, 42.3186}}
	gutEntrance   = []orb.Point{{-70.9244, 42.3015}, {-70.9240, 42.3060}, {-70.9180, 42.3105}, {-70.9088, 42.3135}, {-70.8688, 42.3186}, {-70.8600, 42.3189}}
	georgesSea    = []orb.Point{{-70.9316, 42.3186}, {-70.9288, 42.3159}, {-70.8600, 42.3189}}
	longIsland    = []orb.Point{{-70.9560, 42.3195}, {-70.9316, 42.3186}}
	rainsford     = []orb.Point{{-70.9480, 42.3138}, {-70.9460, 42.3150}, {-70.9380, 42.3177}, {-70.9316, 42.3186}}
	rainsfordGut  = []orb.Point{{-70.9480, 42.3138}, {-70.9252, 42.3036}, {-70.9244, 42.3015}}
	longRainsford = []orb.Point{{-70.9560, 42.3195}, {-70.9484, 42.3144}, {-70.9480, 42.3138}}
	ledge         = []orb.Point{{-70.8600, 42.3189}, {-70.8452, 42.3120}}
	outer         = []orb.Point{{-70.8600, 42.3189}, {-70.7900, 42.3156}}
	narrows       = []orb.Point{{-70.9316, 42.3186}, {-70.9328, 42.3201}, {-70.9318, 42.3228}, {-70.9304, 42.3240}, {-70.9248, 42.3237}, {-70.9200, 42.3216}, {-70.8600, 42.3189}}
	nubble        = []orb.Point{{-70.9316, 42.3186}, {-70.9440, 42.3237}, {-70.9468, 42.3261}}
	stonySea      = []orb.Point{{-70.9020, 42.3105}, {-70.9004, 42.3129}, {-70.8984, 42.3138}, {-70.8856, 42.3168}, {-70.8600, 42.3189}}
	stonyGeorges  = []orb.Point{{-70.9020, 42.3105}, {-70.9060, 42.3134}, {-70.9260, 42.3147}, {-70.9288, 42.3159}, {-70.9316, 42.3186}}
	peddocks      = []orb.Point{{-70.9376, 42.3090}, {-70.9476, 42.3141}, {-70.9480, 42.3138}}
	brewster      = []orb.Point{{-70.9316, 42.3186}, {-70.9288, 42.3159}, {-70.9200, 42.3165}, {-70.9052, 42.3204}}
)

var ordinaryDays = []ordinaryDay{
	{"swim off the west island", 9, false, [][]orb.Point{way(savinHill, reach, spectacle, thompson), back(way(savinHill, reach, spectacle, thompson))}},
	{"castle picnic", 10, false, [][]orb.Point{way(inlet, castle), back(way(inlet, castle))}},
	{"up the river and out", 11, true, [][]orb.Point{way(neponset, reach, spectacle, thompson), back(way(neponset, reach, spectacle, thompson))}},
	{"two stops", 8, false, [][]orb.Point{way(squantum, reach, spectacle, thompson), way(back(thompson), back(spectacle), castle[1:]), back(way(squantum, reach, castle))}},
	{"across the basin", 12, false, [][]orb.Point{way(neponset, back(savinHill)), back(way(neponset, back(savinHill)))}},
	{"to the head", 9.5, true, [][]orb.Point{way(savinHill, reach, spectacle, moonHead), back(way(savinHill, reach, spectacle, moonHead))}},
	{"round the western way", 13, false, [][]orb.Point{way(inlet, spectacle, back(spectacle), back(inlet))}},
	{"across the bay", 10.5, false, [][]orb.Point{quincyBay, back(quincyBay)}},
	{"fort by the gut", 9, false, [][]orb.Point{gutGeorges, back(gutGeorges)}},
	{"fishing on the ledge", 8, false, [][]orb.Point{way(gutEntrance, ledge), back(way(gutEntrance, ledge))}},
	{"in from sea for lunch", 11, true, [][]orb.Point{back(georgesSea), georgesSea}},
	{"three islands", 9, false, [][]orb.Point{back(rainsfordGut), back(longRainsford), longIsland, back(gutGeorges)}},
	{"from the beach to the fort", 14, false, [][]orb.Point{stonyGeorges, back(stonyGeorges)}},
	{"far out", 8.5, true, [][]orb.Point{way(stonySea, outer), back(way(stonySea, outer))}},
	{"round by the narrows", 10, false, [][]orb.Point{way(narrows, back(georgesSea))}},
	{"shoals at high water", 12.5, false, [][]orb.Point{peddocks, back(peddocks)}},
	{"outer rocks", 9, false, [][]orb.Point{way(gutGeorges, brewster), back(way(gutGeorges, brewster))}},
	{"home from a far port", 15, true, [][]orb.Point{way(back(outer), back(georgesSea), longIsland[:1])}},
	{"north channel", 10, false, [][]orb.Point{way(gutGeorges, nubble), back(way(gutGeorges, nubble))}},
	{"round the islands", 13.5, true, [][]orb.Point{way(longRainsford, rainsford, back(longIsland))}},
}

func TestOrdinaryDays(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	session := NewSession(chart.New(s))
	total, notes := 0, 0
	for i := range ordinaryDays {
		d := &ordinaryDays[i]
		r := check(t, session, d.plan(base))
		n := 0
		for _, f := range r.Findings {
			if f.Severity == plan.Note {
				n++
			}
			if testing.Verbose() {
				name := ""
				if f.Source != nil {
					name = f.Source.Class + " " + f.Source.Name
				}
				t.Logf("   %s | %s | leg %d | %s | %s", f.Severity, f.Check, f.Leg, f.Title, name)
			}
		}
		total, notes = total+len(r.Findings), notes+n
		t.Logf("%2d %-28s %s: %d findings, %d of them notes, %d legs", i+1, d.name, r.Verdict, len(r.Findings), n, len(r.Legs))
	}
	t.Logf("%d findings, %d of them notes", total, notes)
}
