package sea

import (
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

// shores are random rays about a place, by whole degrees.
type shores [360]Ray

func (s *shores) Cast(_ orb.Point, towardDeg, _ float64, _ time.Time) Ray {
	return s[int(math.Round(towardDeg))%360]
}
func (s *shores) Ray(deg int) Ray { return s[deg] }
func (s *shores) Exposure(deg int) Exposure {
	return exposure(func(off float64) bool { return s[wrapped(deg+int(off))].Open })
}

// viewed is a view of a model's.
type viewed struct {
	*shores
	m *Model
}

func (v viewed) Reach(deg int) Reach { return v.m.FanReach(v, deg) }

func randomShores(rnd *rand.Rand) *shores {
	s := new(shores)
	length := 300.0
	for i := range s {
		if rnd.Intn(12) == 0 {
			length = math.Pow(10, 2+3.2*rnd.Float64())
		}
		s[i] = Ray{LengthM: length * (0.7 + 0.6*rnd.Float64()), Open: rnd.Intn(4) == 0, MeanDepthM: 1 + 30*rnd.Float64()}
	}
	return s
}

func randomWeather(t *testing.T, rnd *rand.Rand) (*WindSeries, *SwellSeries) {
	var rows []Wind
	var swells []Swell
	for h := -30 + 20*rnd.Float64(); h < 40*rnd.Float64(); h += 0.2 + 8*rnd.Float64()*rnd.Float64() + float64(rnd.Intn(12)/11*14) {
		rows = append(rows, Wind{hours(h), math.Round(3600*rnd.Float64()) / 10, 35 * rnd.Float64(), 80})
		if rnd.Intn(2) == 0 {
			swells = append(swells, Swell{hours(h), 360 * rnd.Float64(), 3 * rnd.Float64(), 9})
		}
	}
	w, err := NewWindSeries(rows)
	if err != nil {
		t.Fatal(err)
	}
	s, err := NewSwellSeries(swells)
	if err != nil {
		t.Fatal(err)
	}
	if rnd.Intn(3) == 0 {
		s = nil
	}
	return w, s
}

// No sea at any time of a spell is above the bound of it, and what is known of a spell
// is known at its times.
func TestMostBoundsTheSea(t *testing.T) {
	rnd := rand.New(rand.NewSource(20260722))
	near, known := 0, map[Known]int{}
	for range 400 {
		land := randomShores(rnd)
		m := &Model{Cast: land, OpenFetchM: 40_000 * rnd.Float64()}
		m.Wind, m.Swell = randomWeather(t, rnd)
		from := hours(-20 + 40*rnd.Float64())
		lasts := time.Duration(rnd.Float64() * rnd.Float64() * float64(24*time.Hour))
		spell := m.Spell(from, from.Add(lasts))
		most := spell.Most(viewed{land, m})
		known[spell.Known]++
		highest := 0.0
		for k := range 60 {
			at := from.Add(time.Duration(float64(lasts) * float64(k) / 59))
			s, ok := m.At(origin, at)
			if ok && spell.Known == Nothing || !ok && spell.Known == Whole || s.SwellUnknown && !most.SwellUnknown {
				t.Fatalf("known %v, at %v %v, swell unknown %v and %v", spell.Known, at, ok, s.SwellUnknown, most.SwellUnknown)
			}
			if s.HsM > most.HsM || s.PlusHsM > most.PlusHsM || s.WithOpenHsM > most.WithOpenHsM || s.WithOpenPlusHsM > most.WithOpenPlusHsM || s.WindKn > most.WindKn {
				t.Fatalf("%v to %v, at %v: %+v, above the bound %+v", from, from.Add(lasts), at, s, most)
			}
			highest = math.Max(highest, s.HsM)
		}
		if highest > 0.6*most.HsM {
			near++
		}
	}
	if near < 40 || known[Nothing] < 5 || known[Part] < 20 || known[Whole] < 100 {
		t.Errorf("%d bounds near to a sea; %v", near, known)
	}
}
