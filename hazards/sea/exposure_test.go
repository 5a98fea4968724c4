package sea

import (
	"strings"
	"testing"
)

func swell(t *testing.T, fromDeg, heightM float64) *SwellSeries {
	t.Helper()
	s, err := NewSwellSeries([]Swell{{hours(0), fromDeg, heightM, 9}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// gap is land 300 m off all round but for open rays within half of a bearing.
func gap(aboutDeg, halfDeg float64) *bearings {
	return &bearings{ray: func(deg float64) Ray {
		return Ray{LengthM: 300, Open: within(deg, aboutDeg, halfDeg), MeanDepthM: 4}
	}}
}

// The plan file, section 4, "Swell": full height where any ray within ±30° is
// open, half within ±60°, else none.
func TestSwellExposure(t *testing.T) {
	for _, c := range []struct {
		name     string
		gapDeg   float64
		half     float64
		want     Exposure
		mostRays int
	}{
		{"straight in", 225, 0, WideOpen, 1},
		{"30° off, clockwise", 255, 0, WideOpen, 21},
		{"30° off, anticlockwise", 195, 0, WideOpen, 21},
		{"33° off", 258, 0, HalfOpen, 23},
		{"60° off", 165, 0, HalfOpen, 41},
		{"63° off", 288, 0, Shut, 41},
		{"behind", 45, 90, Shut, 41},
		{"all open", 0, 180, WideOpen, 1},
	} {
		cast := gap(c.gapDeg, c.half)
		m := &Model{Cast: cast}
		if got := m.SwellExposure(origin, 225, noon); got != c.want || cast.cast > c.mostRays {
			t.Errorf("%s: %d with %d rays, %d with at most %d is wanted", c.name, got, cast.cast, c.want, c.mostRays)
		}
	}
}

// Heights add by energy: 0.4 m of swell at full or half height to the wind's sea.
func TestSwellInTheState(t *testing.T) {
	calm, blow := steady(t, 0, 0), steady(t, 0, 15)
	for _, c := range []struct {
		name    string
		gapDeg  float64
		share   float64
		caution string
	}{
		{"open", 225, 1, ""}, {"half", 270, 0.5, ""}, {"shut", 45, 0, "not computed"},
	} {
		m := &Model{Wind: calm, Swell: swell(t, 225, 0.4), Cast: gap(c.gapDeg, 0)}
		s := at(t, m)
		if s.HsM != 0.4*c.share || s.PlusHsM != s.HsM || s.WithOpenPlusHsM != s.HsM || s.SwellHsM != s.HsM {
			t.Errorf("%s, calm: %+v", c.name, s)
		}
		if (s.SwellCaution == "") != (c.caution == "") || !strings.Contains(s.SwellCaution, c.caution) {
			t.Errorf("%s: caution %q", c.name, s.SwellCaution)
		}
		m.Wind = blow
		s = at(t, m)
		near(t, c.name, s.HsM*s.HsM, s.Within.HsM*s.Within.HsM+0.16*c.share*c.share, 1e-9)
		near(t, c.name+" +25 %", s.PlusHsM*s.PlusHsM, 1.5625*s.Within.HsM*s.Within.HsM+0.16*c.share*c.share, 1e-9)
	}
}

func TestSwellBeyondItsForecast(t *testing.T) {
	m := &Model{Wind: steady(t, 0, 10), Swell: swell(t, 225, 0.4), Cast: gap(225, 0)}
	s, ok := m.At(origin, hours(4))
	if !ok || !s.SwellUnknown || s.SwellCaution == "" {
		t.Errorf("%+v %v", s, ok)
	}
	flat := &Model{Wind: steady(t, 0, 10), Swell: swell(t, 225, 0), Cast: gap(45, 0)}
	if s := at(t, flat); s.SwellUnknown || s.SwellCaution != "" {
		t.Errorf("no swell: %+v", s)
	}
}
