package hazards

import (
	"slices"
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
	p.Wind = slices.Clone(base.Wind)
	for i := range p.Wind {
		p.Wind[i].Kn /= 2 // a quiet day: 4 to 6 kn
	}
	y, m, day := base.Parts[0].Route.Depart.In(base.Zone).Date()
	leave := time.Date(y, m, day, 0, 0, 0, 0, base.Zone).Add(time.Duration(d.hour * float64(time.Hour)))
	for i, points := range d.routes {
		r := &plan.Route{Name: "INVENTED way", Points: points}
		if i == 0 {
			r.Depart = &leave
		} else {
			until := leave.Add(time.Duration(i) * 150 * time.Minute)
			p.Parts = append(p.Parts, plan.Part{Stay: &plan.Stay{Name: "INVENTED stop", Kind: plan.AtMooring, At: points[0], Until: until}})
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

// Stretches of the waters of the cell, west of the long island and east of it. The
// dredged channel of the western bay is followed in its middle.
var (
	savinHill = []orb.Point{{-71.0429, 42.3083}, {-71.04285, 42.3079}, {-71.04215, 42.30695}, {-71.0405, 42.3065}, {-71.0387, 42.3064}}
	neponset  = []orb.Point{{-71.0430, 42.3030}, {-71.0420, 42.3052}, {-71.0404, 42.3064}, {-71.0387, 42.3064}}
	reach     = []orb.Point{{-71.0387, 42.3064}, {-71.0344, 42.3071}, {-71.0316, 42.3081}, {-71.0284, 42.3102}, {-71.0252, 42.3129}, {-71.0234, 42.3152}, {-71.0218, 42.31735}, {-71.0188, 42.3184}}
	inlet     = []orb.Point{{-71.0318, 42.3160}, {-71.0308, 42.31615}, {-71.02455, 42.31655}, {-71.0218, 42.31735}, {-71.0188, 42.3184}}
	spectacle = []orb.Point{{-71.0188, 42.3184}, {-71.0122, 42.3208}, {-71.0050, 42.3246}, {-71.0005, 42.3262}, {-70.9964, 42.3249}, {-70.9925, 42.3215}, {-70.9905, 42.3185}}
	castle    = []orb.Point{{-71.0188, 42.3184}, {-71.0122, 42.3208}, {-71.0108, 42.3238}}
	moonHead  = []orb.Point{{-70.9905, 42.3185}, {-70.9890, 42.3150}, {-70.9885, 42.3110}}
	quincyBay = []orb.Point{{-70.9830, 42.3028}, {-70.9700, 42.3075}, {-70.9550, 42.3155}, {-70.9500, 42.3150}, {-70.9480, 42.3138}}

	gutGeorges    = []orb.Point{{-70.9244, 42.3015}, {-70.9270, 42.3115}, {-70.9300, 42.3165}, {-70.9345, 42.3190}}
	gutEntrance   = []orb.Point{{-70.9244, 42.3015}, {-70.9240, 42.3060}, {-70.9180, 42.3105}, {-70.9088, 42.3145}, {-70.8688, 42.3186}, {-70.8600, 42.3189}}
	georgesSea    = []orb.Point{{-70.9345, 42.3190}, {-70.9295, 42.3160}, {-70.9210, 42.3132}, {-70.9090, 42.3174}, {-70.9005, 42.3187}, {-70.8796, 42.3194}, {-70.8600, 42.3196}}
	longIsland    = []orb.Point{{-70.9560, 42.3178}, {-70.9345, 42.3190}}
	rainsford     = []orb.Point{{-70.9480, 42.3138}, {-70.9460, 42.3150}, {-70.9380, 42.3180}, {-70.9345, 42.3190}}
	rainsfordGut  = []orb.Point{{-70.9480, 42.3138}, {-70.9400, 42.3105}, {-70.9270, 42.3065}, {-70.9244, 42.3015}}
	longRainsford = []orb.Point{{-70.9560, 42.3178}, {-70.9484, 42.3144}, {-70.9480, 42.3138}}
	ledge         = []orb.Point{{-70.8600, 42.3189}, {-70.8470, 42.3125}}
	outer         = []orb.Point{{-70.8600, 42.3196}, {-70.7900, 42.3156}}
	narrows       = []orb.Point{{-70.9345, 42.3190}, {-70.9328, 42.3205}, {-70.9318, 42.3228}, {-70.9304, 42.3240}, {-70.9248, 42.3233}, {-70.9200, 42.3216}, {-70.9050, 42.3212}, {-70.8600, 42.3196}}
	nubble        = []orb.Point{{-70.9345, 42.3190}, {-70.9440, 42.3240}, {-70.9466, 42.3257}}
	stonySea      = []orb.Point{{-70.9020, 42.3105}, {-70.9000, 42.3129}, {-70.8984, 42.3142}, {-70.8856, 42.3171}, {-70.8600, 42.3196}}
	stonyGeorges  = []orb.Point{{-70.9020, 42.3105}, {-70.9010, 42.3135}, {-70.9060, 42.3155}, {-70.9210, 42.3130}, {-70.9295, 42.3160}, {-70.9345, 42.3190}}
	peddocks      = []orb.Point{{-70.9376, 42.3090}, {-70.9440, 42.3120}, {-70.9480, 42.3138}}
	brewster      = []orb.Point{{-70.9345, 42.3190}, {-70.9296, 42.3163}, {-70.9288, 42.3157}, {-70.9200, 42.3163}, {-70.9052, 42.3202}}
)

var ordinaryDays = []ordinaryDay{
	{"swim off the west island", 13, false, [][]orb.Point{way(savinHill, reach, spectacle), back(way(savinHill, reach, spectacle))}},
	{"castle picnic", 12, false, [][]orb.Point{way(inlet, castle), back(way(inlet, castle))}},
	{"up the river and out", 12.5, true, [][]orb.Point{way(neponset, reach, spectacle), back(way(neponset, reach, spectacle))}},
	{"two stops", 12, false, [][]orb.Point{way(neponset, reach, spectacle), way(back(spectacle), castle), back(way(neponset, reach, castle))}},
	{"across the basin", 14, false, [][]orb.Point{way(neponset, back(savinHill)), back(way(neponset, back(savinHill)))}},
	{"to the head", 13.5, true, [][]orb.Point{way(savinHill, reach, spectacle, moonHead), back(way(savinHill, reach, spectacle, moonHead))}},
	{"round the western way", 14, false, [][]orb.Point{way(inlet, spectacle, back(spectacle), back(inlet))}},
	{"across the bay", 13, false, [][]orb.Point{quincyBay, back(quincyBay)}},
	{"fort by the gut", 11, false, [][]orb.Point{gutGeorges, back(gutGeorges)}},
	{"fishing on the ledge", 9, false, [][]orb.Point{way(gutEntrance, ledge), back(way(gutEntrance, ledge))}},
	{"in from sea for lunch", 11, true, [][]orb.Point{back(georgesSea), georgesSea}},
	{"three islands", 11, false, [][]orb.Point{back(rainsfordGut), back(longRainsford), longIsland, back(gutGeorges)}},
	{"from the beach to the fort", 14, false, [][]orb.Point{stonyGeorges, back(stonyGeorges)}},
	{"far out", 11.5, true, [][]orb.Point{way(stonySea, outer), back(way(stonySea, outer))}},
	{"round by the narrows", 12, false, [][]orb.Point{way(narrows, back(georgesSea))}},
	{"shoals at high water", 13, false, [][]orb.Point{peddocks, back(peddocks)}},
	{"outer rocks", 11, false, [][]orb.Point{way(gutGeorges, brewster), back(way(gutGeorges, brewster))}},
	{"home from a far port", 15, true, [][]orb.Point{way(back(outer), back(georgesSea), back(longIsland))}},
	{"north channel", 13, false, [][]orb.Point{way(gutGeorges, nubble), back(way(gutGeorges, nubble))}},
	{"round the islands", 13.5, true, [][]orb.Point{way(longRainsford, rainsford, back(longIsland))}},
}

// Once is enough: over a score of ordinary days on a real chart a report has about
// five findings (plan-file contract, section 4), notes among them, and no day is a
// list that nobody reads. What the skipper does of his own is left out. The bounds
// have a tenth to spare over the mean wanted, and twice the mean for one day: a day
// through a shoal harbour between many marks has more to tell. Before things were
// told once these days had 191 findings.
func TestOrdinaryDaysAreQuiet(t *testing.T) {
	const wanted, spare, most = 5.0, 1.1, 10
	ownDoing := []string{plan.CheckFuel, plan.CheckSchedule, plan.CheckDaylight, plan.CheckSpeed}
	s := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	session := NewSession(chart.New(s))
	total := 0
	for i := range ordinaryDays {
		d := &ordinaryDays[i]
		r := check(t, session, d.plan(base))
		found := slices.DeleteFunc(slices.Clone(r.Findings), func(f plan.Finding) bool { return slices.Contains(ownDoing, f.Check) })
		total += len(found)
		t.Logf("%2d %-28s %s: %d findings on %d legs", i+1, d.name, r.Verdict, len(found), len(r.Legs))
		if len(found) > most {
			for _, f := range found {
				t.Log(describe(f), f.Detail)
			}
			t.Errorf("%s: %d findings", d.name, len(found))
		}
		for k, f := range found {
			if again := slices.IndexFunc(found[k+1:], func(g plan.Finding) bool {
				return f.Severity == plan.Note && g.Title == f.Title && g.Detail == f.Detail
			}); again >= 0 {
				t.Errorf("%s: a note is told twice: %s", d.name, f.Detail)
			}
			if f.Detail == "" {
				t.Errorf("%s: no words: %s", d.name, describe(f))
			}
		}
	}
	if mean := float64(total) / float64(len(ordinaryDays)); len(ordinaryDays) < 20 || mean > wanted*spare {
		t.Errorf("%d findings on %d days, %.1f a day; %.0f are wanted", total, len(ordinaryDays), mean, wanted)
	}
}
