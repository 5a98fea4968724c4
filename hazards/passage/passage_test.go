package passage

import (
	"math"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// INVENTED waters about 43°N 36°W; distances are laid off with package geo,
// which is checked against GeographicLib.
var (
	start  = orb.Point{-36, 43}
	depart = time.Date(2026, 7, 18, 9, 0, 0, 0, time.UTC)
)

func east(nm float64) orb.Point { return geo.RhumbDirect(start, 90, nm*geo.NauticalMileM) }

// day is a plan of one route east with no berth in the way of the arithmetic.
func day(points ...orb.Point) *plan.Plan {
	p := plan.New()
	p.Zone, p.ZoneName = time.UTC, "UTC"
	p.Boat.DraughtM, p.Boat.CruiseKn = 1, 20
	p.Margins.BerthM = 0
	at := depart
	p.Parts = []plan.Part{{Route: &plan.Route{Depart: &at, Points: points}}}
	return p
}

func lay(t *testing.T, p *plan.Plan, w Waters) *Track {
	t.Helper()
	track, err := Lay(p, w)
	if err != nil {
		t.Fatal(err)
	}
	checkWhole(t, track)
	return track
}

// checkWhole holds every track: steps follow each other in place and time, and
// each takes the time its speeds give.
func checkWhole(t *testing.T, track *Track) {
	t.Helper()
	for i := range track.Legs {
		leg := &track.Legs[i]
		at, x := leg.Start, 0.0
		for _, s := range track.StepsOf(leg) {
			if math.Abs(s.FromM-x) > 1e-3 || s.Start.Sub(at).Abs() > time.Millisecond {
				t.Errorf("leg %d: a step begins at %.3f m %v, the one before ended at %.3f m %v", leg.Number, s.FromM, s.Start, x, at)
			}
			mean := (s.FromKn + s.ToKn) / 2 * geo.KnotMPS
			if d := s.End.Sub(s.Start).Seconds() - (s.ToM-s.FromM)/mean; math.Abs(d) > 1e-3 {
				t.Errorf("leg %d: a step of %.1f m takes %v", leg.Number, s.ToM-s.FromM, s.End.Sub(s.Start))
			}
			at, x = s.End, s.ToM
		}
		if math.Abs(x-leg.Rhumb.LengthM) > 1e-3 || at.Sub(leg.End).Abs() > time.Millisecond {
			t.Errorf("leg %d ends at %.3f m %v, its steps at %.3f m %v", leg.Number, leg.Rhumb.LengthM, leg.End, x, at)
		}
	}
}

func nearS(t *testing.T, what string, got time.Duration, wantS float64) {
	t.Helper()
	if math.Abs(got.Seconds()-wantS) > 0.5 {
		t.Errorf("%s: %.1f s, want %.1f s", what, got.Seconds(), wantS)
	}
}

// Speed, time and distance: shared arithmetic of motor.json (12 kn, 90 min,
// 18 nm; ...), run as plans.
func TestSpeedTimeDistance(t *testing.T) {
	for _, c := range []struct{ kn, min, nm float64 }{{12, 90, 18}, {6.5, 40, 4.3333}, {22, 15, 5.5}} {
		p := day(start, east(c.nm))
		p.Boat.CruiseKn, p.Boat.WarmUpMin = c.kn, 0
		nearS(t, "run", lay(t, p, Waters{}).UnderWay(), c.min*60)
	}
}

func TestWarmUp(t *testing.T) {
	// 15 min at 7 kn are 1.75 nm; the other 8.25 nm at 20 kn take 24.75 min.
	track := lay(t, day(start, east(10)), Waters{})
	nearS(t, "ten miles", track.UnderWay(), (15+24.75)*60)
	leg := &track.Legs[0]
	nearS(t, "warm", track.TimeAt(leg, 1.75*geo.NauticalMileM).Sub(depart), 15*60)
}

func TestWarmUpAfterALongStopOnly(t *testing.T) {
	p := day(start, east(5))
	p.Boat.WarmUpMin = 15
	stay := plan.Stay{At: east(5), Kind: plan.AtAnchor}
	p.Parts = append(p.Parts, plan.Part{Stay: &stay}, plan.Part{Route: &plan.Route{Points: []orb.Point{east(5), start}}})
	arrive := lay(t, day(start, east(5)), Waters{}).Back
	for _, c := range []struct {
		stop  time.Duration
		wantS float64
	}{{90 * time.Minute, 5.0 / 20 * 3600}, {3 * time.Hour, 15*60 + (5-1.75)/20*3600}} {
		stay.Until = arrive.Add(c.stop)
		track := lay(t, p, Waters{})
		nearS(t, "home after "+c.stop.String(), track.Back.Sub(stay.Until), c.wantS)
	}
}

func TestLateArrivalMovesTheDeparture(t *testing.T) {
	p := day(start, east(5))
	stay := plan.Stay{At: east(5), Kind: plan.AtAnchor, Until: depart.Add(time.Minute)}
	p.Parts = append(p.Parts, plan.Part{Stay: &stay}, plan.Part{Route: &plan.Route{Points: []orb.Point{east(5), start}}})
	track := lay(t, p, Waters{})
	if s := track.Stops[0]; !s.Leave.Equal(s.Arrive) || !s.Arrive.After(stay.Until) {
		t.Errorf("arrives %v, leaves %v, until %v", s.Arrive, s.Leave, stay.Until)
	}
}

// What is left of the warm-up after a short run is done on the next one.
func TestWarmUpIsCarriedOn(t *testing.T) {
	p := day(start, east(0.7)) // six minutes at 7 kn
	stay := plan.Stay{At: east(0.7), Kind: plan.AtAnchor, Until: depart.Add(30 * time.Minute)}
	p.Parts = append(p.Parts, plan.Part{Stay: &stay}, plan.Part{Route: &plan.Route{Points: []orb.Point{east(0.7), east(10.7)}}})
	track := lay(t, p, Waters{})
	nearS(t, "the rest of the warm-up, then cruising", track.Back.Sub(stay.Until), 9*60+(10-9.0/60*7)/20*3600)
}

// band is a speed zone across the way from one distance to another.
func band(fromNM, toNM float64, r chart.Rules) chart.Feature {
	a, b := east(fromNM), east(toNM)
	f := chart.Feature{Class: chart.RESARE, DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown, Rules: &r}
	f.Prim = chart.Area
	for _, p := range []orb.Point{{a[0], 42.9}, {b[0], 42.9}, {b[0], 43.1}, {a[0], 43.1}, {a[0], 42.9}} {
		f.Coords = append(f.Coords, chart.CoordOf(p))
	}
	f.Ends = []int32{5}
	return f
}

func limit(kn float64) chart.Rules {
	return chart.Rules{SpeedZone: true, Limits: []chart.SpeedLimit{{Kn: kn}}}
}

func waters(zones ...chart.Feature) Waters {
	q := chart.New(&chart.Set{Features: zones}).NewQuery()
	return Waters{Zones: func(leg geo.Rhumb) (out []ZoneSpan) {
		pieces := chart.Pieces(leg)
		for i, p := range pieces {
			out = append(out, ZonesAmong(q.Along(p, chart.Reach{}).Hits, leg.LengthM*float64(i)/float64(len(pieces)))...)
		}
		return out
	}}
}

func TestSlowsBeforeTheLine(t *testing.T) {
	p := day(start, east(6))
	p.Boat.WarmUpMin = 0
	track := lay(t, p, waters(band(2, 3, limit(6))))
	// 150 m from 20 to 6 kn at a constant rate take 2·150 m / (26 kn).
	slow := 300 / (26 * geo.KnotMPS)
	want := (2*geo.NauticalMileM-150)/(20*geo.KnotMPS) + slow
	z := track.Zones[0]
	nearS(t, "enters", z.Enter.Sub(depart), want)
	nearS(t, "leaves", z.Leave.Sub(z.Enter), 600)
	nearS(t, "home", track.Back.Sub(z.Leave), 3.0/20*3600)
	if z.Slow == nil || z.Slow.FromKn < 19.99 || z.Slow.ToKn != 6 || !z.Stated {
		t.Fatalf("slow-down %+v", z.Slow)
	}
	nearS(t, "begins to slow", z.Slow.Time.Sub(depart), want-slow)
	if d := geo.DistanceM(z.Slow.At, z.Entry); math.Abs(d-150) > 0.2 {
		t.Errorf("begins to slow %.1f m before the line, want 150 m", d)
	}
	mid, _ := track.At(&track.Legs[0], 2*geo.NauticalMileM-75)
	if want := geo.RhumbDirect(start, 90, 2*geo.NauticalMileM-75); geo.DistanceM(mid, want) > 0.01 {
		t.Error("the place half way through slowing is off the leg")
	}
	// Half of the way at a constant rate: the speed is the root mean square.
	for _, s := range track.StepsOf(&track.Legs[0]) {
		x := 2*geo.NauticalMileM - 75
		if v := s.KnAt(x); s.FromM < x && x < s.ToM && math.Abs(v-math.Sqrt((400+36)/2.0)) > 0.01 {
			t.Errorf("%.2f kn half way through slowing", v)
		}
	}
}

func TestLimits(t *testing.T) {
	winter := limit(4)
	winter.Season = chart.Season{From: 1001, To: 430}
	noFigure := chart.Rules{SpeedZone: true}
	for _, c := range []struct {
		name  string
		zones []chart.Feature
		wantS float64 // from 2 nm to 3 nm
		met   int
	}{
		{"lowest of two", []chart.Feature{band(2, 3, limit(8)), band(1.9, 3.2, limit(6))}, 600, 2},
		{"out of season", []chart.Feature{band(2, 3, winter)}, 180, 0},
		{"no figure: the harbour speed", []chart.Feature{band(2, 3, noFigure)}, 720, 1},
		{"higher than cruising", []chart.Feature{band(2, 3, limit(30))}, 180, 1},
	} {
		p := day(start, east(6))
		p.Boat.WarmUpMin = 0
		track := lay(t, p, waters(c.zones...))
		leg := &track.Legs[0]
		nearS(t, c.name, track.TimeAt(leg, 3*geo.NauticalMileM).Sub(track.TimeAt(leg, 2*geo.NauticalMileM)), c.wantS)
		if len(track.Zones) != c.met {
			t.Errorf("%s: %d zones met, want %d", c.name, len(track.Zones), c.met)
		}
	}
}

func TestHarbourEnds(t *testing.T) {
	p := day(start, east(6))
	p.Boat.WarmUpMin, p.Margins.BerthM = 0, 200
	track := lay(t, p, Waters{})
	leg := &track.Legs[0]
	nearS(t, "out of the berth", track.TimeAt(leg, 200).Sub(depart), 200/(5*geo.KnotMPS))
	nearS(t, "into the berth", track.Back.Sub(track.TimeAt(leg, leg.Rhumb.LengthM-200)), 200/(5*geo.KnotMPS))
}

func TestAskedSpeedAboveALimitIsNoted(t *testing.T) {
	p := day(start, east(3), east(6))
	p.Boat.WarmUpMin = 0
	p.Parts[0].Route.SpeedsKn = []float64{12, 18}
	track := lay(t, p, waters(band(2, 4, limit(15))))
	z := track.Zones[0]
	if z.AskedAboveKn != 18 {
		t.Errorf("asked above the limit: %v kn, want 18", z.AskedAboveKn)
	}
	nearS(t, "first leg", track.Legs[0].End.Sub(depart), 3.0/12*3600)
	if z.Slow != nil {
		t.Errorf("no slowing from 12 kn for a limit of 15 kn: %+v", z.Slow)
	}
}

func TestRoughWater(t *testing.T) {
	// 24 cells of 5.9/24 nm; the middles of four lie in the rough mile.
	const rough = 4 * 5.9 / 24
	p := day(start, east(5.9))
	p.Boat.WarmUpMin = 0
	w := Waters{SeaM: func(pos orb.Point, _, _ time.Time) (float64, bool) {
		return 1, pos.Lon() > east(3).Lon() && pos.Lon() < east(4).Lon()
	}}
	nearS(t, "a rough mile", lay(t, p, w).UnderWay(), (5.9-rough)/20*3600+rough/8*3600)
}

// motor.json: course 090, 6 kn through the water, stream 2 kn toward 180:
// 5.6569 kn over the ground.
func TestStream(t *testing.T) {
	if kn, ok := MadeGood(6, 90, 180, 2); !ok || math.Abs(kn-5.6569) > 5e-5 {
		t.Errorf("MadeGood = %.4f %v, want 5.6569", kn, ok)
	}
	if kn := ThroughWater(5.6569, 90, 180, 2); math.Abs(kn-6) > 5e-5 {
		t.Errorf("ThroughWater = %.4f, want 6", kn)
	}
	if _, ok := MadeGood(3, 90, 270, 4); ok {
		t.Error("3 kn stem a stream of 4 kn")
	}
	p := day(start, east(6))
	p.Boat.WarmUpMin, p.Boat.CruiseKn = 0, 6
	flow := func(kn float64) Waters {
		return Waters{Stream: func(time.Time) (float64, float64, bool) { return 180, kn, true }}
	}
	track := lay(t, p, flow(2))
	nearS(t, "six miles", track.UnderWay(), 6/5.6569*3600)
	if w := track.Steps[0].WaterKn; math.Abs(w-6) > 1e-3 {
		t.Errorf("%.3f kn through the water, want 6", w)
	}
	if foul := lay(t, p, flow(7)); len(foul.Unstemmed) == 0 || foul.UnderWay() < 11*time.Hour {
		t.Errorf("a stream she cannot stem: %d places, %v under way", len(foul.Unstemmed), foul.UnderWay())
	}
	// One that runs only before she gets there does not matter.
	early := Waters{Stream: func(at time.Time) (float64, float64, bool) { return 270, 8, at.Before(depart.Add(-time.Minute)) }}
	if track := lay(t, p, early); len(track.Unstemmed) != 0 {
		t.Errorf("a stream that is over: %+v", track.Unstemmed)
	}
}

// Splitting a leg changes nothing but leg numbers.
func TestSplittingALeg(t *testing.T) {
	w := waters(band(2, 3, limit(6)))
	whole := lay(t, day(start, east(6)), w)
	parts := lay(t, day(start, east(1.3), east(1.95), east(2.5), east(6)), w)
	nearS(t, "whole and split", parts.UnderWay(), whole.UnderWay().Seconds())
	if len(parts.Zones) != 1 {
		t.Errorf("%d zone passages, want 1", len(parts.Zones))
	}
	nearS(t, "entry", parts.Zones[0].Enter.Sub(depart), whole.Zones[0].Enter.Sub(depart).Seconds())
	nearS(t, "slow-down", parts.Zones[0].Slow.Time.Sub(depart), whole.Zones[0].Slow.Time.Sub(depart).Seconds())
}

func TestLayNeedsADeparture(t *testing.T) {
	if _, err := Lay(plan.New(), Waters{}); err == nil {
		t.Error("an empty plan is laid out")
	}
}
