package trial

import (
	"fmt"
	"io"
	"math"
	"slices"
)

// Size is how much is tried with each error of the receiver.
type Size struct {
	Seed      uint64
	Hours     float64 // at anchor, holding
	Drags     int     // at each speed
	PositionM float64 // that the circle allows for the anchor's place
}

// Whole is the trial of `make watch-trial`.
var Whole = Size{Seed: 1, Hours: 2400, Drags: 1000, PositionM: 10}

// Sigmas are the errors of the receiver that are tried, metres; Speeds those of dragging, knots.
var (
	Sigmas = []float64{3, 5, 10}
	Speeds = []float64{0.1, 0.3, 1}
)

// nightHours is how long one night is.
const nightHours = 10

// Rule is how one of the two rules did.
type Rule struct {
	Alarms int         // false ones
	Beyond [][]float64 // by speed, metres beyond the circle at the alarm, the least first
}

// Result is what a trial with one error of the receiver gave.
type Result struct {
	SigmaM float64
	Hours  float64
	Watch  Rule
	Plain  Rule
	Blind  int // blind alarms
}

// Run tries both rules with one error of the receiver.
func Run(size Size, sigmaM float64) *Result {
	r := &Result{SigmaM: sigmaM}
	nights := int(math.Ceil(size.Hours / nightHours))
	for i := range nights {
		n := newNight(size.Seed<<32+uint64(i), kind(i)%kinds, sigmaM, nightHours*3600, size.PositionM)
		for n.t < nightHours*3600 {
			n.step(0)
		}
		r.Hours += nightHours
		r.Watch.Alarms, r.Plain.Alarms, r.Blind = r.Watch.Alarms+n.alarms, r.Plain.Alarms+n.plainAlarms, r.Blind+n.blindAlarms
	}
	for s, kn := range Speeds {
		var ours, plain []float64
		for i := range size.Drags {
			a, b := drag(size.Seed<<32+uint64(s+1)<<24+uint64(i), kind(i)%kinds, sigmaM, kn, size.PositionM)
			ours, plain = append(ours, a), append(plain, b)
		}
		slices.Sort(ours)
		slices.Sort(plain)
		r.Watch.Beyond, r.Plain.Beyond = append(r.Watch.Beyond, ours), append(r.Plain.Beyond, plain)
	}
	return r
}

// farthestM is where a trial of dragging ends.
const farthestM = 300.0

// drag has an anchor drag at a speed from any moment, and says how far beyond the circle she
// is at the first alarm of the watch and of the plain rule.
func drag(seed uint64, k kind, sigmaM, kn, positionM float64) (ours, plain float64) {
	n := newNight(seed, k, sigmaM, 2*3600, positionM)
	from := 120 + 1800*n.boat.rng.Float64()
	for n.t < from {
		n.step(0)
	}
	ours, plain = math.Inf(1), math.Inf(1)
	for n.beyondM() < farthestM && (math.IsInf(ours, 1) || math.IsInf(plain, 1)) {
		n.step(kn)
		if n.alarmed && math.IsInf(ours, 1) {
			ours = n.beyondM()
		}
		if n.plainAlarmed && math.IsInf(plain, 1) {
			plain = n.beyondM()
		}
	}
	return ours, plain
}

// Per240 is how many false alarms there were in 240 hours.
func (r *Result) Per240(rule *Rule) float64 { return float64(rule.Alarms) * 240 / r.Hours }

// At is the metres beyond the circle by which that share of the drags were told.
func (r *Rule) At(speed int, share float64) float64 {
	list := r.Beyond[speed]
	return list[min(len(list)-1, int(math.Ceil(share*float64(len(list))))-1)]
}

// Within is the share of the drags at a speed that were told before she was so far beyond.
func (r *Rule) Within(speed int, metres float64) float64 {
	n := 0
	for _, m := range r.Beyond[speed] {
		if m < metres {
			n++
		}
	}
	return float64(n) / float64(len(r.Beyond[speed]))
}

// Print writes a result as rows of a table.
func (r *Result) Print(w io.Writer) {
	for _, rule := range []struct {
		name string
		*Rule
	}{{"watch", &r.Watch}, {"one fix outside", &r.Plain}} {
		fmt.Fprintf(w, "%5.0f  %-16s %12.2f", r.SigmaM, rule.name, r.Per240(rule.Rule))
		for s := range Speeds {
			fmt.Fprintf(w, "   %6.1f %6.1f %6.1f%%", rule.At(s, 0.5), rule.At(s, 0.99), 100*rule.Within(s, 25))
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintf(w, "%5.0f  blind alarms in 240 h %.2f\n", r.SigmaM, float64(r.Blind)*240/r.Hours)
}

// Head writes the head of the table.
func Head(w io.Writer) {
	fmt.Fprintf(w, "%5s  %-16s %12s", "sigma", "rule", "false/240 h")
	for _, kn := range Speeds {
		fmt.Fprintf(w, "   %22s", fmt.Sprintf("%.1f kn: median, 99%%, <25 m", kn))
	}
	fmt.Fprintln(w)
}
