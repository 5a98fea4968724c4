package plan

import (
	"sync"
	"time"

	"github.com/paulmach/orb"
)

// Version is the version of the plan file and of the report.
const Version = 1

// Plan is a day afloat. [New] gives one with the defaults of the contract.
type Plan struct {
	Version       int
	Title         string
	Notes         string
	Persons       int // aboard; 0 is not given
	ContactAshore string
	BackBy        *time.Time
	Day           string         // the local date of a plan without a departure, as 2026-07-18; see Date
	Zone          *time.Location // with ZoneName; see SetZone
	ZoneName      string         // IANA; every clock time is shown in it

	Boat    Boat
	Margins Margins
	Tide    *TideSource // nil: none given
	Wind    []Wind      // times increase; linear between them, held 3 h beyond the ends
	Swell   []Swell
	Stream  []Stream // none: speeds are over the ground

	BuoyageDeg    *float64 // direction of buoyage, where the chart does not say
	BuoyageRegion string   // "A", "B" or "", where the chart does not say
	Choices       ChartChoices

	Parts   []Part // routes and stays in the day's order
	Berths  []Berth
	Refuges []Refuge
	Private []PrivateFeature // a private layer travelling with the plan

	kept                  // of the member plan
	collection       kept // of the collection
	featuresWhenRead int
}

// New returns an empty plan with the defaults of the contract.
func New() *Plan {
	return &Plan{Version: Version, Boat: DefaultBoat(), Margins: DefaultMargins()}
}

// Part is a part of the day: a route or a stay, and the other is nil.
type Part struct {
	Route *Route
	Stay  *Stay
}

// Route is a way under power, along rhumb lines from point to point.
type Route struct {
	Name     string
	Depart   *time.Time // of the first route only; a later one leaves when the stay before it ends
	Points   []orb.Point
	SpeedsKn []float64 // one a leg, or none: cruising speed

	origin
}

// Stay kinds.
const (
	AtAnchor  = "anchor"
	AtMooring = "mooring"
	AtBerth   = "berth"
)

// Stay is a time spent in one place.
type Stay struct {
	Name      string
	At        orb.Point
	Until     time.Time
	Kind      string     // AtAnchor, AtMooring or AtBerth
	RodeM     *float64   // rode to be laid; nil is unknown
	SoundedM  *float64   // what the echo sounder read, below the surface
	SoundedAt *time.Time // when it read that; with SoundedM or not at all
	Dropped   *Dropped   // where and when the anchor went down; nil: not known

	origin
}

// Dropped is where and when an anchor went down.
type Dropped struct {
	Time time.Time
	At   orb.Point

	kept
}

// Berth sides.
const (
	PortSide      = "port"
	StarboardSide = "starboard"
)

// Berth is a place alongside.
type Berth struct {
	Name       string
	At         orb.Point
	HeadingDeg *float64 // the bow's; nil is unknown
	Side       string   // the side alongside: PortSide, StarboardSide or "" for unknown

	origin
}

// Refuge is a place to run to.
type Refuge struct {
	Name string
	At   orb.Point

	origin
}

// Roles of features.
const (
	RoleRoute  = "route"
	RoleStay   = "stay"
	RoleBerth  = "berth"
	RoleRefuge = "refuge"
	RoleZone   = "zone"
	RoleHazard = "hazard"
)

// PrivateFeature is a feature of the layer profile that travels with the plan.
type PrivateFeature struct {
	Role    string // RoleZone or RoleHazard
	Feature []byte // the whole GeoJSON feature as it was read, for the layer decoder
	Index   int    // its place among the features of the file it was read from

	rank int
}

// ChartChoices is what the skipper answered where a chart is silent.
type ChartChoices struct {
	SoundingDatum   int      // VERDAT number; 0 is not answered
	TideAboveChartM *float64 // tide datum above sounding datum; nil is not answered
	AcceptExpsou1   bool     // take EXPSOU 1 as "not shoaler than the depth around it"
	VesselClasses   []string // of speed limits that apply to her
	Trust           []string // derived charts that count like official ones, by title or SHA-256

	kept
}

// Routes returns the routes in the day's order.
func (p *Plan) Routes() []*Route {
	var routes []*Route
	for _, part := range p.Parts {
		if part.Route != nil {
			routes = append(routes, part.Route)
		}
	}
	return routes
}

// Stays returns the stays in the day's order.
func (p *Plan) Stays() []*Stay {
	var stays []*Stay
	for _, part := range p.Parts {
		if part.Stay != nil {
			stays = append(stays, part.Stay)
		}
	}
	return stays
}

// Legs returns how many legs the route has.
func (r *Route) Legs() int { return max(len(r.Points)-1, 0) }

// SpeedKn returns the speed asked for on leg i of the route, counted from 0; ok
// is false where none is and she cruises.
func (r *Route) SpeedKn(i int) (kn float64, ok bool) {
	if i < 0 || i >= len(r.SpeedsKn) {
		return 0, false
	}
	return r.SpeedsKn[i], true
}

// SetZone sets the zone by its IANA name. The instants of the plan stay.
func (p *Plan) SetZone(name string) error {
	zone, msg := loadZone(name)
	if msg != "" {
		return &Errors{List: []Problem{problem("plan.time_zone", msg)}}
	}
	p.Zone, p.ZoneName = zone, name
	return nil
}

// loadZone returns the zone of that IANA name, or what is wrong with the name.
func loadZone(name string) (*time.Location, string) {
	const wanted = "an IANA name such as Atlantic/Azores is wanted"
	if name == "" || name == "Local" {
		return nil, quoted(name) + " means another zone on another machine; " + wanted
	}
	zone, err := zoneNamed(name)
	if err != nil {
		return nil, quoted(name) + " is not a known time zone; " + wanted
	}
	return zone, ""
}

// zones remembers the zones that were asked for: each plan names one, and in a browser
// looking one up begins with a file that is not there.
var zones sync.Map // of *time.Location by name

func zoneNamed(name string) (*time.Location, error) {
	if zone, ok := zones.Load(name); ok {
		return zone.(*time.Location), nil
	}
	zone, err := time.LoadLocation(name)
	if err != nil {
		return nil, err
	}
	zones.Store(name, zone)
	return zone, nil
}
