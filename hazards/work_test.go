package hazards

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// longDay is a day of one leg so many nautical miles long, half of it on the
// chart, with a limit, a stream and a breeze on it so that every check has
// something to do.
func longDay(nm float64) *plan.Plan {
	p := day(at(0, 50), orb.Point{lon0 + nm/60.1/math.Cos(lat0*math.Pi/180), lat0 + 0.05})
	blow(p, 270, 14)
	for i := range 25 {
		p.Stream = append(p.Stream, plan.Stream{Time: leaving.Add(time.Duration(i-2) * time.Hour), TowardDeg: 90, Kn: float64(i%3) / 2})
	}
	return p
}

// longChart covers the first miles of it: banks, contours and a zone every mile.
func longChart(nm float64) *chart.Chart {
	units := nm / 60.1 / math.Cos(lat0*math.Pi/180) / unit
	whole := rectangle(-5, 0, units+5, 100)
	cover := area(chart.MCOVR, whole)
	cover.Meta = &chart.Meta{CatCov: 1}
	features := []chart.Feature{cover, depth(10, 20, whole), survey(1, whole)}
	for x := 0.0; x < units; x += 25 {
		features = append(features, depth(2, 5, rectangle(x+3, 45, x+9, 55)), danger(chart.UWTROC, chart.Danger{}, 1, x+12, 50.1),
			ruled(rectangle(x+15, 40, x+20, 60), chart.Rules{SpeedZone: true}))
	}
	return chart.New(bareSet(features...))
}

// worked is how much work a fresh check does (see memory.work), and the most of it
// without asking whether it is to go on.
func worked(t *testing.T, c *chart.Chart, p *plan.Plan) (all, most int) {
	t.Helper()
	s := NewSession(c)
	last := 0
	s.Between = func() error {
		most, last = max(most, s.memory.work-last), s.memory.work
		return nil
	}
	if _, err := s.Check(p); err != nil {
		t.Fatal(err)
	}
	return s.memory.work, max(most, s.memory.work-last)
}

// Twice the way is about twice the work, and however long the way, whoever waits is
// asked often whether the work is to go on.
func TestWorkIsLinearInTheWay(t *testing.T) {
	all, most := map[float64]int{}, map[float64]int{}
	for _, nm := range []float64{45, 90, 180} {
		all[nm], most[nm] = worked(t, longChart(nm), longDay(nm))
		t.Logf("%.0f nm: %d steps, at most %d at a time", nm, all[nm], most[nm])
	}
	for _, nm := range []float64{45, 90} {
		if grown := float64(all[2*nm]) / float64(all[nm]); grown > 2.3 {
			t.Errorf("from %.0f to %.0f nm the work grows by %.2f", nm, 2*nm, grown)
		}
	}
	if most[180] > 2*most[45]+500 {
		t.Errorf("%d steps without a word on 180 nm, %d on 45", most[180], most[45])
	}
	if most[180] > 2*workBetween {
		t.Errorf("%d steps without a word", most[180])
	}
}

// A check that is told to end in the midst of a leg does so, wherever it is, and
// what is remembered of the leg is still good.
func TestACheckEndsInTheMidstOfALeg(t *testing.T) {
	c, p := longChart(45), longDay(45)
	want, err := Check(c, p)
	if err != nil {
		t.Fatal(err)
	}
	enough := errors.New("enough")
	for after := 1; ; after = after*3/2 + 1 {
		s, calls := NewSession(c), 0
		s.Between = func() error {
			if calls++; calls > after {
				return enough
			}
			return nil
		}
		_, err := s.Check(p)
		if err == nil {
			if after < 50 {
				t.Errorf("asked only %d times", calls)
			}
			return
		}
		if !errors.Is(err, enough) {
			t.Fatalf("after %d: %v", after, err)
		}
		s.Between = nil
		if again, err := s.Check(p); err != nil || string(again.Encode(time.UTC)) != string(want.Encode(time.UTC)) {
			t.Errorf("after %d the next check differs: %v", after, err)
		}
	}
}

// A plan made in memory is asked about before any work as well.
func TestALegTooLongIsNoWork(t *testing.T) {
	s := NewSession(longChart(45))
	s.Between = func() error { t.Error("work was begun"); return nil }
	p := day(at(10, 50), orb.Point{lat0, lon0})
	_, err := s.Check(p)
	var wrong *plan.Errors
	if !errors.As(err, &wrong) || !wrong.List[0].Question {
		t.Error(fmt.Sprint(err))
	}
}
