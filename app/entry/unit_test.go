package entry

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestFigures(t *testing.T) {
	for _, test := range []struct {
		read func(string) (float64, error)
		text string
		want float64
	}{
		{Metres, "1.5", 1.5}, {Metres, "1,5 m", 1.5}, {Metres, " 0.9m ", 0.9}, {Metres, "-0,3", -0.3}, {Metres, "−0.3 m", -0.3}, {Metres, "+2 metres", 2}, {Metres, "2 m.", 2},
		{Knots, "22", 22}, {Knots, "22.5 kn", 22.5}, {Knots, "7kt", 7}, {Litres, "190 l", 190}, {Litres, "190L", 190}, {Minutes, "15 min", 15}, {Minutes, "-20", -20},
		{Degrees, "225", 225}, {Degrees, "225°", 225}, {Degrees, "225 T", 225}, {Degrees, "sw", 225}, {Degrees, "0", 0}, {Degrees, "360", 360}, {Degrees, "7.5 deg", 7.5},
	} {
		got, err := test.read(test.text)
		if err != nil || got != test.want {
			t.Errorf("%q: %v, %v; want %v", test.text, got, err, test.want)
		}
	}
}

// Another unit is refused and its conversion offered. Factors: NIST SP 811 (2008),
// appendix B.8 and B.9: foot 0.3048 m, nautical mile 1852 m, mile 1609.344 m, fathom
// (6 international feet) 1.8288 m, gallon 3.785412 l and 4.54609 l, knot 0.5144444 m/s.
func TestOtherUnits(t *testing.T) {
	for _, test := range []struct {
		read  func(string) (float64, error)
		text  string
		offer string
		exact float64
	}{
		{Metres, "3 ft", "0.91 m", 3 * 0.3048}, {Metres, "10'", "3.05 m", 3.048}, {Metres, "2 fathoms", "3.66 m", 3.6576}, {Metres, "1 nm", "1852 m", 1852},
		{Metres, "80 cm", "0.8 m", 0.8}, {Metres, "1 mi", "1609.34 m", 1609.344}, {Metres, `12"`, "0.3 m", 0.3048},
		{Knots, "10 m/s", "19.4 kn", 10 / (1852.0 / 3600)}, {Knots, "1 m/s", "1.9 kn", 1 / 0.5144444}, {Knots, "50 km/h", "27 kn", 50 / 1.852}, {Knots, "10 mph", "8.7 kn", 16.09344 / 1.852},
		{Litres, "10 US gal", "37.9 l", 37.85412}, {Litres, "10 imp gal", "45.5 l", 45.4609}, {Minutes, "1.5 h", "90 min", 90}, {Minutes, "90 s", "1.5 min", 1.5},
	} {
		_, err := test.read(test.text)
		var other *OtherUnit
		if !errors.As(err, &other) || other.Offer != test.offer || math.Abs(other.Converted-test.exact) > 0.06 {
			t.Errorf("%q: %v, want the offer of %s", test.text, err, test.offer)
		}
	}
	if _, err := Metres("3 ft"); err == nil || err.Error() != "3 ft: type metres; 3 ft is 0.91 m" {
		t.Error(err)
	}
}

func TestFiguresRefused(t *testing.T) {
	for _, test := range []struct {
		read       func(string) (float64, error)
		text, says string
	}{
		{Metres, "", "nothing typed: type metres"}, {Metres, "deep", "not a number"}, {Metres, "1.2.3", "not a number"}, {Metres, "1.234,5", "not a number"}, {Metres, "1 2", "not a number"},
		{Metres, "1e3", "not a number"}, {Metres, "NaN", "not a number"}, {Metres, "0x10", "not a number"}, {Metres, "Inf", "not a number"}, {Metres, "--2", "not a number"}, {Metres, ".5", "not a number"}, {Metres, "3 furlongs", "no unit"},
		{Metres, "5999999999", "too much"}, {Knots, "-2", "not below 0"}, {Knots, "4 Bft", "Beaufort force is a range"}, {Litres, "20 gal", "two gallons"}, {Litres, "50%", "not a part of the tank"},
		{Minutes, "15 m", "stands for metres"}, {Minutes, "1:20", "not a number"}, {Degrees, "-5", "from 0 to 360"}, {Degrees, "361", "from 0 to 360"}, {Degrees, "225 M", "degrees true"},
		{Degrees, "12°M", "degrees true"}, {Degrees, "upwind", "no direction"}, {Degrees, "", "nothing typed"},
		{Metres, strings.Repeat("9", 300), "too long"},
	} {
		got, err := test.read(test.text)
		if err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%q: %v, %v; want %q", test.text, got, err, test.says)
		}
	}
}

// The card of 32 points: N. Bowditch, The American Practical Navigator, table of the
// points of the compass (quarter points left out); from memory.
func TestPoints(t *testing.T) {
	for name, want := range map[string]float64{
		"N": 0, "NbE": 11.25, "NNE": 22.5, "NEbN": 33.75, "NE": 45, "ENE": 67.5, "EbN": 78.75, "E": 90, "SE": 135, "SSE": 157.5, "SbE": 168.75, "S": 180,
		"SWbS": 213.75, "SW": 225, "WSW": 247.5, "WbS": 258.75, "W": 270, "NWbW": 303.75, "NW": 315, "NNW": 337.5, "NbW": 348.75,
	} {
		if got, err := Degrees(strings.ToLower(name)); err != nil || got != want {
			t.Errorf("%s: %v, %v; want %v", name, got, err, want)
		}
	}
	for deg, want := range map[float64]string{0: "N", 11: "N", 12: "NNE", 225: "SW", 359: "N", 360: "N", -90: "W", math.NaN(): "?"} {
		if got := Point(deg); got != want {
			t.Errorf("%v is %s, want %s", deg, got, want)
		}
	}
}

func FuzzFigures(f *testing.F) {
	for _, s := range []string{"1,5 m", "3 ft", "10 m/s", "20 gal", "1.5 h", "225°", "nbw", "-", "m3", "5 m3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func(string) (float64, error){Metres, Knots, Litres, Minutes, Degrees} {
			v, err := read(text)
			if err == nil && (math.IsNaN(v) || math.Abs(v) > 1e9) {
				t.Errorf("%q gives %v", text, v)
			}
			if err != nil && err.Error() == "" {
				t.Error("an error without words")
			}
		}
	})
}
