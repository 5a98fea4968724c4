package state

import (
	"strconv"
	"strings"

	"keelroom/hazards/plan"
)

// ChartFields are the answers where a chart is silent.
var ChartFields = []Field{
	{ID: "sounding-datum", Label: "Depths are below", Kind: BoxSelect, Options: DatumOptions(),
		Help: "Only for charts that do not say their datum: look at the paper chart's title. A wrong answer makes every depth wrong.",
		Get: func(p *plan.Plan) string {
			if p.Choices.SoundingDatum == 0 {
				return ""
			}
			return strconv.Itoa(p.Choices.SoundingDatum)
		},
		set: func(p *plan.Plan, text string) error {
			p.Choices.SoundingDatum, _ = strconv.Atoi(text) // "" is not answered: 0
			return nil
		}},
	maybe("tide-above-chart", "Tide's datum above the chart's", "m", "Where the tide's heights and the chart's depths have different levels: how far the tide's lies above the chart's. Empty: not known, and then nothing is computed from the two.",
		own(func(p *plan.Plan) **float64 { return &p.Choices.TideAboveChartM })),
	tick("expsou", "Take soundings marked as not shoaler at their word", "Dangers without a depth whose chart says that they are not shoaler than the depth around them (EXPSOU 1).",
		func(p *plan.Plan) *bool { return &p.Choices.AcceptExpsou1 }),
	{ID: "classes", Label: "Vessel classes", Help: "Speed limits for classes of vessels that she belongs to, with commas between. Limits for all hold in any case.",
		Get: func(p *plan.Plan) string { return strings.Join(p.Choices.VesselClasses, ", ") },
		set: func(p *plan.Plan, text string) error {
			p.Choices.VesselClasses = nil
			for _, c := range strings.Split(text, ",") {
				if c = strings.TrimSpace(c); c != "" {
					p.Choices.VesselClasses = append(p.Choices.VesselClasses, c)
				}
			}
			return nil
		}},
	{ID: "trust", Label: "Charts trusted over official ones", Help: "Titles of derived charts, with semicolons between, that count like official ones. Where such a chart is of larger scale, depths and dangers of the official chart do not count. Empty unless you know the derived chart to be the better one.",
		Get: func(p *plan.Plan) string { return strings.Join(p.Choices.Trust, "; ") },
		set: func(p *plan.Plan, text string) error {
			p.Choices.Trust = nil
			for _, title := range strings.Split(text, ";") {
				if title = strings.TrimSpace(title); title != "" {
					p.Choices.Trust = append(p.Choices.Trust, title)
				}
			}
			return nil
		}},
	maybe("buoyage", "Direction of buoyage", "°", "Degrees true, going in from seaward, where the chart does not say.", own(func(p *plan.Plan) **float64 { return &p.BuoyageDeg })),
	{ID: "region", Label: "Buoyage region", Kind: BoxSelect, Options: [][2]string{{"", "as charted"}, {"A", "A: red to port"}, {"B", "B: red to starboard"}},
		Help: "IALA region, where the chart does not say. Red to port or to starboard when coming in from seaward.",
		Get:  func(p *plan.Plan) string { return p.BuoyageRegion },
		set:  func(p *plan.Plan, text string) error { p.BuoyageRegion = text; return nil }},
}
