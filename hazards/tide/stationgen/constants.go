package main

import (
	"math"

	"keelroom/hazards/tide"
)

// The layout of harmonic constants is described in hazards/tide/stationconstants.go.

// nearest is of each station which of those before it is nearest, itself where none is.
func nearest(refs []*station) []int {
	places := make([][3]float64, len(refs))
	out := make([]int, len(refs))
	for i, s := range refs {
		places[i] = onSphere(s.Longitude, s.Latitude)
		out[i] = i
		least := math.Inf(1)
		for j := range i {
			if d := apart(places[i], places[j]); d < least {
				out[i], least = j, d
			}
		}
	}
	return out
}

func onSphere(lon, lat float64) [3]float64 {
	lon, lat = lon*math.Pi/180, lat*math.Pi/180
	return [3]float64{math.Cos(lat) * math.Cos(lon), math.Cos(lat) * math.Sin(lon), math.Sin(lat)}
}

func apart(a, b [3]float64) float64 {
	return math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2])
}

// stored is a constant in the file's units: 0.1 mm, and hundredths of a degree that are whole steps.
type stored struct{ amplitude, phase int }

func (c constant) stored() stored {
	s := stored{amplitude: units(c.Amplitude, amplitudeUnit)}
	if s.amplitude != 0 {
		step := tide.PhaseSteps[tide.PhaseStep(s.amplitude)]
		turn := fullTurn / step
		s.phase = (units(c.Phase, float64(step)/100)%turn + turn) % turn * step
	}
	return s
}

// writeConstants writes the constants of each station as differences from those of its base.
func writeConstants(w *writer, refs []*station, bases []int, names []string) {
	all := make([]map[string]stored, len(refs))
	for i, s := range refs {
		all[i] = map[string]stored{}
		for _, c := range s.Constituents {
			all[i][c.Name] = c.stored()
		}
	}
	base := func(i int, name string) stored {
		if bases[i] == i {
			return stored{}
		}
		return all[bases[i]][name]
	}
	for _, name := range names {
		for i := range refs {
			if c, there := all[i][name]; there {
				w.int(c.amplitude - base(i, name).amplitude)
			}
		}
	}
	var higher, lower [len(tide.PhaseSteps)][]byte
	for i, s := range refs {
		for _, c := range s.Constituents {
			if own := all[i][c.Name]; own.amplitude != 0 {
				k := tide.PhaseStep(own.amplitude)
				turned := own.turnedFrom(base(i, c.Name), tide.PhaseSteps[k])
				higher[k], lower[k] = append(higher[k], byte(turned>>8)), append(lower[k], byte(turned))
			}
		}
	}
	for k := range higher {
		w.out = append(append(w.out, higher[k]...), lower[k]...)
	}
}

// turnedFrom is how many steps the phase is from the base's, the shorter way round, as 0, -1, 1, -2...
func (c stored) turnedFrom(base stored, step int) int {
	turn := fullTurn / step
	steps := (c.phase/step - (base.phase+step/2)/step + 2*turn) % turn
	if steps > (turn-1)/2 {
		return 2*(turn-steps) - 1
	}
	return 2 * steps
}
