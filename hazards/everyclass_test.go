package hazards

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
)

// planted is a class of the layer profile (section 2) with what makes it an
// object of its row, and what is wanted (plan-file contract, section 4) with it
// on the track, and beside the track so many metres off. "" wants nothing.
type planted struct {
	class, attributes string
	on                string
	besideM           float64
	beside            string
}

// Close by is 10 m (mark_off_m), the corridor 25 m.
const (
	closeByM  = 6.0
	outOffM   = 12.0 // beyond mark_off_m, within the corridor
	corridorM = 20.0
)

var everyClass = []planted{
	{"DEPARE", `"DRVAL1":-1,"DRVAL2":1`, "not-clear clearance", corridorM, "not-clear clearance"},
	{"DRGARE", `"DRVAL1":-1,"DRVAL2":1`, "not-clear clearance", corridorM, "not-clear clearance"},
	{"UNSARE", ``, "no-data clearance", corridorM, "no-data clearance"},
	{"LNDARE", ``, "not-clear land", corridorM, "not-clear land"},
	{"DEPCNT", `"VALDCO":0`, "not-clear clearance", corridorM, "not-clear clearance"},
	{"SOUNDG", `"VALSOU":-1`, "not-clear clearance", corridorM, "not-clear clearance"},
	{"UWTROC", `"WATLEV":4`, "not-clear hazard", corridorM, "not-clear hazard"},
	{"WRECKS", `"CATWRK":2`, "not-clear hazard", corridorM, "not-clear hazard"},
	{"OBSTRN", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"OBSTRN", `"CATOBS":7`, "care hazard", corridorM, "care hazard"},
	{"FLODOC", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"HULKES", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"PONTON", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"PILPNT", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"PYLONS", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"FSHFAC", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"OFSPLF", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"DAMCON", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"DYKCON", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"CAUSWY", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"LOGPON", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"MARCUL", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"OILBAR", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"RAPIDS", ``, "not-clear hazard", corridorM, "not-clear hazard"},
	{"ICEARE", ``, "care hazard", corridorM, "care hazard"},
	{"WATTUR", ``, "care hazard", corridorM, "care hazard"},
	{"MORFAC", ``, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":1`, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":2`, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":3`, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":4`, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":5`, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":6`, "not-clear hazard", closeByM, "not-clear hazard"},
	{"MORFAC", `"CATMOR":1`, "not-clear hazard", outOffM, ""},
	{"MORFAC", `"CATMOR":7`, "care mark", closeByM, "care mark"},
	{"MORFAC", `"CATMOR":7`, "care mark", outOffM, ""},
	{"LITFLT", ``, "not-clear hazard", closeByM, "care mark"},
	{"LITVES", ``, "not-clear hazard", closeByM, "care mark"},
	{"LITVES", ``, "not-clear hazard", outOffM, ""},
	{"BOYINB", ``, "care mark", closeByM, "care mark"},
	{"BOYINB", ``, "care mark", outOffM, ""},
	{"CRANES", ``, "not-clear hazard", closeByM, "not-clear hazard"},
	{"CRANES", `"VERCLR":50`, "not-clear hazard", outOffM, ""},
	{"CRANES", `"VERCLR":1`, "not-clear hazard", outOffM, "not-clear bridge"},
	{"DAYMAR", ``, "not-clear mark", closeByM, "not-clear mark"},
	{"DAYMAR", ``, "not-clear mark", outOffM, ""},
	{"BCNCAR", `"CATCAM":1`, "not-clear mark", closeByM, "not-clear mark"},
	{"BCNISD", ``, "not-clear mark", closeByM, "not-clear mark"},
	{"BCNISD", ``, "not-clear mark", outOffM, "care mark"},
	{"BCNLAT", `"CATLAM":1`, "not-clear mark", closeByM, "not-clear mark"},
	{"BCNLAT", `"CATLAM":1`, "not-clear mark", outOffM, ""},
	{"BCNSAW", ``, "not-clear mark", closeByM, "not-clear mark"},
	{"BCNSPP", ``, "not-clear mark", closeByM, "not-clear mark"},
	{"BCNSPP", ``, "not-clear mark", outOffM, ""},
	{"BOYCAR", `"CATCAM":3`, "not-clear mark", closeByM, "care mark"},
	{"BOYISD", ``, "care mark", closeByM, "care mark"},
	{"BOYISD", ``, "care mark", 30, "care mark"},
	{"BOYISD", ``, "care mark", 40, ""},
	{"BOYLAT", `"CATLAM":1`, "care mark", closeByM, "care mark"},
	{"BOYLAT", `"CATLAM":1`, "care mark", outOffM, ""},
	{"BOYSAW", ``, "care mark", closeByM, "care mark"},
	{"BOYSPP", ``, "care mark", closeByM, "care mark"},
	{"MIPARE", ``, "care no-entry", corridorM, "care no-entry"},
	{"SPLARE", ``, "care no-entry", corridorM, "care no-entry"},
	{"SUBTLN", ``, "care no-entry", corridorM, "care no-entry"},
	{"ISTZNE", ``, "care no-entry", corridorM, "care no-entry"},
	{"OSPARE", ``, "care no-entry", corridorM, "care no-entry"},
	{"ACHARE", `"INFORM":"INVENTED"`, "note no-entry", corridorM, "note no-entry"},
	{"GATCON", ``, "care no-entry", corridorM, "care no-entry"},
	{"TSSLPT", ``, "care no-entry", corridorM, "care no-entry"},
	{"TSEZNE", ``, "care no-entry", corridorM, "care no-entry"},
	{"COALNE", ``, "not-clear land", corridorM, "not-clear land"},
	{"SLCONS", ``, "not-clear land", corridorM, "not-clear land"},
	{"RESARE", `"RESTRN":["7"]`, "not-clear no-entry", corridorM, "care no-entry"},
	{"RESARE", `"RESTRN":["14"]`, "not-clear no-entry", corridorM, "care no-entry"},
	{"RESARE", `"RESTRN":["42"]`, "not-clear no-entry", corridorM, "care no-entry"},
	{"RESARE", `"RESTRN":["8"]`, "care no-entry", corridorM, "care no-entry"},
	{"RESARE", `"CATREA":["18"]`, "not-clear no-entry", corridorM, "care no-entry"},
	{"RESARE", `"CATREA":["14"]`, "not-clear no-entry", corridorM, "care no-entry"},
	{"RESARE", `"CATREA":["1"]`, "care no-entry", corridorM, "care no-entry"},
	{"RESARE", `"CATREA":["9"]`, "care no-entry", corridorM, "care no-entry"},
	{"RESARE", `"CATREA":["12"]`, "note no-entry", corridorM, "note no-entry"},
	{"RESARE", ``, "care no-entry", corridorM, "care no-entry"},
	{"MIPARE", `"RESTRN":["7"]`, "not-clear no-entry", corridorM, "care no-entry"},
	{"CTNARE", `"INFORM":"INVENTED"`, "note no-entry", corridorM, "note no-entry"},
	{"PRCARE", `"INFORM":"INVENTED"`, "note no-entry", corridorM, "note no-entry"},
	{"BRIDGE", `"VERCLR":1,"HORCLR":20`, "not-clear bridge", corridorM, "not-clear bridge"},
	{"CBLOHD", `"VERCSA":1`, "not-clear bridge", corridorM, "not-clear bridge"},
	{"PIPOHD", `"VERCLR":1`, "not-clear bridge", corridorM, "not-clear bridge"},
	{"CONVYR", `"VERCLR":1`, "not-clear bridge", corridorM, "not-clear bridge"},
}

// Every class of the profile that a leg has to know of, in every kind of geometry
// that S-57 allows for it, is named with the severity of the contract: on the
// track and beside it.
func TestEveryClassIsNamed(t *testing.T) {
	legal := legalGeometries(t)
	tried := 0
	for _, p := range everyClass {
		kinds := legal[p.class]
		if len(kinds) == 0 {
			t.Errorf("%s is no class of S-57", p.class)
		}
		for _, kind := range kinds {
			p.expect(t, kind, 0.5, p.on)
			p.expect(t, kind, p.besideM, p.beside)
			tried += 2
		}
	}
	t.Logf("%d objects planted", tried)
}

// expect plants the object so far off the track of day and wants the worst
// finding about it.
func (p planted) expect(t *testing.T, kind string, offM float64, want string) {
	t.Helper()
	what := fmt.Sprintf("%s {%s} as a %s %.1f m off", p.class, p.attributes, kind, offM)
	f := decoded(t, p.class, p.attributes, shapeOff(kind, offM))
	r := mustCheck(t, set(buoyage(1, 90), f), day())
	got := plan.Finding{Severity: plan.Clear}
	for _, f := range r.Findings {
		if f.Source != nil && f.Source.Class == p.class && (got.Severity == plan.Clear || worseThan(f.Severity, got.Severity)) {
			got = f
		}
	}
	if said := got.Severity.String() + " " + got.Check; got.Severity == plan.Clear && want != "" || got.Severity != plan.Clear && said != want {
		t.Errorf("%s: %q (%s: %s), want %q", what, said, got.Title, got.Detail, want)
	}
}

func worseThan(a, b plan.Severity) bool { return a != b && a.Worse(b) == a }

// shapeOff is a geometry whose nearest part is so many metres north of the track
// of day; nearer than a metre it is also across it.
func shapeOff(kind string, m float64) string {
	from, to := m, m+60
	if m < 1 && kind != "point" {
		from = -50
	}
	corner := func(x, m float64) orb.Point { return at(x, off(m)) }
	switch kind {
	case "point":
		return geoJSON("Point", corner(50, m))
	case "line":
		return geoJSON("LineString", []orb.Point{corner(50, from), corner(50, to)})
	}
	return geoJSON("Polygon", [][]orb.Point{{corner(49.9, from), corner(50.1, from), corner(50.1, to), corner(49.9, to), corner(49.9, from)}})
}

func geoJSON(kind string, coordinates any) string {
	b, _ := json.Marshal(map[string]any{"type": kind, "coordinates": coordinates})
	return string(b)
}

// decoded is the feature that the reader of layers makes of an object.
func decoded(t *testing.T, class, attributes, geometry string) chart.Feature {
	t.Helper()
	if attributes != "" {
		attributes = "," + attributes
	}
	text := `{"type":"FeatureCollection","features":[{"type":"Feature","geometry":` + geometry + `,"properties":{"_layer":"` + class + `"` + attributes + `}}]}`
	s, messages := layer.Decode([]layer.File{{Name: "planted.geojson", Data: []byte(text)}})
	if s == nil || len(s.Features) != 1 {
		t.Fatalf("%s: %v", text, messages)
	}
	return s.Features[0]
}

// legalGeometries are the kinds of geometry that S-57 allows for each class; the
// file names its source.
func legalGeometries(t *testing.T) map[string][]string {
	t.Helper()
	var table struct {
		Source  string
		Classes map[string]struct{ Geometry []string }
	}
	data, err := os.ReadFile("../geo/layer/testdata/s57_classes.json")
	if err == nil {
		err = json.Unmarshal(data, &table)
	}
	if err != nil || !strings.Contains(table.Source, "s57objectclasses.csv") {
		t.Fatal(err, table.Source)
	}
	out := map[string][]string{}
	for name, c := range table.Classes {
		out[name] = c.Geometry
	}
	out["DEPARE"] = []string{"area"} // a line says nothing that the areas beside it do not (layer profile, section 2)
	return out
}
