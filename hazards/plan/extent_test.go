package plan

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

// along is a day of one route through these places.
func along(points ...orb.Point) *Plan {
	depart := time.Date(2026, 7, 18, 10, 0, 0, 0, time.UTC)
	p := New()
	p.Zone, p.ZoneName = time.UTC, "UTC"
	p.Boat.DraughtM, p.Boat.CruiseKn = 1, 20
	p.Parts = []Part{{Route: &Route{Name: "out", Depart: &depart, Points: points}}}
	return p
}

// One degree of longitude on the equator is 60.1077 nm (WGS 84: the radius there
// is 6 378 137 m, NGA.STND.0036; 2π·6 378 137/360/1 852), so 200 nm are 3.32736°.
const limitDeg = 3.32736

// A leg of over 200 nm, or a day of over 1 000 nm, is asked about by its leg and
// waypoint; the bound itself is taken.
func TestLongLegsAreAskedAbout(t *testing.T) {
	eastward := func(degrees ...float64) (points []orb.Point) {
		for _, d := range degrees {
			points = append(points, orb.Point{d, 0})
		}
		return points
	}
	day := []float64{0, 3, 5, 7, 9, 11, 13, 15, 16.636} // 1 000 nm are 16.6368°
	longer := append(append([]float64(nil), day...), 16.6375)
	for name, c := range map[string]struct {
		points []orb.Point
		path   string   // "" for no question
		words  []string // said in it
	}{
		"just 200 nm":      {eastward(0, limitDeg-0.0001), "", nil},
		"just over 200 nm": {eastward(0, limitDeg+0.0001), "[1]", []string{"leg 1", "waypoint 2", "is a sign or a digit wrong?"}},
		"just 1 000 nm":    {eastward(day...), "", nil},
		"over 1 000 nm":    {eastward(longer...), "[1]", []string{"1000 nm", "leg 1", "is a sign or a digit wrong?"}},
		// The one waypoint between two long legs is the one that is out.
		"in the midst": {[]orb.Point{{-36.1, 43}, {-36.0, 43.1}, {43.1, -36.0}, {-35.9, 43.1}}, "[2]", []string{"leg 2", "waypoint 3", "36.0000° S", "43.1000° E", "longitude and latitude exchanged"}},
		"a sign":       {[]orb.Point{{-36.1, 43}, {36.0, 43.1}, {-35.9, 43.1}}, "[1]", []string{"waypoint 2", "is a sign or a digit wrong?"}},
		"the first":    {[]orb.Point{{43, -36.1}, {-36.0, 43.1}, {-35.9, 43.1}}, "[0]", []string{"leg 1", "waypoint 1", "longitude and latitude exchanged"}},
		"the last":     {[]orb.Point{{-36.1, 43}, {-36.0, 43.1}, {43.1, -35.9}}, "[2]", []string{"leg 2", "waypoint 3"}},
		// Over the antimeridian the way is short.
		"across 180°": {[]orb.Point{{179.9, 0}, {-179.9, 0}}, "", nil},
	} {
		err := along(c.points...).Validate()
		var wrong *Errors
		if c.path == "" {
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		if !errors.As(err, &wrong) || len(wrong.List) != 1 {
			t.Errorf("%s: got %v; one question is wanted", name, err)
			continue
		}
		q := wrong.List[0]
		if want := "features[0].geometry.coordinates" + c.path; q.Path != want || !q.Question {
			t.Errorf("%s: at %s, question %t; %s is wanted", name, q.Path, q.Question, want)
		}
		for _, word := range c.words {
			if !strings.Contains(q.Msg, word) {
				t.Errorf("%s: %q lacks %q", name, q.Msg, word)
			}
		}
	}
}

// A draft with such a leg opens all the same: the waypoint can be mended.
func TestLongLegsOpenAsADraft(t *testing.T) {
	b, err := Encode(along(orb.Point{-36, 43}, orb.Point{43, -36}))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := DecodeDraft(b); err != nil {
		t.Error(err)
	}
	if _, err := Decode(b); err == nil {
		t.Error("taken for a check")
	}
}
