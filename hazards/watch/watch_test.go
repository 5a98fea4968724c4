package watch

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

var (
	start = time.Date(2026, 7, 11, 12, 0, 0, 0, time.UTC)
	place = orb.Point{-36.15, 43.09}
)

// sea is a watch with a clock, for tests.
type sea struct {
	t     *testing.T
	w     *Watch
	clock time.Time
}

// laid gives a radius of exactly 30 m: rode 13, five metres deep, twelve flat (5, 12, 13), 8 m of
// boat and 10 m for the anchor's place.
var laid = Laid{RodeM: 13, ChainM: 30, DepthM: 4, BowRollerM: 1, LengthM: 8, PositionM: 10}

func newSea(t *testing.T) *sea {
	t.Helper()
	w, err := Begin(start, "Wick Pool", laid, Drop{})
	if err != nil {
		t.Fatal(err)
	}
	return &sea{t, w, start}
}

// anchored is a sea with the anchor's place known to be place.
func anchored(t *testing.T) *sea {
	s := newSea(t)
	for range 61 {
		s.fix(0, 0, 5, time.Second)
	}
	if s.w.Phase != Watching {
		t.Fatal("a minute of fixes is over and the anchor has no place")
	}
	return s
}

// fix gives a position so many metres from place after some time.
func (s *sea) fix(bearing, metres, accuracy float64, after time.Duration) bool {
	s.clock = s.clock.Add(after)
	return s.w.Fix(s.clock, Fix{Time: s.clock, At: geo.Direct(place, bearing, metres), AccuracyM: accuracy})
}

func (s *sea) status() Status { return s.w.Status(s.clock) }

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v; %v ± %v is wanted", what, got, want, within)
	}
}

func TestRadius(t *testing.T) {
	tests := []struct {
		name string
		laid Laid
		want float64
	}{
		{"all chain", laid, 30},
		{"no depth given is the largest circle", Laid{RodeM: 13, ChainM: 30, LengthM: 8, PositionM: 10}, 31},
		{"rope stretches by a tenth", Laid{RodeM: 20, ChainM: 10, DepthM: 11.6, BowRollerM: 1, LengthM: 8, PositionM: 10}, 16.8 + 18}, // 12.6, 16.8, 21
		{"the bottom dries", Laid{RodeM: 13, ChainM: 30, DepthM: -3, BowRollerM: 1, LengthM: 8, PositionM: 10}, 31},
	}
	for _, tt := range tests {
		got, err := tt.laid.RadiusM()
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		near(t, tt.name, got, tt.want, 1e-9)
	}
}

func TestNoRadius(t *testing.T) {
	tests := []struct {
		laid Laid
		want string
	}{
		{Laid{}, "type its metres"},
		{Laid{RodeM: -5}, "type its metres"},
		{Laid{RodeM: 5, ChainM: 30, DepthM: 5, BowRollerM: 1}, "do not reach the ground 6.0 m below"},
		{Laid{RodeM: 4000}, "at most 1000"},
		{Laid{RodeM: math.NaN()}, "not a number"},
		{Laid{RodeM: 30, LengthM: math.Inf(1)}, "not a number"},
	}
	for _, tt := range tests {
		if w, err := Begin(start, "", tt.laid, Drop{}); err == nil || w != nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%+v: %v; %q is wanted", tt.laid, err, tt.want)
		}
	}
}

// The anchor lies at the mean of a minute, without what is far off, ahead of the device.
func TestDrop(t *testing.T) {
	w, err := Begin(start, "", laid, Drop{BowM: 6, HeadingDeg: 90, HeadingKnown: true})
	if err != nil {
		t.Fatal(err)
	}
	s := &sea{t, w, start}
	for i := range 61 {
		switch {
		case i == 30:
			s.fix(45, 60, 5, time.Second)
		case i%2 == 0:
			s.fix(0, 4, 5, time.Second)
		default:
			s.fix(180, 4, 5, time.Second)
		}
		if done := s.w.Phase == Watching; done != (i == 60) {
			t.Fatalf("after %d fixes: %s", i+1, s.w.Phase)
		}
	}
	near(t, "metres from the bow", geo.DistanceM(w.Anchor, geo.Direct(place, 90, 6)), 0, 0.15) // one fix more to one side: 4/60 m
}

// A receiver that gives few fixes has the minute go on until there are enough.
func TestDropWaitsForFixes(t *testing.T) {
	s := newSea(t)
	for i := range 4 {
		if s.fix(0, 0, 5, 29*time.Second); (s.w.Phase == Watching) != (i == 3) {
			t.Fatalf("%d fixes: %s", i+1, s.w.Phase)
		}
	}
}

// A minute that is broken begins anew: she is 40 m from the anchor by then, and the mean of
// both parts would be neither place.
func TestDropBroken(t *testing.T) {
	breaks := map[string]func(s *sea){
		"gap":    func(s *sea) { s.clock = s.clock.Add(40 * time.Second) },
		"reload": func(s *sea) { s.stopped(5 * time.Second) },
	}
	for name, broken := range breaks {
		s := newSea(t)
		for range 15 {
			s.fix(0, 0, 5, time.Second)
		}
		broken(s)
		for range 55 {
			s.fix(90, 40, 5, time.Second)
		}
		if s.w.Phase != Dropping {
			t.Fatalf("%s: placed %.0f m from the anchor, of %d s and %d s", name, geo.DistanceM(s.w.Anchor, place), 15, 55)
		}
		for range 6 {
			s.fix(90, 40, 5, time.Second)
		}
		if s.w.Phase != Watching {
			t.Errorf("%s: after a whole minute it has no place", name)
		}
	}
}

// A minute that ends too late gives no place: she is told to set it, with an alarm, until she does.
func TestDropTooLate(t *testing.T) {
	s := newSea(t)
	s.clock = s.clock.Add(70 * time.Second) // the receiver takes its time
	for range 90 {
		s.fix(0, 40, 5, time.Second)
	}
	if st := s.status(); st.Phase != Dropping || !st.Unplaced || st.Alarm != PlaceAlarm {
		t.Fatalf("%+v", st)
	}
	s.w.Acknowledge(s.clock)
	if s.status().Sounding {
		t.Error("acknowledged, it is heard")
	}
	if s.fix(0, 40, 5, time.Second); !s.w.Status(s.clock.Add(quietFor)).Sounding {
		t.Error("two minutes after it is not heard again")
	}
	s.w.Place(s.clock, place)
	if st := s.status(); st.Unplaced || st.Sounding || st.Phase != Watching {
		t.Errorf("set by hand: %+v", st)
	}
	back := newSea(t)
	back.stopped(-time.Hour)
	if !back.status().Unplaced {
		t.Error("with a clock an hour back the minute is taken for one in time")
	}
}

// In the circle nothing is evidence, however fast she goes downwind.
func TestInsideIsNoEvidence(t *testing.T) {
	s := anchored(t)
	for m := 0.0; m <= 30; m += 0.5 {
		s.fix(70, m, 5, time.Second)
	}
	for range 3600 {
		s.fix(70, 30, 5, time.Second)
	}
	if st := s.status(); st.Dragging || st.Share != 0 {
		t.Errorf("%+v", st)
	}
}

// She goes outward at half a knot: told while she is 20 m beyond the circle at most.
func TestDragging(t *testing.T) {
	s := anchored(t)
	for range 600 {
		s.fix(70, 20, 5, time.Second)
	}
	metres := 20.0
	for ; metres < 100 && !s.status().Dragging; metres += 0.5 * geo.KnotMPS {
		s.fix(70, metres, 5, time.Second)
	}
	st := s.status()
	if st.BeyondM < allowanceM || st.BeyondM > 20 {
		t.Errorf("told %.1f m beyond the circle", st.BeyondM)
	}
	near(t, "bearing", st.BearingDeg, 70, 0.01)
	if !st.Sounding {
		t.Error("no alarm is heard")
	}
}

// One that lies beyond the circle without moving is told by the sum alone: of the metres beyond
// the circle less 3, times seconds, 600 are an alarm.
func TestBeyondWithoutMoving(t *testing.T) {
	s := anchored(t)
	for m := 0.0; m < 33; m += 0.01 {
		s.fix(70, m, 5, time.Second)
	}
	for i := 1; i <= 100; i++ {
		s.fix(70, 43, 5, time.Second)
		if got, want := s.status().Dragging, i >= 60; got != want && i != 60 && i != 59 { // 10 × 60, to rounding
			t.Fatalf("after %d s: %v", i, got)
		}
	}
}

// One wild fix is no alarm, after a gap neither.
func TestOneWildFix(t *testing.T) {
	for _, gap := range []time.Duration{time.Second, 15 * time.Second, 110 * time.Second} {
		s := anchored(t)
		for range 60 {
			s.fix(70, 28, 5, time.Second)
		}
		if s.fix(70, 500, 5, gap); s.status().Dragging {
			t.Errorf("one fix after %v is an alarm", gap)
		}
	}
}

// Poorer accuracy may make the alarm later; it never keeps it from coming, nor makes it earlier.
func TestAccuracyWeighs(t *testing.T) {
	last := 0
	for _, accuracy := range []float64{1, 5, 12, 20, 25, 30} {
		s := anchored(t)
		told := 0
		for i := 1; i <= 400 && told == 0; i++ {
			if s.fix(200, 42, accuracy, time.Second); s.status().Dragging {
				told = i
			}
		}
		if told == 0 || told < last {
			t.Errorf("accuracy %v m: told after %d s, the one before after %d", accuracy, told, last)
		}
		last = told
	}
}

// She goes on dragging: acknowledged, it is silent for two minutes and heard again.
func TestAcknowledgeDragging(t *testing.T) {
	s := anchored(t)
	for range 60 {
		s.fix(0, 50, 5, time.Second)
	}
	s.w.Acknowledge(s.clock)
	for i := range 119 {
		if s.fix(0, 55, 5, time.Second); s.status().Sounding || !s.status().Dragging {
			t.Fatalf("%d s after: %+v", i+1, s.status())
		}
	}
	if s.fix(0, 55, 5, time.Second); !s.status().Sounding {
		t.Error("two minutes after it is not heard again")
	}
}

// A false alarm that was acknowledged goes by itself.
func TestHoldsAgain(t *testing.T) {
	s := anchored(t)
	for range 60 {
		s.fix(0, 50, 5, time.Second)
	}
	s.w.Acknowledge(s.clock)
	for range 125 {
		s.fix(0, 32, 5, time.Second) // less than the allowance beyond it
	}
	if !s.status().Dragging {
		t.Error("beyond the circle she is taken for in it")
	}
	s.fix(0, 20, 5, time.Second)
	if st := s.status(); st.Dragging || st.Sounding {
		t.Errorf("%+v", st)
	}
	if last := s.w.Log[len(s.w.Log)-1]; last.What != Holds {
		t.Errorf("the log ends with %+v", last)
	}
}

// An alarm that nobody has acknowledged stays, though she comes back.
func TestAlarmStays(t *testing.T) {
	s := anchored(t)
	for range 60 {
		s.fix(0, 50, 5, time.Second)
	}
	for range 600 {
		s.fix(0, 10, 5, time.Second)
	}
	if st := s.status(); !st.Dragging || !st.Sounding {
		t.Errorf("%+v", st)
	}
}

func TestMoveAndRelay(t *testing.T) {
	s := anchored(t)
	for range 60 {
		s.fix(0, 50, 5, time.Second)
	}
	at, err := s.w.PlaceFrom(s.clock, 180, 10)
	if err != nil {
		t.Fatal(err)
	}
	s.w.Place(s.clock, at)
	near(t, "moved to", geo.DistanceM(s.w.Anchor, place), 40, 0.01)
	if st := s.status(); st.Dragging || st.Share != 0 || math.Abs(st.DistanceM-10) > 0.01 {
		t.Errorf("after moving: %+v", st)
	}
	longer := laid
	longer.RodeM, longer.DepthM, longer.BowRollerM = 17, 8, 0 // 8, 15, 17
	if err := s.w.Relay(s.clock, longer); err != nil {
		t.Fatal(err)
	}
	near(t, "radius", s.w.RadiusM, 33, 1e-9)
	if err := s.w.Relay(s.clock, Laid{}); err == nil || s.w.RadiusM != 33 {
		t.Error("no rode is taken for a circle")
	}
	for _, bad := range [][2]float64{{math.NaN(), 3}, {361, 3}, {20, -1}, {20, math.Inf(1)}} {
		if _, err := s.w.PlaceFrom(s.clock, bad[0], bad[1]); err == nil {
			t.Errorf("%v is taken for a bearing and a distance", bad)
		}
	}
}

// Bearing and distance are counted from where she is, and not from where she was.
func TestPlaceFromOld(t *testing.T) {
	s := anchored(t)
	if _, err := s.w.PlaceFrom(s.clock.Add(31*time.Second), 180, 10); err == nil || !strings.Contains(err.Error(), "too old") {
		t.Errorf("%v", err)
	}
	s.stopped(time.Second)
	if _, err := s.w.PlaceFrom(s.clock, 180, 10); err == nil {
		t.Error("a position of before a stop is counted from")
	}
}

// A receiver whose time goes back with every fix is watched by the clock.
func TestReceiverTimeGoesBack(t *testing.T) {
	s := anchored(t)
	for i := range 120 {
		s.clock = s.clock.Add(time.Second)
		if !s.w.Fix(s.clock, Fix{Time: start.Add(-time.Duration(i) * 2 * time.Minute), At: geo.Direct(place, 0, 80), AccuracyM: 5}) {
			t.Fatal("it is not heard")
		}
	}
	if !s.status().Dragging {
		t.Error("50 m beyond the circle for two minutes, and no word")
	}
}

func TestWeigh(t *testing.T) {
	s := anchored(t)
	s.w.Weigh(s.clock)
	s.clock = s.clock.Add(time.Hour)
	s.w.Lose(s.clock, PageHidden)
	if st := s.status(); s.w.Running() || st.Sounding || st.Blind != Sees || s.fix(0, 500, 5, time.Second) {
		t.Errorf("%+v", st)
	}
}

// Written and read at any moment, a watch answers as one that was never stopped.
func TestStored(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	a, b := anchored(t), anchored(t)
	for i := range 500 {
		bearing, metres, accuracy := 360*rng.Float64(), 20+rng.Float64()*float64(i)/50, 3+30*rng.Float64()
		after := time.Duration(1+rng.IntN(40)) * time.Second
		a.fix(bearing, metres, accuracy, after)
		b.fix(bearing, metres, accuracy, after)
		if rng.IntN(20) == 0 {
			a.w.Acknowledge(a.clock)
			b.w.Acknowledge(b.clock)
		}
		text, err := json.Marshal(b.w)
		if err != nil {
			t.Fatal(err)
		}
		b.w = &Watch{}
		if err := json.Unmarshal(text, b.w); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(a.status(), b.status()) {
			t.Fatalf("after %d fixes\n%+v\n%+v", i+1, a.status(), b.status())
		}
	}
	if len(a.w.Track) == 0 || len(a.w.Track) > mostTrack || len(a.w.Log) > mostLog {
		t.Errorf("%d points, %d entries", len(a.w.Track), len(a.w.Log))
	}
}

func TestDrift(t *testing.T) {
	s := anchored(t)
	for i := range 120 {
		s.fix(110, 0.3*geo.KnotMPS*float64(i), 5, time.Second)
	}
	kn, deg, ok := s.w.Drift(s.clock)
	if !ok {
		t.Fatal("no drift is known")
	}
	near(t, "knots", kn, 0.3, 0.005)
	near(t, "toward", deg, 110, 0.5)
	if _, _, ok := s.w.Drift(s.clock.Add(time.Hour)); ok {
		t.Error("an hour later the drift is taken for known")
	}
	near(t, "minutes over a mile at 2 kn", LeeMinutes(1852, 2), 30, 1e-9)
	if !math.IsInf(LeeMinutes(10, 0), 1) {
		t.Error("without drift the lee room is used up")
	}
}

// What is no position is not taken in.
func TestNoPositions(t *testing.T) {
	s := anchored(t)
	for _, f := range []Fix{
		{At: orb.Point{0, 91}, AccuracyM: 5}, {At: orb.Point{math.NaN(), 0}, AccuracyM: 5},
		{At: place, AccuracyM: 0}, {At: place, AccuracyM: -1}, {At: place, AccuracyM: math.NaN()}, {At: place, AccuracyM: math.Inf(1)},
	} {
		f.Time = s.clock.Add(time.Second)
		if s.w.Fix(f.Time, f) {
			t.Errorf("%+v is taken in", f)
		}
	}
}
