package entry

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// The same place in every way of writing. 12.34' are 12.34/60 = 0.2056667 degrees and
// 20.4" more by the definition of minute and second (ISO 6709, annex on
// representation; from memory).
func TestPosition(t *testing.T) {
	at := orb.Point{10 + 5.6/60, 54 + 12.34/60}
	for _, text := range []string{
		"54°12.34'N 010°05.6'E", "54°12.34’N 010°05.6’E", "54° 12.34′ N, 10° 5.6′ E", "N54 12.34 E10 5.6", "n 54 12.34, e 10 5.6",
		"54 12.34 N 10 5.6 E", "54 12,34 N 10 5,6 E", "54°12,34'N, 10°05,6'E", "10°05.6'E 54°12.34'N", "E10 5.6 N54 12.34",
		"54º12'20.4\"N 10º05'36\"E", "54 12 20.4 N 10 5 36 E", "54°12′20.4″N; 10°05′36″E", "54°12'20.4''N 10°5'36''E",
		"54.20566667, 10.09333333", "54.20566667 10.09333333", "54,20566667 10,09333333", "54.20566667,10.09333333",
		"54.20566667N 10.09333333E", "N54.20566667,E10.09333333", "E 10.09333333 N 54.20566667", "54.20566667° north 10.09333333° east",
		" +54.20566667;  +10.09333333 ", "54.20566667/10.09333333",
	} {
		got, err := Position(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if math.Abs(got.At.Lon()-at.Lon()) > 1e-8 || math.Abs(got.At.Lat()-at.Lat()) > 1e-8 {
			t.Errorf("%q: %v, want %v", text, got.At, at)
		}
		if !strings.HasSuffix(got.Read, "read as 54°12.340'N 010°05.600'E") {
			t.Errorf("%q: %s", text, got.Read)
		}
		if first := !strings.ContainsAny(strings.ToUpper(text), "NE"); first != strings.HasPrefix(got.Read, "latitude first") {
			t.Errorf("%q: %s", text, got.Read)
		}
	}
}

func TestPositionHemispheres(t *testing.T) {
	for _, test := range []struct {
		text     string
		lon, lat float64
	}{
		{"33 30 S 151 15 W", -151.25, -33.5}, {"-33.5, -151.25", -151.25, -33.5}, {"S33.5 W151.25", -151.25, -33.5}, {"−33.5 −151.25", -151.25, -33.5},
		{"0 N 0 E", 0, 0}, {"90 N 180 W", -180, 90}, {"0°00.5'S 000°00.5'W", -0.5 / 60, -0.5 / 60}, {"10 10", 10, 10},
	} {
		got, err := Position(test.text)
		if err != nil || math.Abs(got.At.Lon()-test.lon) > 1e-12 || math.Abs(got.At.Lat()-test.lat) > 1e-12 {
			t.Errorf("%q: %v, %v", test.text, got.At, err)
		}
	}
}

// What could be meant otherwise, or is a slip, is refused and says what to type.
func TestPositionRefused(t *testing.T) {
	for _, test := range []struct{ text, says string }{
		{"", "nothing typed"},
		{"54 12.34 10 5.6", "which figures belong together"},
		{"54 12.34, 10 5.6", "need the letters"},
		{"54°12.34' 10°5.6'", "which figures belong together"},
		{"54 60.0 N 10 5 E", "fewer than 60"},
		{"54 12 60 N 10 5 6 E", "fewer than 60"},
		{"54 N 12 N", "two latitudes"},
		{"10 E 12 W", "two longitudes"},
		{"54 12.3 N", "this has 1"},
		{"54.2 N 10.1", "this has 1"},
		{"N 54 12.3 10 5.6 E", "which figures belong together"},
		{"54 N 10 E 5 E", "this has 3"},
		{"91 N 10 E", "beyond the pole"},
		{"89 59 60 N 10 E", "fewer than 60"},
		{"54 N 181 E", "too many"},
		{"180 0.5 E 54 N", "beyond 180"},
		{"100.5, 54.2", "latitude comes first"},
		{"-54 12.3 N 10 5.6 E", "sign and a letter"},
		{"54 -12.3 N 10 5.6 E", "have no sign"},
		{"54-12.34N 010-05.6E", "type a space"},
		{"54.5 30 N 10 5 E", "have decimals"},
		{"54 12.5 30 N 10 5 E", "have decimals"},
		{"5412.34N 01005.6E", "space between degrees and minutes"},
		{"54 12 13 14 N 10 E", "too many figures"},
		{"54,10", "which figures belong together"},
		{"54,2057,10,0933", "no number"},
		{"54,2057, 10,0933, 3", "too many commas"},
		{"54 12.3 N 10 5.6 O", "O is east in some languages"},
		{"54'12 N 10 E", "does not follow"},
		{"54° ° N 10 E", "does not follow"},
		{"' 54 N 10 E", "does not follow"},
		{"54 N E", "a figure is missing"},
		{"fifty N 10 E", "does not belong"},
		{"1e2 N 3 E", "this has 3"},
		{"1.2.3 N 3 E", "no number"},
		{"54.N 10.E", "no number"},
		{"54 N 10 E 🌊", "does not belong"},
		{strings.Repeat("5", 300), "too long"},
		{"54, 12 N 10 E", "comma stands within"},
	} {
		got, err := Position(test.text)
		if err == nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%q: %v, %v; want %q", test.text, got, err, test.says)
		}
	}
}

// A position written is a position read, to half a thousandth of a minute.
func TestPositionRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	for range 5000 {
		at := orb.Point{rng.Float64()*360 - 180, rng.Float64()*180 - 90}
		text := FormatPosition(at)
		got, err := Position(text)
		if err != nil || math.Abs(got.At.Lon()-at.Lon()) > 0.00051/60 || math.Abs(got.At.Lat()-at.Lat()) > 0.00051/60 {
			t.Fatalf("%v is written %s and read %v, %v", at, text, got, err)
		}
	}
	if got := FormatPosition(orb.Point{-0.9999999, 59.9999999}); got != "60°00.000'N 001°00.000'W" {
		t.Errorf("rounding carries: %s", got)
	}
}

func FuzzPosition(f *testing.F) {
	for _, s := range []string{"54°12.34'N 010°05.6'E", "54.2, 10.1", "54 12 20.4 N 10 5 36 E", "-1,5 +2,5", "O", "° N E", "N1E1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := Position(text)
		if err != nil {
			if strings.TrimSpace(err.Error()) == "" {
				t.Error("an error without words")
			}
			return
		}
		if !(math.Abs(p.At.Lat()) <= 90 && math.Abs(p.At.Lon()) <= 180) {
			t.Errorf("%q gives %v", text, p.At)
		}
		again, err := Position(FormatPosition(p.At))
		if err != nil || math.Abs(again.At.Lat()-p.At.Lat()) > 1e-5 || math.Abs(again.At.Lon()-p.At.Lon()) > 1e-5 {
			t.Errorf("%q gives %v, and that %v, %v", text, p, again, err)
		}
	})
}
