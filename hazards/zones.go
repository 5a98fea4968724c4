package hazards

import (
	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// speedZones reports the speed zones of a day.
type speedZones struct{ *checker }

// checkZones reports the speed zones the track runs through: the limit, where
// it begins, where to slow, and what is not stated.
func (sz speedZones) checkZones() {
	for i := range sz.track.Zones {
		z := &sz.track.Zones[i]
		name := z.Feature.Name
		leg := &sz.track.Legs[z.Leg]
		sz.report.Zones = append(sz.report.Zones, plan.ZonePassage{Name: name, LimitKn: ptr(z.LimitKn), Stated: z.Stated,
			Leg: leg.Number, Enter: ptr(z.Enter), Leave: ptr(z.Leave), Entry: z.Entry, Exit: z.Exit})
		if z.Slow != nil {
			sz.report.SlowDowns = append(sz.report.SlowDowns, plan.SlowDown{Zone: name, Leg: sz.track.Legs[z.Slow.Leg].Number,
				Time: ptr(z.Slow.Time), FromKn: ptr(z.Slow.FromKn), ToKn: ptr(z.Slow.ToKn), At: z.Slow.At})
		}
		for _, f := range sz.zoneFindings(z, name) {
			f.Check, f.Leg, f.Time, f.Until = plan.CheckSpeed, leg.Number, ptr(z.Enter), ptr(z.Leave)
			f.Geometry, f.Source = z.Entry, sourceOf(z.Feature)
			sz.find(f)
		}
	}
}

func (sz speedZones) zoneFindings(z *passage.ZonePassage, name string) []plan.Finding {
	var out []plan.Finding
	if z.Stated {
		out = append(out, plan.Finding{Severity: plan.Note, Measured: ptr(z.LimitKn), Unit: "kn",
			Facts: facts.SpeedLimit{Name: name, LimitKn: z.LimitKn, Passage: sz.passageOf(z), Info: z.Feature.Info}})
	} else {
		out = append(out, plan.Finding{Severity: plan.Care,
			Facts: facts.LimitNotStated{Name: name, Others: facts.LimitsOf(z.Feature.Rules.Limits), LimitKn: z.LimitKn, Passage: sz.passageOf(z), Info: z.Feature.Info}})
	}
	if z.AskedAboveKn > 0 {
		out = append(out, plan.Finding{Severity: plan.Care, Facts: facts.AskedAbove{AskedKn: z.AskedAboveKn, LimitKn: z.LimitKn},
			Measured: ptr(z.AskedAboveKn), Required: ptr(z.LimitKn), Unit: "kn"})
	}
	return out
}

// passageOf is when she is in a zone, and where she slows for it.
func (sz speedZones) passageOf(z *passage.ZonePassage) facts.Passage {
	out := facts.Passage{Enter: facts.At(z.Enter), Leave: facts.At(z.Leave)}
	in := z.Feature.Rules.Season
	out.SeasonEnds = !in.Holds(z.Enter.In(sz.zone())) || !in.Holds(z.Leave.In(sz.zone()))
	if z.Slow != nil {
		out.Slows, out.SlowFromKn, out.SlowAt, out.SlowM = true, z.Slow.FromKn, facts.At(z.Slow.Time), sz.plan.Boat.SlowDownM
	}
	return out
}
