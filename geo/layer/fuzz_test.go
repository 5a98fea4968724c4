package layer

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// Whatever bytes come: no panic, nothing beyond the limits, and what is loaded
// is in range and well formed.
func FuzzDecode(f *testing.F) {
	for _, text := range []string{
		``, `{}`, `[`, doc(aPoint, `"OBJL":71`), doc(anArea, `"OBJL":42,"DRVAL1":1.8,"DRVAL2":"3.6"`), doc(openArea, `"depthMin":1,"depthMax":2`),
		doc(aLine, `"OBJL":43,"VALDCO":"2,5"`), docs(`"layer":{"depthSign":"up","depthUnit":"fm"},`, feature(aLine, `"depth":-5`)),
		doc(`{"type":"MultiPoint","coordinates":[[10,50,2.4],[10,51,-0.5]]}`, `"OBJL":129`),
		doc(anArea, `"objectClass":"RESARE","RESTRN":["27"],"vesselSpeedLimit":[{"speedLimit":6,"speedUnits":4}],"PERSTA":"--0515","PEREND":"--0930"`),
		docs(`"name":"DSID",`, feature(`null`, `"DSPM_SDAT":12,"DSPM_HDAT":1`)),
		`{"type":"FeatureCollection","features":[` + feature(aLine, `"depth":-5`) + `],"layer":{"depthSign":"up"}}`,
		doc(aPoint, `"objectClass":"Rock","VALSOU":-0.5`), doc(aPoint, `"objl":159,"valsou":"0.4"`), doc(aPoint, `"OBJL":17011,"VERCLR":3`), doc(aPoint, `"OBJL":14,"CATCAM":"n"`),
		doc(`{"coordinates":[[[[0,0],[9,9],[9,0],[0,9],[0,0]]]],"type":"MultiPolygon"}`, `"OBJL":71`),
	} {
		f.Add("x.geojson", []byte(text))
	}
	addExamples(f)
	lim := limits{1 << 20, 50, 400}
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		set, messages := decode([]File{{name, data}, {"b.geojson", []byte(doc(aPoint, `"OBJL":71`))}}, lim)
		checkResult(t, set, messages, lim)
		private, messages := Private(name, []PlanFeature{{"features[0]", data}})
		checkResult(t, private, messages, profileLimits)
		if set != nil {
			SwapHints(set, []*chart.Set{private, set}[min(1, len(name)):])
		}
	})
}

// addExamples takes the small examples as seeds, where they lie beside the
// repository.
func addExamples(f *testing.F) {
	dir := filepath.Join("..", "..", "..", "shared", "charts", "examples")
	for _, sub := range []string{dir, filepath.Join(dir, "errors")} {
		entries, _ := os.ReadDir(sub)
		for _, e := range entries {
			if data, err := os.ReadFile(filepath.Join(sub, e.Name())); err == nil && len(data) < 4000 {
				f.Add(e.Name(), data)
			}
		}
	}
}

func checkResult(t *testing.T, set *chart.Set, messages []chart.Message, lim limits) {
	t.Helper()
	fatal := false
	counts := map[string]int{}
	for _, m := range messages {
		fatal = fatal || m.Level == chart.FileError
		if counts[m.Code+m.Level.String()+causeOf(&m)]++; m.Code == "" || m.Found == "" || m.Wanted == "" {
			t.Errorf("message %+v", m)
		}
	}
	for code, n := range counts {
		if n > 2*(Listed+1) { // of a cause, and among the others of the code
			t.Errorf("%d messages of %s", n, code)
		}
	}
	if (set == nil) != fatal {
		t.Fatalf("set %v, messages %v", set, messages)
	}
	if set == nil {
		return
	}
	if len(set.Features) > lim.features {
		t.Errorf("%d features", len(set.Features))
	}
	n := 0
	for i := range set.Features {
		f := &set.Features[i]
		n += len(f.Coords)
		checkFeature(t, f)
	}
	if n > 2*lim.positions { // closing a ring adds one
		t.Errorf("%d positions", n)
	}
}

func checkFeature(t *testing.T, f *chart.Feature) {
	t.Helper()
	for _, c := range f.Coords {
		if max(c.Lon, -c.Lon) > halfCircle || max(c.Lat, -c.Lat) > halfCircle/2 {
			t.Errorf("%v is off the globe", c)
		}
	}
	for _, d := range append([]float64{f.DepthMinM, f.DepthMaxM}, f.DepthsM...) {
		if !math.IsNaN(d) && (d < -20 || d > 12000) {
			t.Errorf("depth %v", d)
		}
	}
	last := int32(0)
	f.Parts(func(part []chart.Coord) {
		last += int32(len(part))
		if least := map[chart.Prim]int{chart.Line: 2, chart.Area: 4}[f.Prim]; len(part) < least || f.Prim == chart.Area && part[0] != part[len(part)-1] {
			t.Errorf("%v part %v", f.Prim, part)
		}
	})
	switch {
	case f.Prim == chart.None || len(f.Coords) == 0:
		t.Errorf("a feature without a place: %+v", f)
	case f.Prim == chart.Point && len(f.Ends) != 0, f.Prim != chart.Point && int(last) != len(f.Coords):
		t.Errorf("ends %v of %d", f.Ends, len(f.Coords))
	case f.Class == chart.SOUNDG && len(f.DepthsM) != len(f.Coords), f.Class != chart.SOUNDG && f.DepthsM != nil:
		t.Errorf("class %d with depths %v", f.Class, f.DepthsM)
	}
	if f.Rules != nil {
		for _, l := range f.Rules.Limits {
			if !(l.Kn > 0 && l.Kn <= 100) {
				t.Errorf("limit %v", l)
			}
		}
	}
	if strings.ContainsAny(f.File, `/\`) {
		t.Errorf("file %q", f.File)
	}
}
