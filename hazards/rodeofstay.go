package hazards

import (
	"math"

	"keelroom/hazards/plan"
	"keelroom/hazards/rode"
)

// rodeFacts are what the rode of a stay comes down to for the circle that she swings in.
type rodeFacts struct {
	line  rode.Line // what is laid; all of it rope where its chain is not known
	known bool      // false: nothing says how long it is
	// lengthM is the length that the circle is computed with, rope stretched: of the line;
	// on a mooring its own.
	lengthM float64
	// lowM is the least height of the bow roller over the ground at the anchor while she
	// lies there, 0 where that is not known: the circle is widest then. highM is the
	// greatest; highKnown is false where it is not known.
	lowM, highM float64
	highKnown   bool
}

// mooringM is the length of a mooring's own chain or rope where it is not given.
const mooringM = 5

// rodeOf is the rode of the stay: as laid, else as it is to be laid; without a rode in
// the boat what the scope rule asks of rope, the longest; and all that is aboard where
// the greatest height is not known.
func (s *stayCheck) rodeOf() rodeFacts {
	stay := s.stop.Stay
	switch stay.Kind {
	case plan.AtMooring:
		length := mooringM * 1.0
		if stay.RodeM != nil {
			length = *stay.RodeM
		}
		return rodeFacts{known: true, lengthM: length}
	case plan.AtBerth:
		return rodeFacts{}
	}
	return s.rodeAtAnchor()
}

func (s *stayCheck) rodeAtAnchor() rodeFacts {
	b := s.bed()
	out := rodeFacts{lowM: b.lowM()}
	out.highM, out.highKnown = b.highM()
	aboard, given := s.aboard()
	switch {
	case s.stop.Stay.RodeM != nil:
		out.line, out.known = laidOf(aboard, *s.stop.Stay.RodeM), true
	case !given && out.highKnown:
		out.line, out.known = rode.Line{RopeM: s.scope().LengthM(aboard, out.highM)}, true
	case given && out.highKnown:
		out.line, out.known = aboard.Laid(s.laying(aboard, out.highM).ToLayM), true
	case given:
		out.line, out.known = aboard, true
	}
	out.lengthM = out.line.StretchedM()
	return out
}

// laidOf is so much of a rode aboard; what is more than all of it is rope, which
// stretches.
func laidOf(aboard rode.Line, laidM float64) rode.Line {
	line := aboard.Laid(laidM)
	line.RopeM = math.Max(line.RopeM, laidM-line.ChainM)
	return line
}

// aboard is the rode aboard; given is false where the boat says nothing of it.
func (s *stayCheck) aboard() (line rode.Line, given bool) {
	r := s.plan.Boat.Rode
	if !s.plan.Boat.RodeGiven() {
		return rode.Line{RopeM: math.Inf(1)}, false
	}
	line.RopeM = r.RopeM
	if r.ChainM != nil {
		line.ChainM = *r.ChainM
	}
	if r.ChainKgPerM != nil {
		line.ChainKgPerM = *r.ChainKgPerM
	}
	return line, true
}

// bowRollerM is how high the bow roller is over the water.
func (s *stayCheck) bowRollerM() float64 {
	if r := s.plan.Boat.Rode; r != nil {
		return r.BowRollerM
	}
	return plan.DefaultRode().BowRollerM
}

// scope is the scope wanted in the strongest gust of the stay, which is strong where not
// all of the wind is known.
func (s *stayCheck) scope() rode.Scope {
	gust := s.pull().gustKn
	if !s.pull().windKnown {
		gust = math.Inf(1)
	}
	return rode.Scope{Chain: s.plan.Margins.ScopeFor(gust, false), Rope: s.plan.Margins.ScopeFor(gust, true)}
}

// laying is what to lay at a height. Where the load is not known it follows from the
// scope rule alone.
func (s *stayCheck) laying(aboard rode.Line, heightM float64) rode.Laying {
	load, _ := s.pull().loadN()
	return rode.Lay(aboard, s.scope(), heightM, load)
}
