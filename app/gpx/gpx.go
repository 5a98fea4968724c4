package gpx

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// leftOut is said in the file, as nothing in it shows that there was more.
const leftOut = "Only waypoints are in this file: no depths, dangers, zones, tide or speeds. The legs between them were checked, if at all, for one boat at one time."

// The elements in the order that the schema demands. The tags are for tests, which
// read the document back.
type (
	document struct {
		Version   string     `xml:"version,attr"`
		Creator   string     `xml:"creator,attr"`
		Metadata  metadata   `xml:"metadata"`
		Waypoints []waypoint `xml:"wpt"`
		Routes    []route    `xml:"rte"`
	}
	metadata struct {
		Name string `xml:"name,omitempty"`
		Desc string `xml:"desc"`
		Time string `xml:"time"`
	}
	waypoint struct {
		Lat  string `xml:"lat,attr"`
		Lon  string `xml:"lon,attr"`
		Name string `xml:"name,omitempty"`
		Desc string `xml:"desc,omitempty"`
		Type string `xml:"type,omitempty"`
	}
	route struct {
		Name   string     `xml:"name,omitempty"`
		Desc   string     `xml:"desc,omitempty"`
		Number int        `xml:"number"`
		Points []waypoint `xml:"rtept"`
	}
)

// Encode writes the routes and places of a plan. made is when: it becomes the
// file's date. A plan without a route, or with a position that is none, is refused.
func Encode(p *plan.Plan, made time.Time) ([]byte, error) {
	doc := document{
		Version: "1.1", Creator: "Keelroom",
		Metadata: metadata{
			Name: p.Title,
			Desc: strings.Join(append(plan.StandingCautions(), leftOut), " "),
			Time: made.UTC().Truncate(time.Second).Format(time.RFC3339),
		},
	}
	w := &writer{zone: p.Zone}
	doc.Routes, doc.Waypoints = w.routes(p), w.places(p)
	switch {
	case w.wrong != nil:
		return nil, w.wrong
	case len(doc.Routes) == 0:
		return nil, errors.New("there is no route to write: draw one first")
	}
	return doc.text(), nil
}

type writer struct {
	zone  *time.Location
	wrong error
}

func (w *writer) routes(p *plan.Plan) []route {
	var out []route
	for _, r := range p.Routes() {
		if len(r.Points) == 0 {
			continue
		}
		n := len(out) + 1
		one := route{Name: r.Name, Number: n}
		if r.Depart != nil {
			one.Desc = "Planned departure " + w.clock(*r.Depart)
		}
		for i, at := range r.Points {
			one.Points = append(one.Points, w.at(at, waypoint{Name: fmt.Sprintf("%d.%02d", n, i+1)}))
		}
		out = append(out, one)
	}
	return out
}

func (w *writer) places(p *plan.Plan) []waypoint {
	var out []waypoint
	for _, s := range p.Stays() {
		one := waypoint{Name: s.Name, Type: s.Kind}
		if !s.Until.IsZero() {
			one.Desc = "Planned until " + w.clock(s.Until)
		}
		out = append(out, w.at(s.At, one))
	}
	for i := range p.Berths {
		out = append(out, w.at(p.Berths[i].At, waypoint{Name: p.Berths[i].Name, Type: plan.RoleBerth}))
	}
	for i := range p.Refuges {
		out = append(out, w.at(p.Refuges[i].At, waypoint{Name: p.Refuges[i].Name, Type: plan.RoleRefuge}))
	}
	return out
}

// at gives a waypoint its position. The schema's longitude is below 180.
func (w *writer) at(p orb.Point, one waypoint) waypoint {
	if !geo.ValidPosition(p) && w.wrong == nil {
		w.wrong = fmt.Errorf("%q lies at latitude %g, longitude %g, which is no place: move it first", one.Name, p.Lat(), p.Lon())
	}
	one.Lat, one.Lon = degrees(p.Lat()), degrees(p.Lon())
	if one.Lon == "180.0000000" {
		one.Lon = "-180.0000000"
	}
	return one
}

func degrees(v float64) string {
	if s := strconv.FormatFloat(v, 'f', 7, 64); s != "-0.0000000" {
		return s
	}
	return "0.0000000"
}

// clock tells a time in the plan's zone with its offset, and in UTC without one.
func (w *writer) clock(t time.Time) string {
	zone := w.zone
	if zone == nil {
		zone = time.UTC
	}
	return t.In(zone).Format("2006-01-02 15:04 UTC-07:00")
}
