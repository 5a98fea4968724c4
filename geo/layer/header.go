package layer

import (
	"math"
	"strings"

	"keelroom/geo/geojson"
)

// fileHeader is what a collection says about how to read it.
type fileHeader struct {
	Header
	name                 string
	depthUnit, depthSign string
	depthProperty        string
}

// crs refuses any coordinate reference system but WGS 84 longitude, latitude.
// Source: GeoJSON 2008 section 3; RFC 7946 section 4 has none.
func (d *decoder) crs(path string) error {
	v, err := d.in.Value()
	if err != nil || v.Kind == geojson.Null {
		return err
	}
	properties, _ := v.Get("properties")
	name, _ := properties.Get("name")
	short, urn := strings.ToUpper(name.Str), "URN:OGC:DEF:CRS:"
	switch strings.TrimPrefix(short, urn) {
	case "OGC:1.3:CRS84", "EPSG:4326", "EPSG::4326":
		return nil
	}
	found := "a coordinate reference system without a name"
	if name.Kind == geojson.String {
		found = quote(name.Str)
	}
	return d.from.refuse("E-CRS", path, found, "no crs, or OGC:1.3:CRS84 or EPSG:4326: longitude and latitude on WGS 84")
}

// layerMember reads the foreign member `layer` of the collection.
func (d *decoder) layerMember() error {
	v, err := d.in.Value()
	if err != nil {
		return err
	}
	for _, m := range v.Members {
		if name := otherwiseSpelled(m.Key); name != "" {
			return d.from.refuse("E-JSON", "layer."+m.Key, "a member of that spelling", name)
		}
		if m.Value.Kind == geojson.Null {
			continue
		}
		if code, wanted := d.header.set(m.Key, m.Value); wanted != "" {
			return d.from.refuse(code, "layer."+m.Key, shown(m.Value), wanted)
		}
	}
	return nil
}

// otherwiseSpelled is the member that a key means but for its case: what a unit
// or a sign says must not be lost to a capital letter.
func otherwiseSpelled(key string) string {
	for _, name := range []string{"depthUnit", "depthSign", "depthProperty", "verticalDatum", "authority", "compilationScale"} {
		if key != name && strings.EqualFold(key, name) {
			return name
		}
	}
	return ""
}

// set takes in one member of `layer`. Where it cannot be read it returns the
// code of the error and what is wanted: what a layer says of itself is never
// guessed. Unknown members are ignored.
func (h *fileHeader) set(key string, v geojson.Value) (code, wanted string) {
	if text := h.text(key); text != nil {
		if v.Kind != geojson.String && v.Kind != geojson.Number {
			return "E-JSON", "a text"
		}
		*text = v.Str
		return "", ""
	}
	switch key {
	case "authority":
		h.Authority = v.Str
		if _, ok := authorities[v.Str]; !ok || v.Kind != geojson.String {
			return "E-JSON", "official, derived or private"
		}
	case "depthUnit":
		h.depthUnit = v.Str
		if _, ok := metresIn[v.Str]; !ok || v.Str == "" || v.Kind != geojson.String {
			return "E-UNIT", "m, ft or fm"
		}
	case "depthSign":
		h.depthSign = v.Str
		if v.Kind != geojson.String || v.Str != "down" && v.Str != "up" {
			return "E-SIGN", "down or up"
		}
	case "compilationScale":
		if h.Scale = whole(v); h.Scale == 0 {
			return "E-JSON", "the denominator of the scale, a whole number"
		}
	case "verticalDatum":
		if v.Str == "unknown" {
			return "", ""
		}
		if h.SoundingDatum = whole(v); !validDatum(h.SoundingDatum) {
			return "E-JSON", wantedDatum + `, or "unknown"`
		}
	}
	return "", ""
}

// text is where a member that is a text goes, nil for other members.
func (h *fileHeader) text(key string) *string {
	if key == "depthProperty" {
		return &h.depthProperty
	}
	return h.texts()[key]
}

// texts are the members that are shown.
func (h *fileHeader) texts() map[string]*string {
	return map[string]*string{
		"title": &h.Title, "source": &h.Source, "licence": &h.Licence, "edition": &h.Edition, "issueDate": &h.IssueDate,
	}
}

// cutHeader cuts texts that are too long.
func (d *decoder) cutHeader() {
	d.b.cutTexts(d.from.file, func(name string) string { return d.from.join("layer." + name) }, d.header.texts())
}

// whole is a positive whole number, 0 for anything else.
func whole(v geojson.Value) int {
	if v.Kind != geojson.Number || v.Num != math.Trunc(v.Num) || v.Num < 1 || v.Num > math.MaxInt32 {
		return 0
	}
	return int(v.Num)
}

// shown is a value as an error shows it.
func shown(v geojson.Value) string {
	switch v.Kind {
	case geojson.String:
		return quote(v.Str)
	case geojson.Number:
		return v.Str
	}
	return v.Kind.String()
}
