package sea

import (
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"
)

// A lee under land to the south: 5 km of water on bearings 270 through north to
// 90, 100 m elsewhere. With the wind from 180 the fan (±12°) first touches the open
// half when the wind has turned 78°. Between rays the fetch is linear, so the room
// is 75° and up to one spacing more where one long ray of nine is too much: by
// hand, 0.08 m at 15 kn is 0.08/(5.11e-4·8.77)² = 320 m of mean fetch, 100 m of
// which are there at 75° and 644 m at 78°.
func TestWindRoomUnderALee(t *testing.T) {
	cast := &bearings{ray: func(deg float64) Ray {
		if within(deg, 0, 90) {
			return Ray{LengthM: 5000, MeanDepthM: 10}
		}
		return Ray{LengthM: 100, MeanDepthM: 3}
	}}
	m := &Model{Wind: steady(t, 180, 15), Cast: cast}
	room, open, ok := m.WindRoom(origin, noon, hours(4), noon, 0.08)
	if !ok || room.BackingDeg < 75 || room.BackingDeg > 78 || math.Abs(room.BackingDeg-room.VeeringDeg) > 2*roomRefine {
		t.Errorf("room %+v %v, 75° to 78° both ways is wanted", room, ok)
	}
	if open != room {
		t.Errorf("no ray is open, but with open water the room is %+v", open)
	}
	if cast.cast != roseRays {
		t.Errorf("%d rays cast, one rose of %d is wanted", cast.cast, roseRays)
	}
}

// Backing is anticlockwise: water only to the west of a wind from north is reached
// by backing; what is open beyond the data counts in the second room only.
func TestWindRoomSides(t *testing.T) {
	cast := &bearings{ray: func(deg float64) Ray {
		return Ray{LengthM: 50, Open: within(deg, 270, 20), MeanDepthM: 3}
	}}
	m := &Model{Wind: steady(t, 0, 15), Cast: cast}
	room, open, _ := m.WindRoom(origin, noon, hours(4), noon, 0.3)
	if room != (Room{180, 180}) {
		t.Errorf("within the data %+v, all round is wanted", room)
	}
	if open.BackingDeg < 50 || open.BackingDeg > 70 || open.VeeringDeg != 180 {
		t.Errorf("with open water %+v: it is to the west only", open)
	}
}

func TestWindRoomLimits(t *testing.T) {
	b := basin{min: orb.Point{-3000, -3000}, max: orb.Point{3000, 3000}, depthM: 8}
	m := &Model{Wind: steady(t, 0, 20), Cast: b}
	for _, c := range []struct {
		limit float64
		want  Room
	}{{0, Room{}}, {math.NaN(), Room{}}, {0.1, Room{}}, {50, Room{180, 180}}} {
		if got, _, ok := m.WindRoom(origin, noon, hours(2), noon, c.limit); !ok || got != c.want {
			t.Errorf("limit %g: %+v, %+v is wanted", c.limit, got, c.want)
		}
	}
	if _, _, ok := m.WindRoom(origin, hours(2), noon, noon, 1); ok {
		t.Error("there is room over times in the wrong order")
	}
	if _, _, ok := m.WindRoom(origin, noon, hours(28), noon, 1); ok {
		t.Error("there is room beyond the wind series")
	}
}

// The worst hour of the stay decides: a strong hour in the middle, on a row of the
// series between the half hours.
func TestWindRoomLooksAtTheWholeStay(t *testing.T) {
	b := basin{min: orb.Point{-3000, -200}, max: orb.Point{3000, 200}, depthM: 8}
	w := wind(t, [4]float64{-12, 0, 3, 3}, [4]float64{1, 0, 3, 3}, [4]float64{2.2, 0, 40, 40}, [4]float64{3.4, 0, 3, 3}, [4]float64{8, 0, 3, 3})
	m := &Model{Wind: w, Cast: b}
	before, _, _ := m.WindRoom(origin, noon, hours(1), noon, 0.3)
	during, _, _ := m.WindRoom(origin, noon, hours(6), noon, 0.3)
	if before != (Room{180, 180}) || during.BackingDeg >= 90 || during.BackingDeg == 0 {
		t.Errorf("room %+v before, %+v over the strong hour", before, during)
	}
}

// Swell counts in the room: enough of it alone leaves none.
func TestWindRoomWithSwell(t *testing.T) {
	m := &Model{Wind: steady(t, 0, 2), Swell: swell(t, 225, 0.5), Cast: gap(225, 0)}
	if room, _, _ := m.WindRoom(origin, noon, hours(1), noon, 0.3); room != (Room{}) {
		t.Errorf("room %+v in half a metre of swell", room)
	}
}

// Against the model itself, turned wind by turned wind: inside the room the sea is
// at most the limit, just beyond it over. Rays on the bearings of the rose, so that
// interpolation between them is the only difference; it is held to 3 % of height.
func TestWindRoomAgainstAt(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	for range 60 {
		b := basin{
			min: orb.Point{-50 - 4000*random.Float64(), -50 - 4000*random.Float64()},
			max: orb.Point{50 + 4000*random.Float64(), 50 + 4000*random.Float64()}, depthM: 2 + 10*random.Float64(),
		}
		from, kn := math.Floor(360*random.Float64()), 8+15*random.Float64()
		start := at(t, &Model{Wind: steady(t, from, kn), Cast: b})
		limit := start.HsM * (1 + 0.3*random.Float64())
		room, _, _ := (&Model{Wind: steady(t, from, kn), Cast: b}).WindRoom(origin, noon, hours(2), noon, limit)
		turned := func(deg float64) float64 {
			return at(t, &Model{Wind: steady(t, fullCircle(from+deg), kn), Cast: b}).HsM
		}
		for deg := -room.BackingDeg; deg <= room.VeeringDeg; deg += 1.3 {
			if hs := turned(deg); hs > limit*1.03 {
				t.Errorf("wind turned %g°: %g m over the limit %g m, room %+v", deg, hs, limit, room)
			}
		}
		for _, deg := range []float64{room.VeeringDeg + 2*roomRefine, -room.BackingDeg - 2*roomRefine} {
			if hs := turned(deg); math.Abs(deg) < 180 && hs < limit*0.97 {
				t.Errorf("wind turned %g°: %g m is under the limit %g m, room %+v", deg, hs, limit, room)
			}
		}
	}
}

// The short cut that spares most of the work never hides a sea: over a fetch that
// it calls calm, no depth and no stretch of the wind passes the height.
func TestCalmFetchIsCalm(t *testing.T) {
	random := rand.New(rand.NewSource(8))
	for range 2000 {
		a, b := 40*random.Float64(), 40*random.Float64()
		h := wind(t, [4]float64{-10, 0, a, a}, [4]float64{2, 0, b, b}).history(noon)
		limit := 2 * random.Float64()
		calm := h.calmFetch(heightLeft(limit, 0))
		for _, depth := range []float64{1, 10, math.Inf(1)} {
			if g := h.grow(fetch{math.Min(calm, MaxRayM), depth}); g.HsM > limit {
				t.Fatalf("%g m over %g m called calm for %g m", g.HsM, calm, limit)
			}
		}
		if math.IsInf(calm, 1) {
			continue
		}
		strongest := h.stretches[0]
		strongest.work()
		if hs, _ := Grow(strongest.uaMps, calm*1.001, math.Inf(1)); hs < limit*(1-1e-6) {
			t.Fatalf("%g m over %g m: more fetch is calm for %g m", hs, calm, limit)
		}
	}
	for _, c := range [][2]float64{{math.NaN(), 0}, {-1, 0}, {0, 0}, {0.3, 0.3}, {0.3, 0.5}} {
		h := steady(t, 0, 10).history(noon)
		if calm := h.calmFetch(heightLeft(c[0], c[1])); calm >= 0 {
			t.Errorf("limit %g m with %g m of swell: %g m are called calm", c[0], c[1], calm)
		}
	}
}
