package geojson

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/paulmach/orb"
)

// The examples of RFC 7946 appendix A, coordinates as published there.
var examples = []struct {
	text     string
	want     Geometry
	polygons []int
}{
	{`{"type":"Point","coordinates":[100.0,0.0]}`, Geometry{Type: Point, Positions: []orb.Point{{100, 0}}}, nil},
	{`{"type":"LineString","coordinates":[[100.0,0.0],[101.0,1.0]]}`,
		Geometry{Type: LineString, Positions: []orb.Point{{100, 0}, {101, 1}}, Ends: []int{2}}, nil},
	{`{"type":"Polygon","coordinates":[[[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]],
	   [[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]]}`,
		Geometry{Type: Polygon, Positions: []orb.Point{{100, 0}, {101, 0}, {101, 1}, {100, 1}, {100, 0},
			{100.8, 0.8}, {100.8, 0.2}, {100.2, 0.2}, {100.2, 0.8}, {100.8, 0.8}}, Ends: []int{5, 10}}, []int{2}},
	{`{"type":"MultiPoint","coordinates":[[100.0,0.0],[101.0,1.0]]}`,
		Geometry{Type: MultiPoint, Positions: []orb.Point{{100, 0}, {101, 1}}}, nil},
	{`{"type":"MultiLineString","coordinates":[[[100.0,0.0],[101.0,1.0]],[[102.0,2.0],[103.0,3.0]]]}`,
		Geometry{Type: MultiLineString, Positions: []orb.Point{{100, 0}, {101, 1}, {102, 2}, {103, 3}}, Ends: []int{2, 4}}, nil},
	{`{"type":"MultiPolygon","coordinates":[[[[102.0,2.0],[103.0,2.0],[103.0,3.0],[102.0,3.0],[102.0,2.0]]],
	   [[[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]],[[100.2,0.2],[100.2,0.8],[100.8,0.8],[100.8,0.2],[100.2,0.2]]]]}`,
		Geometry{Type: MultiPolygon, Positions: []orb.Point{{102, 2}, {103, 2}, {103, 3}, {102, 3}, {102, 2},
			{100, 0}, {101, 0}, {101, 1}, {100, 1}, {100, 0}, {100.2, 0.2}, {100.2, 0.8}, {100.8, 0.8}, {100.8, 0.2}, {100.2, 0.2}},
			Ends: []int{5, 10, 15}}, []int{1, 3}},
	{`{"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[100.0,0.0]}]}`, Geometry{Type: GeometryCollection}, nil},
	{`null`, Geometry{}, nil},
	// Not of the RFC: members in another order, odd white space, third numbers.
	{` { "bbox" : [1,2,3,4], "coordinates" : [ [ 100 , 0 ] ,
	  [101.0e0,1,9] ] , "type" : "LineString" } `,
		Geometry{Type: LineString, Positions: []orb.Point{{100, 0}, {101, 1}}, Z: []float64{math.NaN(), 9}, Ends: []int{2}}, nil},
	{`{"type":"MultiPoint","coordinates":[[1,2,3],[4,5,-6.5],[7,8]]}`,
		Geometry{Type: MultiPoint, Positions: []orb.Point{{1, 2}, {4, 5}, {7, 8}}, Z: []float64{3, -6.5, math.NaN()}}, nil},
	{`{"type":"Point","coordinates":[1,2,3,4,5]}`, Geometry{Type: Point, Positions: []orb.Point{{1, 2}}, Z: []float64{3}}, nil},
	{`{"type":"LineString","coordinates":[]}`, Geometry{Type: LineString, Ends: []int{0}}, nil},
	{`{"type":"MultiPolygon","coordinates":[[],[[]]]}`, Geometry{Type: MultiPolygon, Ends: []int{0}}, []int{0, 1}},
}

func sameGeometry(a, b *Geometry) bool {
	sameZ := slices.EqualFunc(a.Z, b.Z, func(x, y float64) bool { return x == y || x != x && y != y })
	return a.Type == b.Type && slices.Equal(a.Positions, b.Positions) && sameZ &&
		slices.Equal(a.Ends, b.Ends) && slices.Equal(a.Polygons, b.Polygons)
}

func TestGeometry(t *testing.T) {
	var g Geometry // used again for each: nothing of the one before may stay
	for _, tt := range examples {
		tt.want.Polygons = tt.polygons
		r := NewReader([]byte(tt.text))
		err := r.Geometry(&g)
		if err == nil {
			err = r.End()
		}
		if err != nil || !sameGeometry(&g, &tt.want) {
			t.Errorf("%s: %v\ngot  %+v\nwant %+v", tt.text, err, g, tt.want)
		}
	}
}

func TestGeometryRefused(t *testing.T) {
	tests := []struct{ text, path, msg string }{
		{`{"type":"LineString","coordinates":[[1,2],[3]]}`, "coordinates[1]", "a position of 1 numbers; [longitude, latitude] is wanted"},
		{`{"type":"LineString","coordinates":[[1,2],[]]}`, "coordinates[1]", "a position of 0 numbers; [longitude, latitude] is wanted"},
		{`{"type":"LineString","coordinates":[[1,2],[3,"4"]]}`, "coordinates[1][1]", `the text "4"; a number is wanted`},
		{`{"type":"LineString","coordinates":[[1,2],[3,null]]}`, "coordinates[1][1]", `null; a number is wanted`},
		{`{"type":"LineString","coordinates":[[1,2],[3,1e999]]}`, "coordinates[1][1]", `the number 1e999; a number below 1.8e308 is wanted`},
		{`{"type":"LineString","coordinates":[[1,2],[3,4,"deep"]]}`, "coordinates[1][2]", `the text "deep"; a number is wanted`},
		{`{"type":"LineString","coordinates":[1,2]}`, "coordinates[0]", "the number 1 in a LineString; a position [longitude, latitude] is wanted"},
		{`{"type":"LineString","coordinates":[[[1,2],[3,4]]]}`, "coordinates[0][0]", "an array; a number is wanted"},
		{`{"type":"Point","coordinates":[[1,2]]}`, "coordinates[0]", "an array; a number is wanted"},
		{`{"type":"Point","coordinates":null}`, "coordinates", "null in a Point; a position [longitude, latitude] is wanted"},
		{`{"type":"Polygon","coordinates":[[1,2],[3,4]]}`, "coordinates[0][0]", "the number 1 in a Polygon; a position [longitude, latitude] is wanted"},
		{`{"type":"Polygon","coordinates":{}}`, "coordinates", "an object; an array is wanted"},
		{`{"type":"MultiPolygon","coordinates":[[[1,2]]]}`, "coordinates[0][0][0]", "the number 1 in a MultiPolygon; a position [longitude, latitude] is wanted"},
		{`{"coordinates":[[1,2],[3]],"type":"LineString"}`, "coordinates[1]", "a position of 1 numbers; [longitude, latitude] is wanted"},
		{`{"type":"Circle","coordinates":[1,2]}`, "type", `the text "Circle"; a geometry type such as Point, LineString or Polygon is wanted`},
		{`{"type":7,"coordinates":[1,2]}`, "type", "the number 7; a text is wanted"},
		{`{"coordinates":[1,2]}`, "", "a geometry without type; Point, LineString, Polygon or the like is wanted"},
		{`{"type":"Point"}`, "", "a Point without coordinates; they are wanted"},
		{`[1,2]`, "", "an array; an object is wanted"},
	}
	for _, tt := range tests {
		r := NewReader([]byte("[" + tt.text + ",1]"))
		var g Geometry
		var wrong *ValueError
		err := r.Array(func(i int) error {
			if i == 1 {
				_, err := r.Number() // reading goes on behind the geometry
				return err
			}
			if err := r.Geometry(&g); !errors.As(err, &wrong) {
				t.Errorf("%s: error %v", tt.text, err)
			}
			return nil
		})
		if err != nil || wrong == nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		path := "[0]"
		if tt.path != "" {
			path += "." + tt.path
		}
		if wrong.Path != path || wrong.Msg != tt.msg {
			t.Errorf("%s\ngot  %s: %s\nwant %s: %s", tt.text, wrong.Path, wrong.Msg, path, tt.msg)
		}
		if g.Type != "" || len(g.Positions) != 0 {
			t.Errorf("%s: left %+v", tt.text, g)
		}
	}
}

// TestGeometryNotJSON: what is not JSON within coordinates is a SyntaxError.
func TestGeometryNotJSON(t *testing.T) {
	for _, coordinates := range []string{
		`[[1,2],]`, `[[1,2] [3,4]]`, `[[1,2],[3,4,]]`, `[[1,2],[3,NaN]]`, `[[1,2],[3,04]]`, `[[1,2],[3,.5]]`, `[[1,2],[3,5.]]`,
		`[[1,2],[3,+5]]`, `[[1,2],[3,1e]]`, `[[1,2],[3,5`, `[[1,2],[3,5]`, `[[1,2],`, `[[1,2]`, `[[1,2],[3 5]]`, `[[1,2],[-,5]]`,
		`[[1,2],[3,Infinity]]`, `[[1,2],[3,0x5]]`, `[[1,2}]`, `[[1,2],[3,5}]`, `[,[1,2]]`, `[[,1,2]]`, `[[1,,2]]`,
	} {
		r := NewReader([]byte(`{"type":"LineString","coordinates":` + coordinates + `}`))
		err := r.Geometry(new(Geometry))
		var syntax *SyntaxError
		if !errors.As(err, &syntax) {
			t.Errorf("%s: error %v; a SyntaxError is wanted", coordinates, err)
		}
	}
}

func TestPositionLimit(t *testing.T) {
	text := `[{"type":"LineString","coordinates":[[1,2],[3,4]]},{"type":"MultiPoint","coordinates":[[5,6],[7,8]]}]`
	for limit, fits := range map[int]bool{0: true, 4: true, 3: false, 1: false} {
		r := NewReader([]byte(text))
		r.LimitPositions(limit)
		err := r.Array(func(int) error { return r.Geometry(new(Geometry)) })
		var tooMany *LimitError
		if fits != (err == nil) || !fits && !errors.As(err, &tooMany) {
			t.Errorf("limit %d: %v", limit, err)
		}
		if fits && r.PositionCount() != 4 {
			t.Errorf("limit %d: %d positions", limit, r.PositionCount())
		}
	}
}

// TestGeometryWritten: written and read again, every example is the same but for
// the direction of rings, and orb agrees with encoding/json.
func TestGeometryWritten(t *testing.T) {
	for _, tt := range examples {
		var g, again Geometry
		if err := NewReader([]byte(tt.text)).Geometry(&g); err != nil {
			t.Fatal(err)
		}
		if len(g.Positions) == 0 {
			continue
		}
		text := ValueOf(g.Orb(), 7).AppendJSON(nil)
		if err := NewReader(text).Geometry(&again); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		again.Z = g.Z
		if !sameGeometry(&g, &again) {
			t.Errorf("%s became %s", tt.text, text)
		}
	}
}

func TestRingsAreClosedAndTurned(t *testing.T) {
	// RFC 7946 section 3.1.6: outer rings counter-clockwise, inner ones clockwise.
	area := orb.Polygon{
		{{0, 0}, {0, 9}, {9, 9}, {9, 0}},
		{{1, 1}, {2, 1}, {2, 2}, {1, 1}},
	}
	want := `{"type":"Polygon","coordinates":[[[0,0],[9,0],[9,9],[0,9],[0,0]],[[1,1],[2,2],[2,1],[1,1]]]}`
	if got := string(ValueOf(area, 0).AppendJSON(nil)); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if area[0][1] != (orb.Point{0, 9}) || len(area[0]) != 4 {
		t.Errorf("the argument was changed: %v", area)
	}
}

func TestGeometriesThatCannotBeWritten(t *testing.T) {
	for _, g := range []orb.Geometry{
		nil, orb.LineString{}, orb.Polygon{}, orb.Collection{}, orb.Point{nan(), 1}, orb.LineString{{1, 2}, {3, math.Inf(1)}},
	} {
		if v := ValueOf(g, 7); v.Kind != Null {
			t.Errorf("%v: %s", g, v.AppendJSON(nil))
		}
	}
}

// FuzzGeometry: no text panics, and positions are those of encoding/json.
func FuzzGeometry(f *testing.F) {
	for _, tt := range examples {
		f.Add([]byte(tt.text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		var g Geometry
		r := NewReader(b)
		if r.Geometry(&g) != nil || r.End() != nil {
			return
		}
		var want struct {
			Type        string
			Coordinates json.RawMessage
		}
		plain := b[len(b)-len(NewReader(b).in.src[NewReader(b).in.pos:]):]
		var members map[string]json.RawMessage
		if err := json.Unmarshal(plain, &members); err != nil {
			t.Fatalf("%q: accepted, but encoding/json says %v", b, err)
		}
		json.Unmarshal(members["type"], &want.Type)
		if g.Type != want.Type {
			t.Fatalf("%q: type %q, want %q", b, g.Type, want.Type)
		}
		if g.Type == LineString || g.Type == MultiPoint {
			var line [][]float64
			if err := json.Unmarshal(members["coordinates"], &line); err != nil {
				t.Fatalf("%q: %v", b, err)
			}
			got := make([][]float64, 0)
			for i, p := range g.Positions {
				got = append(got, append([]float64{p[0], p[1]}, line[i][2:]...))
			}
			if len(line) > 0 && !reflect.DeepEqual(got, line) {
				t.Fatalf("%q: %v, want %v", b, got, line)
			}
		}
		_ = ValueOf(g.Orb(), 7).AppendJSON(nil)
	})
}
