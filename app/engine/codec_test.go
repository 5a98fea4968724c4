package engine

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"keelroom/geo/layer"
)

func TestCodec(t *testing.T) {
	lon := -36.5
	r := Request{ID: 4, Kind: CheckPlan, PlanRev: 2, ChartRev: 3, Plan: `{"a":1}`, Lon: &lon, Time: 1784340000, Files: []layer.File{{Name: "a", Data: []byte("b")}}}
	head, texts, err := EncodeRequest(r)
	if err != nil || strings.Contains(string(head), `"a"`) || texts["plan"] != r.Plan {
		t.Fatalf("%s %v %v", head, texts, err)
	}
	if got, err := DecodeRequest(head, r.Files, texts); err != nil || !reflect.DeepEqual(got, r) {
		t.Errorf("%+v %v", got, err)
	}
	a := Reply{ID: 4, Kind: CheckPlan, State: Done, PlanRev: 2, Words: "“ok”", Body: json.RawMessage(`{"x":[1]}`), Texts: map[string]string{"report": "{}"}}
	if head, err = EncodeReply(a); err != nil || strings.Contains(string(head), "report") {
		t.Fatalf("%s %v", head, err)
	}
	if got, err := DecodeReply(head, a.Texts); err != nil || !reflect.DeepEqual(got, a) {
		t.Errorf("%+v %v", got, err)
	}
	for _, bad := range []string{``, `[]`, `{"id":"x"}`, `{"id":1}`, "{\"kind\":\"\xff\"}", `{"kind":"check"} x`} {
		if _, err := DecodeRequest([]byte(bad), nil, nil); err == nil {
			t.Errorf("%q is taken", bad)
		}
		if _, err := DecodeReply([]byte(bad), nil); err == nil {
			t.Errorf("%q is taken as a reply", bad)
		}
	}
}

// What is decoded is encoded and decoded to the same, and no head or plan makes
// the service fail other than by a reply.
func FuzzRequest(f *testing.F) {
	f.Add([]byte(`{"id":1,"kind":"check","plan_rev":2}`), `{"type":"FeatureCollection","plan":{"version":1},"features":[]}`)
	f.Add([]byte(`{"id":2,"kind":"place","lon":-36,"lat":43,"time":1784340000}`), ``)
	f.Add([]byte(`{"id":3,"kind":"ribbon","text":"x"}`), `{`)
	f.Add([]byte(`{"id":4,"kind":"station","text":"noaa/8443970","lon":1e400}`), ``)
	f.Add([]byte(`{"id":5,"kind":"stations","lon":500,"lat":-91}`), ``)
	f.Add([]byte(`{"id":6,"kind":"put-set","set":"a","chart_rev":-1}`), ``)
	f.Fuzz(func(t *testing.T, head []byte, text string) {
		r, err := DecodeRequest(head, []layer.File{{Name: "x.geojson", Data: []byte(text)}}, map[string]string{"plan": text})
		if err != nil {
			return
		}
		again, texts, err := EncodeRequest(r)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := DecodeRequest(again, r.Files, texts); err != nil || back.Plan != r.Plan || back.Kind != r.Kind || back.ID != r.ID {
			t.Fatalf("%+v and %+v, %v", r, back, err)
		}
		host := newHost()
		s := New(host, func(string) ([]byte, error) { return nil, nil })
		err = s.guarded(&job{Request: r})
		if err != nil && strings.Contains(err.Error(), "A mistake within the program") {
			t.Fatal(err)
		}
		for _, reply := range host.all() {
			if b, err := EncodeReply(reply); err != nil {
				t.Fatal(err)
			} else if _, err := DecodeReply(b, reply.Texts); err != nil {
				t.Fatal(err)
			}
		}
	})
}
