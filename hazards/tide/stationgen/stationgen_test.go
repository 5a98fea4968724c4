package main

import (
	"math"
	"strings"
	"testing"

	"keelroom/hazards/tide"
)

// invented are records of invented stations, as the dump has them.
const invented = `
{"id":"x/haven","kind":"tide","type":"reference","name":"Invented Haven","country":"Inventia","latitude":50.5,"longitude":-3.25,"timezone":"UTC","source":"TICON-4","licence":"cc-by-4.0","attribution":"Invented","note":"No obvious issues <b>at all</b>","chart_datum":"LAT","datums":{"LAT":0.1000000014,"MSL":2.5,"MHW":4.1},"epoch":{"start":"2021-03-01","end":"2024-02-20"},"constituents":[{"Name":"M2","Amplitude":1.71162,"Phase":133.712},{"Name":"M1","Amplitude":0.02,"Phase":300},{"Name":"T3","Amplitude":0.001,"Phase":10},{"Name":"2MO5","Amplitude":0.004,"Phase":45.04}]}
{"id":"x/quay","kind":"tide","type":"subordinate","name":"Invented Quay","country":"Inventia","latitude":50.6,"longitude":-3.3,"timezone":"UTC","source":"Invented office","licence":"public domain","attribution":"Invented","chart_datum":"LAT","datums":{"LAT":0,"MSL":2},"epoch":{"start":"1983-01-01","end":"2001-12-31"},"offsets":{"reference":"x/haven","height":{"high":0.77,"low":0.9,"type":"ratio"},"time":{"high":-16,"low":11}},"constituents":[]}
{"id":"x/sold","kind":"tide","type":"reference","licence":"cc-by-nc-4.0"}
{"id":"x/race","kind":"current","licence":"public domain"}
{"id":"x/lost","kind":"tide","type":"reference","licence":"public domain","chart_datum":"STND","datums":{},"constituents":[{"Name":"M2","Amplitude":1,"Phase":1}]}
{"id":"x/orphan","kind":"tide","type":"subordinate","licence":"public domain","chart_datum":"LAT","datums":{"LAT":0,"MSL":1},"offsets":{"reference":"x/lost","height":{"high":1,"low":1,"type":"fixed"}}}
`

func TestGenerate(t *testing.T) {
	all, err := readDump(strings.NewReader(strings.TrimSpace(invented)))
	if err != nil {
		t.Fatal(err)
	}
	kept, left := choose(all)
	if len(kept) != 2 || kept[0].ID != "x/haven" || kept[1].ID != "x/quay" {
		t.Fatalf("kept %v", kept)
	}
	for reason, id := range map[string]string{
		"licence cc-by-nc-4.0":                             "x/sold",
		"kind current (not a height)":                      "x/race",
		"height of mean sea level above its datum unknown": "x/lost",
		"its reference was left out":                       "x/orphan",
	} {
		if ids := left.reasons[reason]; len(ids) != 1 || ids[0] != id {
			t.Errorf("%s: %v, want %s", reason, ids, id)
		}
	}
	for i := range kept {
		kept[i].tidy()
	}
	data := encode(kept)
	var said strings.Builder
	if err := verify(data, kept, &said); err != nil {
		t.Fatal(err, said.String())
	}
	checkRead(t, data)
}

func checkRead(t *testing.T, data []byte) {
	t.Helper()
	list, err := tide.LoadStations(data)
	if err != nil {
		t.Fatal(err)
	}
	haven, _ := list.Station("x/haven")
	z0, cs, ok := haven.Constituents()
	want := []tide.Constituent{{Name: "M2", AmplitudeM: 1.7116, PhaseDeg: 133.71}, {Name: "M1", AmplitudeM: 0.02, PhaseDeg: 30}, {Name: "2MO5", AmplitudeM: 0.004, PhaseDeg: 316}} // 4 mm are stored to 2 degrees
	if !ok || z0 != 2.4 || len(cs) != len(want) {
		t.Fatalf("%g, %v", z0, cs)
	}
	for i := range want {
		if cs[i] != want[i] {
			t.Errorf("%v, want %v", cs[i], want[i])
		}
	}
	if !haven.DatumEstimated || haven.Note != "at all" || haven.VERDAT != 23 {
		t.Errorf("%+v", haven)
	}
	if r := haven.Record; r.Years != 3 || r.LeftOutM != 0.001 || !strings.Contains(r.LeftOut, "T3") {
		t.Errorf("%+v", r)
	}
	quay, _ := list.Station("x/quay")
	high, low, _ := quay.Differences()
	if high != (tide.Difference{Minutes: -16, Factor: 0.77}) || low != (tide.Difference{Minutes: 11, Factor: 0.9}) || quay.Reference != "x/haven" || quay.DatumEstimated {
		t.Errorf("%+v, %v, %v", quay, high, low)
	}
	if mhw, ok := quay.LevelM("MHW"); !ok || math.Abs(mhw-0.77*4.0) > 1e-9 {
		t.Errorf("MHW %g, %v", mhw, ok)
	}
}

func TestReadDumpError(t *testing.T) {
	if _, err := readDump(strings.NewReader("{}\n{\n")); err == nil || !strings.Contains(err.Error(), "line 2") {
		t.Errorf("error %v, want the line in it", err)
	}
}
