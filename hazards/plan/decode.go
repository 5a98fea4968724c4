package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"keelroom/geo/geojson"
)

// Decode reads a plan file and refuses one that is not complete and consistent.
// Its error is an [*Errors] with all problems.
func Decode(b []byte) (*Plan, error) { return decode(b, true) }

// DecodeDraft reads a plan file that may still lack what a check needs: a route,
// a second waypoint, a departure, a draught. What is there must be right.
func DecodeDraft(b []byte) (*Plan, error) { return decode(b, false) }

func decode(b []byte, complete bool) (*Plan, error) {
	if len(b) > MaxBytes {
		return nil, &Errors{List: []Problem{problem("", fmt.Sprintf("%d bytes; at most %d are wanted", len(b), MaxBytes))}}
	}
	d := &decoder{r: geojson.NewReader(b), plan: New(), offsets: map[string]int{}}
	d.r.LimitPositions(MaxPositions)
	if err := d.document(); err != nil {
		return nil, fatal(d.tooMany(err))
	}
	if v := d.plan.Version; v > Version {
		// What else is wrong would only be that a later version is not this one.
		const path = "plan.version"
		return nil, &Errors{List: []Problem{{Place: d.r.PlaceOf(path, d.offsets[path]), Msg: newer(v)}}}
	}
	if err := d.finish(complete); err != nil {
		return nil, err
	}
	return d.plan, nil
}

func newer(version int) string {
	return fmt.Sprintf("the plan file is version %d, made by a later Keelroom; version %d is wanted", version, Version)
}

// maxNoted is how many problems are noted before they are only counted.
const maxNoted = 1000

type decoder struct {
	r        *geojson.Reader
	plan     *Plan
	offsets  map[string]int // of the known members, by path
	problems []Problem
	more     int
	features int
	private  int  // positions in zones and hazards
	forget   bool // keep no member: what is read is not written again
}

// note takes a problem with a value, and returns any other error.
func (d *decoder) note(err error) error {
	var wrong *geojson.ValueError
	if !errors.As(err, &wrong) {
		return err
	}
	d.add(Problem{Place: wrong.Place, Msg: wrong.Msg})
	return nil
}

func (d *decoder) add(p Problem) {
	if len(d.problems) >= maxNoted {
		d.more++
		return
	}
	d.problems = append(d.problems, p)
}

// missing notes that the value in hand lacks a member.
func (d *decoder) missing(key, wanted string) {
	place := d.r.Place()
	place.Path = join(place.Path, key)
	d.add(Problem{Place: place, Msg: "missing; " + wanted + " is wanted"})
}

func join(path, key string) string {
	if path == "" || key == "" {
		return path + key
	}
	return path + "." + key
}

func (d *decoder) document() error {
	p := d.plan
	err := d.object(&p.collection, []field{
		constant("type", "FeatureCollection"),
		required(field{key: "plan", kind: geojson.Object, walk: func(d *decoder) error { return d.record(p) }}),
		required(field{key: "features", kind: geojson.Array, walk: (*decoder).featureList, fresh: true}),
		{key: "crs", kind: geojson.Object, set: crsWrong},
	})
	if err != nil {
		return d.note(err) // the document is no object
	}
	p.featuresWhenRead = d.features
	return d.r.End()
}

// crsWrong takes the crs member of older GeoJSON where it means what RFC 7946
// says without it.
func crsWrong(v geojson.Value) string {
	properties, _ := v.Get("properties")
	name, _ := properties.Get("name")
	plain := strings.ToUpper(strings.TrimPrefix(strings.ToLower(name.Str), "urn:ogc:def:crs:"))
	switch plain {
	case "OGC:1.3:CRS84", "OGC::CRS84", "EPSG:4326", "EPSG::4326":
		return ""
	}
	return "the coordinate reference system " + quoted(name.Str) + "; WGS 84 longitude and latitude without crs, or OGC:1.3:CRS84, is wanted"
}

// record reads an object into rec.
func (d *decoder) record(rec record) error { return d.object(rec.members(), rec.fields()) }

// object reads an object by its fields. Problems with single members are noted,
// and reading goes on.
func (d *decoder) object(k *kept, fields []field) error {
	*k = nil
	err := d.r.Object(func(key string) error {
		i := slices.IndexFunc(fields, func(f field) bool { return f.key == key })
		if i < 0 {
			v, err := d.r.Value()
			k.add(key, v)
			return err
		}
		d.offsets[d.r.Path()] = d.r.Offset()
		return d.note(d.member(k, fields[i]))
	})
	if err != nil {
		return err
	}
	for _, f := range fields {
		if f.required && !k.given(f.key) {
			d.missing(f.key, f.kind.String())
		}
	}
	if d.forget {
		*k = nil
	}
	return nil
}

// member reads the value of a known member. null is a member not given.
func (d *decoder) member(k *kept, f field) error {
	if d.r.Kind() == geojson.Null {
		k.add(f.key, geojson.Value{Kind: geojson.Null})
		return d.r.Null()
	}
	k.add(f.key, geojson.Value{Kind: f.kind})
	if f.texted != nil && d.r.Kind() == geojson.String {
		v, err := d.r.Value()
		if err == nil {
			err = d.r.Err("%s", f.texted(v.Str))
		}
		return err
	}
	if err := d.r.Want(f.kind); err != nil {
		return err
	}
	original := &(*k)[len(*k)-1].Value
	if f.walk != nil && f.kind == geojson.Object {
		return f.walk(d)
	}
	if f.walk != nil {
		return d.listMember(original, f)
	}
	v, err := d.r.Value()
	if err != nil {
		return err
	}
	*original = v
	if wrong := f.set(v); wrong != "" {
		return d.r.Err("%s", wrong)
	}
	return nil
}

// listMember reads a list, and keeps its spelling if it is one of plain values.
func (d *decoder) listMember(original *geojson.Value, f field) error {
	mark, err := d.r.Postpone()
	if err != nil {
		return err
	}
	if f.fresh {
		return d.r.Revisit(mark, func() error { return f.walk(d) })
	}
	err = d.r.Revisit(mark, func() (err error) { *original, err = d.r.Value(); return err })
	if err != nil {
		return err
	}
	return d.r.Revisit(mark, func() error { return f.walk(d) })
}

// items reads the items of a list; problems with one are noted.
func (d *decoder) items(read func() error) error {
	return d.r.Array(func(int) error {
		d.offsets[d.r.Path()] = d.r.Offset()
		return d.note(read())
	})
}

func (d *decoder) featureList() error {
	return d.items(func() error {
		if d.features++; d.features > MaxFeatures {
			return &geojson.LimitError{Place: d.r.Place(), Msg: fmt.Sprintf("more than %d features; fewer are wanted", MaxFeatures)}
		}
		if err := d.r.Want(geojson.Object); err != nil {
			return err
		}
		return d.anyFeature()
	})
}

func (d *decoder) anyFeature() error {
	mark, err := d.r.Postpone()
	if err != nil {
		return err
	}
	return d.r.Revisit(mark, func() error {
		role, err := d.role()
		if err != nil {
			return err
		}
		return d.r.Revisit(mark, func() error { return d.featureOf(role) })
	})
}

// role finds the role of the feature in hand.
func (d *decoder) role() (role string, err error) {
	found := false
	err = d.property("role", func() (err error) {
		found = true
		role, err = d.roleName()
		return err
	})
	if err == nil && !found {
		err = d.r.Err("a feature without properties.role; %s is wanted", roles)
	}
	return role, err
}

// property calls read before a property of the feature in hand, if it has it.
func (d *decoder) property(name string, read func() error) error {
	return d.r.Object(func(key string) error {
		if key != "properties" || d.r.Kind() != geojson.Object {
			return nil
		}
		return d.r.Object(func(key string) error {
			if key == name {
				return read()
			}
			return nil
		})
	})
}

func (d *decoder) roleName() (string, error) {
	role, err := d.r.String()
	if err != nil {
		return "", err
	}
	switch role {
	case RoleRoute, RoleStay, RoleBerth, RoleRefuge, RoleZone, RoleHazard:
		return role, nil
	}
	return "", d.r.Err("the role %s; %s is wanted", quoted(role), roles)
}

const roles = "a role out of route, stay, berth, refuge, zone, hazard"

func (d *decoder) featureOf(role string) error {
	p := d.plan
	switch role {
	case RoleRoute:
		route := &Route{}
		p.Parts = append(p.Parts, Part{Route: route})
		return d.feature(route)
	case RoleStay:
		stay := &Stay{Kind: AtAnchor}
		p.Parts = append(p.Parts, Part{Stay: stay})
		return d.feature(stay)
	case RoleBerth:
		p.Berths = append(p.Berths, Berth{})
		return d.feature(&p.Berths[len(p.Berths)-1])
	case RoleRefuge:
		p.Refuges = append(p.Refuges, Refuge{})
		return d.feature(&p.Refuges[len(p.Refuges)-1])
	}
	place := d.r.Place()
	raw, err := d.r.Raw()
	if d.private += positionsIn(raw); d.private > MaxPrivatePositions {
		return &geojson.LimitError{Place: place, Msg: fmt.Sprintf("more than %d positions in zones and hazards; at most as many are wanted: open a larger layer as a chart", MaxPrivatePositions)}
	}
	p.Private = append(p.Private, PrivateFeature{role, slices.Clone(raw), d.features - 1, d.features})
	return err
}

// feature reads the feature in hand into f.
func (d *decoder) feature(f located) error {
	o := f.source()
	o.rank, o.unplaced = d.features, true
	return d.object(&o.feature, []field{
		constant("type", "Feature"),
		required(field{key: "geometry", kind: geojson.Object, walk: func(d *decoder) error { return d.geometry(f) }}),
		required(field{key: "properties", kind: geojson.Object, walk: func(d *decoder) error { return d.record(f) }}),
	})
}

// geometry reads the positions of f, and keeps the geometry as it was.
func (d *decoder) geometry(f located) error {
	mark, err := d.r.Postpone()
	if err != nil {
		return err
	}
	var g geojson.Geometry
	return d.r.Revisit(mark, func() error {
		v, err := d.r.Value()
		if err != nil {
			return err
		}
		f.source().geometry = v.Members
		return d.r.Revisit(mark, func() error {
			if err := d.r.Geometry(&g); err != nil {
				return err
			}
			if g.Type != f.geometryType() {
				return d.r.Err("a %s; a %s is wanted for a %s", g.Type, f.geometryType(), f.role())
			}
			return d.placeFeature(f, g.Positions)
		})
	})
}

func (d *decoder) placeFeature(f located, points []orb.Point) error {
	points = slices.Clone(points)
	for i, p := range points {
		if positionWrong(p) == "" {
			points[i] = rounded(p)
		}
	}
	f.place(points)
	f.source().unplaced = false
	return nil
}

// finish checks what was read and returns all problems.
func (d *decoder) finish(complete bool) error {
	c := &checker{}
	d.plan.checkFields(c)
	d.plan.checkDay(c)
	for _, f := range c.found {
		if f.incomplete && !complete || d.known(f.Path) {
			continue
		}
		f.Place = d.r.PlaceOf(f.Path, d.offsetOf(f.Path))
		d.add(f.Problem)
	}
	return listed(d.problems, d.more)
}

// known says whether a problem at this path, or around it, was noted while
// reading; one that was found later would only follow from it.
func (d *decoder) known(path string) bool {
	return slices.ContainsFunc(d.problems, func(p Problem) bool {
		rest, within := strings.CutPrefix(path, p.Path)
		return within && (p.Path == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
	})
}

// offsetOf returns the offset of the member at path, or of the nearest one
// around it.
func (d *decoder) offsetOf(path string) int {
	for path != "" {
		if offset, ok := d.offsets[path]; ok {
			return offset
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return 0
}
