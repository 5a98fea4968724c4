package engine

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
	"keelroom/hazards/tide/stationdata"
)

// The list by name and by place: Boston, Mayport and Newlyn are where they are
// (positions of the publishers: NOAA CO-OPS, TICON-4).
func TestFindStations(t *testing.T) {
	h := newHost()
	s := start(t, h)
	lon, lat := -71.05, 42.35
	s.Handle(Request{ID: 1, Kind: FindStations, Text: "8443970", Lon: &lon, Lat: &lat})
	found := body[StationsBody](t, h.end(t, 1)).Stations
	if len(found) == 0 || found[0].ID != "noaa/8443970" || found[0].Km == nil || *found[0].Km > 2 || found[0].Datum != "MLLW" || found[0].Kind != "harmonic" {
		t.Errorf("%+v", found)
	}
	s.Handle(Request{ID: 2, Kind: FindStations, Lon: &lon, Lat: &lat})
	near := body[StationsBody](t, h.end(t, 2)).Stations
	if len(near) != 20 || near[0].ID != "noaa/8443970" {
		t.Errorf("%d near Boston, the first %+v", len(near), near[0])
	}
	for i := 1; i < len(near); i++ {
		if *near[i].Km < *near[i-1].Km {
			t.Errorf("station %d is nearer than the one before", i)
		}
	}
	s.Handle(Request{ID: 3, Kind: FindStations, Text: "newlyn"})
	if found := body[StationsBody](t, h.end(t, 3)).Stations; len(found) == 0 || found[0].Km != nil || !strings.Contains(strings.ToLower(found[0].Name), "newlyn") {
		t.Errorf("%+v", found)
	}
	for id, q := range map[int]Request{4: {Kind: FindStations}, 5: {Kind: FindStations, Lon: &lon}, 6: {Kind: OneStation, Text: "none"}} {
		q.ID = id
		s.Handle(q)
		if r := h.end(t, id); r.State != Failed || r.Words == "" {
			t.Errorf("%+v: %s %q", q, r.State, r.Words)
		}
	}
}

// A station's tide in a plan gives the station's own heights; harmonic and
// subordinate ones, with attribution and licence.
func TestOneStation(t *testing.T) {
	list, err := tide.LoadStations(stationdata.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	h := newHost()
	s := start(t, h)
	secondary := ""
	for _, f := range list.Near([2]float64{-71.05, 42.35}, 200) {
		if f.Subordinate {
			secondary = f.ID
			break
		}
	}
	for i, id := range []string{"noaa/8443970", secondary} {
		st, _ := list.Station(id)
		s.Handle(Request{ID: i + 1, Kind: OneStation, Text: id})
		b := body[StationBody](t, h.end(t, i+1))
		if b.Name != st.Name || b.Licence != st.Licence || b.Attribution != st.Attribution || b.DatumName != "mean lower low water" {
			t.Errorf("%+v", b)
		}
		p := planWithTide(t, b.Tide)
		ours, err := hazards.NewTide(p.Tide)
		if err != nil {
			t.Fatal(err)
		}
		theirs, err := st.Tide()
		if err != nil {
			t.Fatal(err)
		}
		for k := range 200 {
			at := time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(k) * 37 * time.Minute)
			a, okA := ours.HeightM(at)
			b, okB := theirs.HeightM(at)
			if okA != okB || math.Abs(a-b) > 1e-9 {
				t.Fatalf("%s at %v: %.4f m in the plan, %.4f m of the station", id, at, a, b)
			}
		}
		if p.Tide.Position == nil || *p.Tide.Position != st.Position || p.Tide.ZoneName != "America/New_York" {
			t.Errorf("%s: at %v in %q", id, p.Tide.Position, p.Tide.ZoneName)
		}
		for number, name := range map[int]string{16: "MHW", 21: "MHHW", 3: "MSL"} {
			want, known := st.LevelM(name)
			got, ok := p.Tide.LevelOf(number)
			if ok != known || got != want {
				t.Errorf("%s: %s %g, %v above its datum; the station has %g, %v", id, name, got, ok, want, known)
			}
		}
		if p.Tide.HeightDatumM != nil {
			t.Errorf("%s: a height datum that would stay when the charts change", id)
		}
		if p.Tide.DatumOf() != 12 {
			t.Errorf("%s: datum %d", id, p.Tide.DatumOf())
		}
	}
}

// planWithTide reads a tide as a plan's.
func planWithTide(t *testing.T, source json.RawMessage) *plan.Plan {
	t.Helper()
	p, err := plan.DecodeDraft([]byte(`{"type":"FeatureCollection","plan":{"version":1,"tide":` + string(source) + `},"features":[]}`))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Every station of the list makes a tide that a plan takes, and none gets a
// datum that it does not have.
func TestEveryStation(t *testing.T) {
	list, err := tide.LoadStations(stationdata.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	all := list.Near([2]float64{0, 0}, list.Len())
	for _, f := range all[:len(all):len(all)] {
		st, _ := list.Station(f.ID)
		source, err := TideOf(list, st)
		if err != nil {
			t.Fatalf("%s: %v", f.ID, err)
		}
		if _, err := hazards.NewTide(source); err != nil {
			t.Fatalf("%s: %v", f.ID, err)
		}
		if source.DatumOf() != st.VERDAT {
			t.Fatalf("%s: datum %d in the plan, %d of the station", f.ID, source.DatumOf(), st.VERDAT)
		}
	}
	t.Logf("%d stations", len(all))
}

func TestAskPlace(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	p := planOf(t, demoPlan(t))
	at := p.Routes()[0].Points[6]
	s.Handle(Request{ID: 2, Kind: AskPlace, Lon: &at[0], Lat: &at[1], Time: p.Routes()[0].Depart.Unix(), Plan: demoPlan(t)})
	b := body[PlaceBody](t, h.end(t, 2))
	if b.DepthMinM == nil || b.TideM == nil || b.WaterM == nil || len(b.Lines) < 3 {
		t.Errorf("%+v", b)
	}
	s.Handle(Request{ID: 3, Kind: AskPlace, Lon: &at[0], Lat: &at[1], Plan: "{"})
	if b := body[PlaceBody](t, h.end(t, 3)); b.DepthMinM == nil || b.WaterM != nil || !strings.Contains(strings.Join(b.Lines, " "), "cannot be read") {
		t.Errorf("without a plan: %+v", b)
	}
	s.Handle(Request{ID: 4, Kind: AskPlace})
	if r := h.end(t, 4); r.State != Failed {
		t.Errorf("no position: %s", r.State)
	}
}
