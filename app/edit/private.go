package edit

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
	"keelroom/hazards/plan"
)

// Restrictions, S-57 attribute RESTRN (edition 3.1, appendix A chapter 2).
const (
	AnchoringProhibited = 1
	AnchoringRestricted = 2
	EntryProhibited     = 7
	EntryRestricted     = 8
	NoWake              = 13
	SpeedRestricted     = 27
)

// AddZone adds an area of the skipper's own with a speed limit, restrictions, or
// both. ring is the corners in order, closed or not. A limit of nil is none, or
// not stated where restrn has [SpeedRestricted] or [NoWake].
func AddZone(p *plan.Plan, ring []orb.Point, name string, limitKn *float64, restrn ...int) error {
	if limitKn == nil && len(restrn) == 0 {
		return errors.New("say what holds in this zone: a speed limit in knots, or what is forbidden")
	}
	if limitKn != nil && !(*limitKn > 0 && *limitKn <= 100) {
		return fmt.Errorf("%.4g knots is no speed limit: give one above 0, at most 100", *limitKn)
	}
	area, err := areaOf(ring)
	if err != nil {
		return err
	}
	properties := named(plan.RoleZone, "RESARE", name)
	if limitKn != nil {
		limit := geojson.Value{Kind: geojson.Object}
		limit.Append("speedLimit", geojson.NumberOf(*limitKn))
		limit.Append("speedUnits", geojson.TextOf("kn"))
		properties.Append("vesselSpeedLimit", limit)
		if !slices.Contains(restrn, SpeedRestricted) {
			restrn = append(slices.Clone(restrn), SpeedRestricted)
		}
	}
	codes := geojson.Value{Kind: geojson.Array}
	for _, code := range restrn {
		codes.Items = append(codes.Items, geojson.TextOf(strconv.Itoa(code)))
	}
	properties.Append("RESTRN", codes)
	return addPrivate(p, plan.RoleZone, properties, area)
}

// Kinds of danger.
const (
	Obstruction = "OBSTRN"
	Rock        = "UWTROC"
	Wreck       = "WRECKS"
)

// AddHazard adds a danger of the skipper's own: a point, or an area of three
// corners or more. depthM is its least depth below the sounding datum, negative
// where it dries; nil is not known, and then nothing passes over it. kind is
// [Obstruction], [Rock] or [Wreck]; "" is an obstruction.
func AddHazard(p *plan.Plan, where []orb.Point, name string, depthM *float64, kind string) error {
	switch kind {
	case "":
		kind = Obstruction
	case Obstruction, Rock, Wreck:
	default:
		return fmt.Errorf("%q is no kind of danger: choose obstruction, rock or wreck", kind)
	}
	if depthM != nil && !(*depthM >= -20 && *depthM <= 12000) {
		return fmt.Errorf("%.5g m is no depth of a danger: give metres below chart datum, negative where it dries", *depthM)
	}
	shape, err := shapeOf(where)
	if err != nil {
		return err
	}
	properties := named(plan.RoleHazard, kind, name)
	if depthM != nil {
		properties.Append("VALSOU", geojson.NumberOf(*depthM))
	}
	return addPrivate(p, plan.RoleHazard, properties, shape)
}

// RemovePrivate takes the skipper's own zone or danger out: an index into
// [plan.Plan.Private].
func RemovePrivate(p *plan.Plan, i int) error {
	if i < 0 || i >= len(p.Private) {
		return errGone
	}
	p.Private = slices.Delete(slices.Clone(p.Private), i, i+1)
	return nil
}

func named(role, class, name string) geojson.Value {
	v := geojson.Value{Kind: geojson.Object}
	v.Append("role", geojson.TextOf(role))
	v.Append("objectClass", geojson.TextOf(class))
	if name != "" {
		v.Append("name", geojson.TextOf(name))
	}
	return v
}

func addPrivate(p *plan.Plan, role string, properties geojson.Value, shape orb.Geometry) error {
	f := geojson.Value{Kind: geojson.Object}
	f.Append("type", geojson.TextOf("Feature"))
	f.Append("properties", properties)
	f.Append("geometry", geojson.ValueOf(shape, 7))
	p.Private = append(slices.Clone(p.Private), plan.PrivateFeature{Role: role, Feature: f.AppendJSON(nil)})
	return nil
}

func shapeOf(where []orb.Point) (orb.Geometry, error) {
	switch len(where) {
	case 0:
		return nil, errors.New("say where: choose a place, or draw around it")
	case 1:
		return position(where[0])
	}
	return areaOf(where)
}

const mostCorners = 2000

// areaOf makes an area of its corners.
func areaOf(corners []orb.Point) (orb.Polygon, error) {
	ring, err := positions(corners)
	if err != nil {
		return nil, err
	}
	ring = slices.Compact(ring)
	if n := len(ring); n > 1 && ring[0] == ring[n-1] {
		ring = ring[:n-1]
	}
	box := orb.MultiPoint(ring).Bound()
	switch {
	case len(ring) < 3 || flat(ring):
		return nil, errors.New("an area has three corners or more, not in a line: set another")
	case len(ring) > mostCorners:
		return nil, fmt.Errorf("%d corners are too many: draw it with at most %d", len(ring), mostCorners)
	case box.Right()-box.Left() > 180:
		return nil, errors.New("this area lies across the 180th meridian: draw one on either side of it")
	case crossesItself(ring):
		return nil, errors.New("the lines of this area cross each other, so that part of it would not count: draw it again without a crossing")
	}
	return orb.Polygon{append(orb.Ring(ring), ring[0])}, nil
}

// flat says whether all points lie on one line.
func flat(ring []orb.Point) bool {
	for _, p := range ring {
		if side(ring[0], ring[1], p) != 0 {
			return false
		}
	}
	return true
}

// crossesItself says whether two sides of a ring meet that are no neighbours.
func crossesItself(ring []orb.Point) bool {
	n := len(ring)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if meet(ring[i], ring[i+1], ring[j], ring[(j+1)%n]) {
				return true
			}
		}
	}
	return false
}

// meet says whether two straight pieces have a point in common.
func meet(a, b, c, d orb.Point) bool {
	abc, abd, cda, cdb := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	if abc*abd < 0 && cda*cdb < 0 {
		return true
	}
	return abc == 0 && within(a, b, c) || abd == 0 && within(a, b, d) ||
		cda == 0 && within(c, d, a) || cdb == 0 && within(c, d, b)
}

// side is positive where p lies left of the line from a to b.
func side(a, b, p orb.Point) float64 {
	return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0])
}

// within says whether p, on the line through a and b, lies between them.
func within(a, b, p orb.Point) bool {
	return math.Min(a[0], b[0]) <= p[0] && p[0] <= math.Max(a[0], b[0]) &&
		math.Min(a[1], b[1]) <= p[1] && p[1] <= math.Max(a[1], b[1])
}
