package hazards

import (
	"keelroom/hazards/rode"
)

// pull is what wind and stream pull at the anchor with while she lies there.
type pull struct {
	gustKn                         float64 // the strongest gust that is known
	windKnown                      bool    // for all of the stay
	streamKnown                    bool    // or none is given
	areaKnown                      bool    // what the wind takes hold of
	beamKnown                      bool    // what a stream does; or none is given
	windN, streamN                 float64 // of the greatest load
	gustAtWorstKn, streamAtWorstKn float64 // the gust and the stream then
}

// loadN is the greatest load; ok is false where not all of it is known.
func (p *pull) loadN() (newtons float64, ok bool) {
	return p.windN + p.streamN, p.windKnown && p.streamKnown && p.areaKnown && p.beamKnown
}

// pull is worked out once. Gusts and streams run straight between the times at which a
// stay is looked at, so that their squares are greatest at one of those.
func (s *stayCheck) pull() *pull {
	if s.pullMemo != nil {
		return s.pullMemo
	}
	area, areaKnown := s.plan.Boat.Windage()
	p := &pull{windKnown: true, streamKnown: true, areaKnown: areaKnown, beamKnown: s.stream == nil || s.plan.Boat.BeamM != nil}
	for _, t := range s.times() {
		w, ok := s.wind.At(t)
		p.windKnown = p.windKnown && ok
		p.gustKn = max(p.gustKn, w.GustKn)
		windN, streamN, streamKn := rode.WindLoadN(area, w.GustKn), 0.0, 0.0
		if s.stream != nil {
			r, ok := s.stream.At(t)
			p.streamKnown, streamKn = p.streamKnown && ok, r.Kn
			if s.plan.Boat.BeamM != nil {
				streamN = rode.StreamLoadN(*s.plan.Boat.BeamM, s.plan.Boat.DraughtM, r.Kn)
			}
		}
		if windN+streamN > p.windN+p.streamN {
			p.windN, p.streamN, p.gustAtWorstKn, p.streamAtWorstKn = windN, streamN, w.GustKn, streamKn
		}
	}
	s.pullMemo = p
	return p
}
