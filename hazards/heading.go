package hazards

import (
	"math"
	"time"

	"keelroom/geo"
	"keelroom/hazards/plan"
	"keelroom/hazards/rode"
)

// calmKn is the mean wind under which a boat at anchor may lie any way (at-anchor contract,
// section 3); tidalKn is the stream above which it has a say.
const (
	calmKn  = 4
	tidalKn = 0.5
)

// headingAt is where her bow points at a time: into the pull of wind and stream together.
// nil where she may lie any way, at a berth, or where one of them is not known.
func (s *stayCheck) headingAt(t time.Time) *float64 {
	w, ok := s.wind.At(t)
	if !ok || s.stop.Stay.Kind == plan.AtBerth {
		return nil
	}
	if s.stream == nil {
		if w.Kn < calmKn {
			return nil
		}
		return ptr(geo.Bearing(w.FromDeg))
	}
	r, ok := s.stream.At(t)
	if !ok || w.Kn < calmKn && r.Kn <= tidalKn {
		return nil
	}
	if r.Kn <= tidalKn {
		return ptr(geo.Bearing(w.FromDeg))
	}
	area, ok := s.plan.Boat.Windage()
	if !ok || s.plan.Boat.BeamM == nil {
		return nil
	}
	wind, stream := rode.WindLoadN(area, w.Kn), rode.StreamLoadN(*s.plan.Boat.BeamM, s.plan.Boat.DraughtM, r.Kn)
	east := wind*sinDeg(w.FromDeg) + stream*sinDeg(r.TowardDeg+180)
	north := wind*sinDeg(w.FromDeg+90) + stream*sinDeg(r.TowardDeg+270)
	return ptr(geo.Bearing(math.Atan2(east, north) * 180 / math.Pi))
}

func sinDeg(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }
