package tide

// The harmonic constants are the last of the file. Most constituents are a few millimetres high,
// and are much as at the nearest station: so each station's are stored as differences from those of
// its base, and phases as coarsely as the amplitude allows.
//
//	amplitudes in steps of 0.1 mm more than the base's (signed), or than 0 where the base has not
//	    the constituent: for each constituent of the table, the reference stations that have it
//	phases of amplitudes that are not 0, for each of PhaseSteps: the higher bytes of all, by
//	    station, then the lower bytes. Each is the difference from the base's phase, in those
//	    steps, zigzag: 0, -1, 1, -2...; from 0 where the base has none
//
// No constituent is off by more than 0.05 mm for its amplitude and 0.1 mm for its phase, or by the
// hundredth of a degree in which the sources give phases.
const (
	amplitudeStepM = 1e-4
	fullTurn       = 36000 // hundredths of a degree
	// largestSwing is the most that an amplitude, in steps, times a step of phase may be: half of
	// that step turns it by 0.1 mm.
	largestSwing = 2 * fullTurn / 6.2831853
)

// PhaseSteps are the steps of stored phases in hundredths of a degree. Each divides a turn.
var PhaseSteps = [...]int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000}

// PhaseStep is which of PhaseSteps an amplitude in steps of 0.1 mm is stored with.
func PhaseStep(amplitude int) int {
	for i := len(PhaseSteps) - 1; i > 0; i-- {
		if float64(amplitude)*float64(PhaseSteps[i]) <= largestSwing {
			return i
		}
	}
	return 0
}

// storedConstant is an amplitude in steps and a phase in hundredths of a degree.
type storedConstant struct {
	amplitude int32
	phase     uint16
}

func (c storedConstant) of(name string) Constituent {
	return Constituent{name, round(float64(c.amplitude)*amplitudeStepM, 4), round(float64(c.phase)/100, 2)}
}

func (s *Stations) readConstants(r *reader) {
	if n := len(s.tables[tableConstituents]); n > mostConstituents {
		r.fail("%d constituents; wanted at most %d", n, mostConstituents)
	}
	if r.err != nil {
		return
	}
	where := s.places()
	total := 0
	for _, h := range s.references {
		total += len(s.sets[h.set])
	}
	if total > len(r.data)-r.pos {
		r.fail("%d amplitudes do not fit in what is left", total)
		return
	}
	for _, h := range s.references {
		h.constants = make([]storedConstant, len(s.sets[h.set]))
	}
	for c := range s.tables[tableConstituents] {
		for _, h := range s.references {
			if k := where[h.set][c]; k >= 0 {
				h.constants[k].amplitude = readAmplitude(r, h.besides(where, c))
			}
		}
	}
	s.readPhases(r)
	for _, h := range s.references {
		for k, c := range s.sets[h.set] {
			h.constants[k].turnFrom(h.besides(where, c))
		}
	}
}

// places says of each set where in it each constituent is, -1 where it is not.
func (s *Stations) places() [][]int16 {
	out := make([][]int16, len(s.sets))
	for i, set := range s.sets {
		out[i] = make([]int16, len(s.tables[tableConstituents]))
		for c := range out[i] {
			out[i][c] = -1
		}
		for k, c := range set {
			out[i][c] = int16(k)
		}
	}
	return out
}

// besides is a constituent at the station's base, zero where it has none.
func (h *head) besides(where [][]int16, constituent int) storedConstant {
	if h.base == nil {
		return storedConstant{}
	}
	if k := where[h.base.set][constituent]; k >= 0 {
		return h.base.constants[k]
	}
	return storedConstant{}
}

func readAmplitude(r *reader, base storedConstant) int32 {
	const limit = highestM / amplitudeStepM
	a := int(base.amplitude) + r.int(limit, "amplitude")
	if a < 0 || a >= limit {
		r.fail("amplitude: %d; wanted 0 to %d", a, int(limit)-1)
		return 0
	}
	return int32(a)
}

// readPhases reads the phases as they are stored.
func (s *Stations) readPhases(r *reader) {
	var ofStep [len(PhaseSteps)][]*storedConstant
	for _, h := range s.references {
		for k := range h.constants {
			if c := &h.constants[k]; c.amplitude != 0 {
				i := PhaseStep(int(c.amplitude))
				ofStep[i] = append(ofStep[i], c)
			}
		}
	}
	for i, constants := range ofStep {
		higher := r.bytes(len(constants), "phases")
		lower := r.bytes(len(constants), "phases")
		if r.err != nil {
			return
		}
		for k, c := range constants {
			c.phase = uint16(higher[k])<<8 | uint16(lower[k])
			if int(c.phase) >= fullTurn/PhaseSteps[i] {
				r.fail("phase: %d steps; wanted less than %d", c.phase, fullTurn/PhaseSteps[i])
				return
			}
		}
	}
}

// turnFrom makes the phase of what is stored, the difference from that of the base.
func (c *storedConstant) turnFrom(base storedConstant) {
	if c.amplitude == 0 {
		return
	}
	step := PhaseSteps[PhaseStep(int(c.amplitude))]
	difference := int(c.phase+1) / 2
	if c.phase%2 == 1 {
		difference = -difference
	}
	steps := (int(base.phase)+step/2)/step + difference
	turn := fullTurn / step
	c.phase = uint16((steps%turn + turn) % turn * step)
}
