package gpx

import (
	"encoding/xml"
	"testing"
)

// The text is what encoding/xml writes, whatever the names are.
func TestTextIsTheLibrarys(t *testing.T) {
	for _, name := range []string{
		"", "INVENTED", `<a b="c">'&</a>]]>`, "line\nbreak\r\ttab", "\x00\x01\x1f\x7f", "\xff\xc3", "é 港 \U0001F30A", "\uFFFD\uFFFE\uFFFF", " ",
	} {
		full := waypoint{"1.0000000", "-2.0000000", name, name, name}
		doc := document{
			Version: "1.1", Creator: "Keelroom", Metadata: metadata{name, name, name},
			Waypoints: []waypoint{full, {Lat: name, Lon: name}},
			Routes:    []route{{Number: 1}, {name, name, 2, []waypoint{full, {}, {Type: name}}}},
		}
		byLibrary(t, doc)
	}
	byLibrary(t, document{})
}

func byLibrary(t *testing.T, doc document) {
	t.Helper()
	want, err := xml.MarshalIndent(struct {
		XMLName xml.Name `xml:"http://www.topografix.com/GPX/1/1 gpx"`
		document
	}{document: doc}, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	if got := string(doc.text()); got != xml.Header+string(want)+"\n" {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}
