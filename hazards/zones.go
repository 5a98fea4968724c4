package hazards

import (
	"fmt"

	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// checkZones reports the speed zones the track runs through: the limit, where
// it begins, where to slow, and what is not stated.
func (c *checker) checkZones() {
	for i := range c.track.Zones {
		z := &c.track.Zones[i]
		name := z.Feature.Name
		if name == "" {
			name = "speed zone"
		}
		leg := &c.track.Legs[z.Leg]
		c.report.Zones = append(c.report.Zones, plan.ZonePassage{Name: name, LimitKn: ptr(z.LimitKn), Stated: z.Stated,
			Leg: leg.Number, Enter: ptr(z.Enter), Leave: ptr(z.Leave), Entry: z.Entry, Exit: z.Exit})
		if z.Slow != nil {
			c.report.SlowDowns = append(c.report.SlowDowns, plan.SlowDown{Zone: name, Leg: c.track.Legs[z.Slow.Leg].Number,
				Time: ptr(z.Slow.Time), FromKn: ptr(z.Slow.FromKn), ToKn: ptr(z.Slow.ToKn), At: z.Slow.At})
		}
		for _, f := range c.zoneFindings(z, name) {
			f.Check, f.Leg, f.Time, f.Until = plan.CheckSpeed, leg.Number, ptr(z.Enter), ptr(z.Leave)
			f.Geometry, f.Source = z.Entry, sourceOf(z.Feature)
			c.find(f)
		}
	}
}

func (c *checker) zoneFindings(z *passage.ZonePassage, name string) []plan.Finding {
	var out []plan.Finding
	if z.Stated {
		out = append(out, plan.Finding{Severity: plan.Note, Code: "speed-limit", Title: fmt.Sprintf("%.1f kn in %s", z.LimitKn, name),
			Detail: c.zoneWords(z) + told(z.Feature.Info), Measured: ptr(z.LimitKn), Unit: "kn"})
	} else {
		out = append(out, plan.Finding{Severity: plan.Care, Code: "limit-not-stated", Title: "Limit not stated",
			Detail: fmt.Sprintf("%s: %s; planned at %.1f kn. %s%s", name, noLimit(z.Feature.Rules), z.LimitKn, c.zoneWords(z), told(z.Feature.Info))})
	}
	if z.AskedAboveKn > 0 {
		out = append(out, plan.Finding{Severity: plan.Care, Code: "asked-above-limit", Title: "The plan's speed is above the limit",
			Detail:   fmt.Sprintf("%.1f kn are asked for on this leg; planned at the limit of %.1f kn.", z.AskedAboveKn, z.LimitKn),
			Measured: ptr(z.AskedAboveKn), Required: ptr(z.LimitKn), Unit: "kn"})
	}
	return out
}

// noLimit says why a zone has no limit for her.
func noLimit(r *chart.Rules) string {
	if len(r.Limits) == 0 {
		return "the layer gives no figure"
	}
	others := make([]string, len(r.Limits))
	for i, l := range r.Limits {
		others[i] = fmt.Sprintf("%.1f kn for %s", l.Kn, l.VesselClass)
	}
	return "the layer gives a figure for other vessels only (" + joinWords(others) + ")"
}

func (c *checker) zoneWords(z *passage.ZonePassage) string {
	text := fmt.Sprintf("From %s to %s.", c.clock(z.Enter), c.clock(z.Leave))
	if in := z.Feature.Rules.Season; !in.Holds(z.Enter.In(c.zone())) || !in.Holds(z.Leave.In(c.zone())) {
		text += " Its season begins or ends while she is inside: planned at the limit throughout."
	}
	if z.Slow != nil {
		text = fmt.Sprintf("Begin to slow from %.0f kn at %s, %.0f m before the line. %s", z.Slow.FromKn, c.clock(z.Slow.Time), c.plan.Boat.SlowDownM, text)
	}
	return text
}
