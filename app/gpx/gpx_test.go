package gpx

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// The children of each element, in the order of the GPX 1.1 schema
// (http://www.topografix.com/GPX/1/1/gpx.xsd, types gpxType, metadataType, wptType,
// rteType), and those of which there may be several.
var (
	schema = map[string][]string{
		"gpx":      {"metadata", "wpt", "rte", "trk", "extensions"},
		"metadata": {"name", "desc", "author", "copyright", "link", "time", "keywords", "bounds", "extensions"},
		"wpt":      point,
		"rtept":    point,
		"rte":      {"name", "cmt", "desc", "src", "link", "number", "type", "extensions", "rtept"},
	}
	point = []string{
		"ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type",
		"fix", "sat", "hdop", "vdop", "pdop", "ageofdgpsdata", "dgpsid", "extensions",
	}
	several = []string{"wpt", "rte", "trk", "rtept", "link"}
)

// valid checks a document against the structure of the schema.
func valid(b []byte) error {
	d := xml.NewDecoder(bytes.NewReader(b))
	type open struct {
		name string
		last int
	}
	var stack []open
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		switch e := token.(type) {
		case xml.StartElement:
			if e.Name.Space != "http://www.topografix.com/GPX/1/1" {
				return fmt.Errorf("%s in the namespace %q", e.Name.Local, e.Name.Space)
			}
			if n := len(stack); n > 0 {
				at := slices.Index(schema[stack[n-1].name], e.Name.Local)
				if at < stack[n-1].last || at == stack[n-1].last && !slices.Contains(several, e.Name.Local) {
					return fmt.Errorf("%s in %s does not belong there", e.Name.Local, stack[n-1].name)
				}
				stack[n-1].last = at
			} else if e.Name.Local != "gpx" {
				return fmt.Errorf("the root is %s", e.Name.Local)
			}
			if err := attributes(e); err != nil {
				return err
			}
			stack = append(stack, open{e.Name.Local, -1})
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.CharData:
			if n := len(stack); n > 0 && schema[stack[n-1].name] != nil && len(bytes.TrimSpace(e)) > 0 {
				return fmt.Errorf("text %q between elements", e)
			}
		}
	}
}

// attributes checks those that the schema requires: latitudeType from -90 to 90,
// longitudeType from -180 to below 180.
func attributes(e xml.StartElement) error {
	value := map[string]string{}
	for _, a := range e.Attr {
		value[a.Name.Local] = a.Value
	}
	switch e.Name.Local {
	case "gpx":
		if value["version"] != "1.1" || value["creator"] == "" {
			return fmt.Errorf("version %q, creator %q", value["version"], value["creator"])
		}
	case "wpt", "rtept":
		lat, err := strconv.ParseFloat(value["lat"], 64)
		lon, err2 := strconv.ParseFloat(value["lon"], 64)
		if err != nil || err2 != nil || !(lat >= -90 && lat <= 90 && lon >= -180 && lon < 180) {
			return fmt.Errorf("lat %q, lon %q", value["lat"], value["lon"])
		}
	}
	return nil
}

var made = time.Date(2026, 7, 17, 20, 15, 30, 999, time.FixedZone("", 7200))

// invented is a day in invented waters, with names that try to be markup.
func invented(t *testing.T) *plan.Plan {
	t.Helper()
	p := plan.New()
	if err := p.SetZone("Etc/GMT+2"); err != nil {
		t.Fatal(err)
	}
	depart := time.Date(2026, 7, 18, 11, 30, 0, 0, time.UTC)
	p.Title = `INVENTED <day> & "night"`
	p.Parts = []plan.Part{
		{Route: &plan.Route{Name: "INVENTED out ]]>", Depart: &depart, Points: []orb.Point{{-36.05, 43.02}, {-36.0000000499, 43}}}},
		{Stay: &plan.Stay{Name: "INVENTED \x01Bay", At: orb.Point{-36, 43}, Until: depart.Add(3 * time.Hour), Kind: plan.AtAnchor}},
		{Route: &plan.Route{Points: []orb.Point{{-36, 43}, {180, -0.00000001}}}},
	}
	p.Refuges = []plan.Refuge{{Name: "INVENTED Hole", At: orb.Point{179.99999999, 1}}}
	p.Berths = []plan.Berth{{At: orb.Point{-36.05, 43.02}}}
	return p
}

func TestAgainstSchema(t *testing.T) {
	b, err := Encode(invented(t), made)
	if err != nil {
		t.Fatal(err)
	}
	if err := valid(b); err != nil {
		t.Errorf("%v in\n%s", err, b)
	}
	var back document
	if err := xml.Unmarshal(b, &back); err != nil {
		t.Fatal(err)
	}
	if back.Metadata.Name != `INVENTED <day> & "night"` || back.Metadata.Time != "2026-07-17T18:15:30Z" || back.Routes[0].Name != "INVENTED out ]]>" {
		t.Errorf("%+v", back)
	}
	for _, caution := range plan.StandingCautions() {
		if !strings.Contains(back.Metadata.Desc, caution) {
			t.Errorf("the caution %q is missing", caution)
		}
	}
	if len(back.Routes) != 2 || len(back.Waypoints) != 3 || len(back.Routes[0].Points) != 2 {
		t.Errorf("%d routes, %d places", len(back.Routes), len(back.Waypoints))
	}
	first, last := back.Routes[0].Points[1], back.Routes[1].Points[1]
	if first.Lon != "-36.0000000" || last.Lon != "-180.0000000" || last.Lat != "0.0000000" || back.Waypoints[2].Lon != "-180.0000000" {
		t.Errorf("%v, %v, %v", first, last, back.Waypoints[2])
	}
	if got := back.Routes[0].Desc + "; " + back.Waypoints[0].Desc; got != "Planned departure 2026-07-18 09:30 UTC-02:00; Planned until 2026-07-18 12:30 UTC-02:00" {
		t.Error(got)
	}
}

func TestRefused(t *testing.T) {
	if _, err := Encode(plan.New(), made); err == nil || !strings.Contains(err.Error(), "draw one first") {
		t.Error(err)
	}
	for _, at := range []orb.Point{{0, 91}, {math.NaN(), 0}, {0, math.Inf(1)}} {
		p := invented(t)
		p.Parts[0].Route.Points[1] = at
		if _, err := Encode(p, made); err == nil || !strings.Contains(err.Error(), "which is no place") {
			t.Errorf("%v: %v", at, err)
		}
	}
}

// The check itself finds what the schema forbids.
func TestValid(t *testing.T) {
	const head, tail = `<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="x">`, `</gpx>`
	for _, body := range []string{
		`<rte/><wpt lat="1" lon="1"/>`, `<metadata/><metadata/>`, `<metadata><time/><name/></metadata>`, `<wpt lat="1" lon="180"/>`, `<wpt lon="1"/>`, `<rte><rtept lat="1" lon="1"/><name/></rte>`, `text`, `<other/>`,
	} {
		if valid([]byte(head+body+tail)) == nil {
			t.Errorf("%s is taken as valid", body)
		}
	}
	if err := valid([]byte(head + `<metadata/><wpt lat="1" lon="1"/><wpt lat="1" lon="1"><name/></wpt><rte/>` + tail)); err != nil {
		t.Error(err)
	}
}
