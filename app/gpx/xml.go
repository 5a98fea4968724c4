package gpx

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// The document's text is put together here, as encoding/xml would do it: that
// package, which works by reflection, is a hundredth of the browser's program. The
// tests compare the two.

const (
	header    = `<?xml version="1.0" encoding="UTF-8"?>` + "\n"
	namespace = "http://www.topografix.com/GPX/1/1"
)

func (d *document) text() []byte {
	w := &elements{}
	w.WriteString(header)
	w.open("gpx", "xmlns", namespace, "version", d.Version, "creator", d.Creator)
	w.open("metadata")
	w.optional("name", d.Metadata.Name)
	w.leaf("desc", d.Metadata.Desc)
	w.leaf("time", d.Metadata.Time)
	w.close("metadata")
	for _, p := range d.Waypoints {
		w.waypoint("wpt", p)
	}
	for _, r := range d.Routes {
		w.route(r)
	}
	w.close("gpx")
	return []byte(w.String())
}

func (w *elements) route(r route) {
	w.open("rte")
	w.optional("name", r.Name)
	w.optional("desc", r.Desc)
	w.leaf("number", strconv.Itoa(r.Number))
	for _, p := range r.Points {
		w.waypoint("rtept", p)
	}
	w.close("rte")
}

func (w *elements) waypoint(element string, p waypoint) {
	attributes := []string{"lat", p.Lat, "lon", p.Lon}
	if p.Name+p.Desc+p.Type == "" {
		w.line(start(element, attributes) + "</" + element + ">")
		return
	}
	w.open(element, attributes...)
	w.optional("name", p.Name)
	w.optional("desc", p.Desc)
	w.optional("type", p.Type)
	w.close(element)
}

// elements writes one element or tag a line, each level a space further in.
type elements struct {
	strings.Builder
	depth int
}

func (w *elements) line(text string) {
	w.WriteString(strings.Repeat(" ", w.depth) + text + "\n")
}

// open takes names of attributes and their values in turn.
func (w *elements) open(element string, attributes ...string) {
	w.line(start(element, attributes))
	w.depth++
}

func (w *elements) close(element string) {
	w.depth--
	w.line("</" + element + ">")
}

func (w *elements) leaf(element, text string) {
	w.line("<" + element + ">" + escaped(text) + "</" + element + ">")
}

func (w *elements) optional(element, text string) {
	if text != "" {
		w.leaf(element, text)
	}
}

func start(element string, attributes []string) string {
	tag := "<" + element
	for i := 0; i < len(attributes); i += 2 {
		tag += " " + attributes[i] + `="` + escaped(attributes[i+1]) + `"`
	}
	return tag + ">"
}

var entities = map[rune]string{
	'"': "&#34;", '\'': "&#39;", '&': "&amp;", '<': "&lt;", '>': "&gt;",
	'\t': "&#x9;", '\n': "&#xA;", '\r': "&#xD;",
}

// escaped is text for an element or an attribute. What XML 1.0 does not allow as a
// character (section 2.2) becomes the replacement character.
func escaped(text string) string {
	var b strings.Builder
	for _, r := range text {
		entity, special := entities[r]
		switch {
		case special:
			b.WriteString(entity)
		case !allowed(r):
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func allowed(r rune) bool {
	return r >= 0x20 && r <= 0xD7FF || r >= 0xE000 && r <= 0xFFFD || r >= 0x10000
}
