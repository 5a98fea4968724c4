package tide

import (
	"fmt"
	"math"
	"sync/atomic"
	"time"
)

// Harmonic is the tide as a sum of constituents:
//
//	h(t) = z0 + Σ f·A·cos(V(t) + u − g)
//
// with V the equilibrium argument, f and u the node factor and its angle, A the amplitude and g
// the Greenwich phase lag.
//
// f and u are those of the time itself (see practice for the other usage). Arguments and factors
// are worked out every 8 days and run straight between, which keeps them within 0.1 mm of their
// own values for any station of the built-in list and makes the height continuous.
type Harmonic struct {
	z0M      float64
	terms    []term
	practice practice
	record   Record
	given    map[string]float64 // amplitudes by canonical name, of all that were given
	cache    [cacheSize]atomic.Pointer[segment]
}

// term is one constituent made ready.
type term struct {
	definition
	name       string
	amplitudeM float64
	phaseRad   float64
	speed      float64 // published speed in degrees an hour, 0 where none; NOAA's practice only
}

// practice is how node factors are held.
type practice int

const (
	continuous practice = iota // at the time itself
	midYear                    // NOAA's: for a calendar year, at its middle
)

// cacheSize segments of 8 days are some 17 months.
const cacheSize = 64

// mostConstituents is above what any published analysis has.
const mostConstituents = 400

// NewHarmonic makes the tide of constituents cs about the level z0M, which is mean sea level above
// the datum, in metres. A name that is not known is an error, as are numbers that are not finite,
// an amplitude below 0 or above 20 m, and a constituent given twice.
func NewHarmonic(z0M float64, cs []Constituent) (*Harmonic, error) {
	return newHarmonic(z0M, cs, continuous)
}

// NewHarmonicOf is NewHarmonic of constants of which something more is known.
func NewHarmonicOf(z0M float64, cs []Constituent, record Record) (*Harmonic, error) {
	h, err := NewHarmonic(z0M, cs)
	if err != nil {
		return nil, err
	}
	h.record = record
	return h, nil
}

// NewHarmonicNOAA is NewHarmonic by the practice of NOAA's published predictions: f and u of the
// middle of the calendar year, speeds as published. It makes a step at New Year, and is there to
// check the rest against what NOAA publishes.
func NewHarmonicNOAA(z0M float64, cs []Constituent) (*Harmonic, error) {
	return newHarmonic(z0M, cs, midYear)
}

func newHarmonic(z0M float64, cs []Constituent, p practice) (*Harmonic, error) {
	if !(math.Abs(z0M) <= highestM) {
		return nil, fmt.Errorf("z0_m: %g; wanted metres between %d and %d", z0M, lowestM, highestM)
	}
	if len(cs) == 0 || len(cs) > mostConstituents {
		return nil, fmt.Errorf("constituents: %d given; wanted 1 to %d", len(cs), mostConstituents)
	}
	h := &Harmonic{z0M: z0M, practice: p, given: map[string]float64{}}
	seen := map[string]int{}
	for i, c := range cs {
		t, err := newTerm(c)
		if err != nil {
			return nil, fmt.Errorf("constituents[%d]: %w", i, err)
		}
		if j, twice := seen[canonical(c.Name)]; twice {
			return nil, fmt.Errorf("constituents[%d]: %s is given twice, first as constituents[%d]", i, c.Name, j)
		}
		seen[canonical(c.Name)] = i
		h.given[canonical(c.Name)] = c.AmplitudeM
		if c.AmplitudeM > 0 {
			h.terms = append(h.terms, t)
		}
	}
	return h, nil
}

func newTerm(c Constituent) (term, error) {
	d, err := define(c.Name)
	if err != nil {
		return term{}, err
	}
	if !(c.AmplitudeM >= 0 && c.AmplitudeM <= highestM) {
		return term{}, fmt.Errorf("amplitude_m of %s: %g; wanted metres from 0 to %d", c.Name, c.AmplitudeM, highestM)
	}
	if !(math.Abs(c.PhaseDeg) <= 720) {
		return term{}, fmt.Errorf("phase_deg of %s: %g; wanted degrees, usually 0 to 360", c.Name, c.PhaseDeg)
	}
	return term{d, c.Name, c.AmplitudeM, c.PhaseDeg * deg, publishedSpeeds[canonical(c.Name)]}, nil
}

// HeightM is the height in metres above the datum. ok is false before 1900 and after 2099, for
// which harmonic constants of our time say nothing.
func (h *Harmonic) HeightM(t time.Time) (float64, bool) {
	if outside(t) {
		return 0, false
	}
	x := hours(t)
	return h.segmentAt(x).height(x), true
}

// Least is the least height from from to to.
func (h *Harmonic) Least(from, to time.Time) (float64, bool) { return extreme(h, from, to, -1) }

// Greatest is the greatest height from from to to.
func (h *Harmonic) Greatest(from, to time.Time) (float64, bool) { return extreme(h, from, to, +1) }

// RangeM is the difference between the turning points on either side of t. Where the water turns
// only faintly on its way (a double high water), that is the range of the faint turn.
func (h *Harmonic) RangeM(t time.Time) (float64, bool) {
	for _, pad := range []time.Duration{14 * time.Hour, 48 * time.Hour} {
		if r, ok := rangeAbout(h.Events(t.Add(-pad), t.Add(pad)), t); ok {
			return r, true
		}
	}
	return 0, false
}

// Method is MethodHarmonic.
func (h *Harmonic) Method() Method { return MethodHarmonic }

// Covers is unbounded.
func (h *Harmonic) Covers() (from, to time.Time, bounded bool) { return firstTime, lastTime, false }
