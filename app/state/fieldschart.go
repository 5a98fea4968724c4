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
	listed("classes", "Vessel classes", "Speed limits for classes of vessels that she belongs to, with commas between. Limits for all hold in any case.",
		",", func(p *plan.Plan) *[]string { return &p.Choices.VesselClasses }),
	listed("trust", "Charts trusted over official ones", "Titles of derived charts, with semicolons between, that count like official ones. Where such a chart is of larger scale, depths and dangers of the official chart do not count. Empty unless you know the derived chart to be the better one.",
		";", func(p *plan.Plan) *[]string { return &p.Choices.Trust }),
	maybe("buoyage", "Direction of buoyage", "°", "Degrees true, going in from seaward, where the chart does not say.", own(func(p *plan.Plan) **float64 { return &p.BuoyageDeg })),
	{ID: "region", Label: "Buoyage region", Kind: BoxSelect, Options: [][2]string{{"", "as charted"}, {"A", "A: red to port"}, {"B", "B: red to starboard"}},
		Help: "IALA region, where the chart does not say. Red to port or to starboard when coming in from seaward.",
		Get:  func(p *plan.Plan) string { return p.BuoyageRegion },
		set:  func(p *plan.Plan, text string) error { p.BuoyageRegion = text; return nil }},
}

// listed is a field of texts with a separator between them; blanks about a text and
// empty texts count for nothing.
func listed(id, label, help, separator string, of func(p *plan.Plan) *[]string) Field {
	return Field{ID: id, Label: label, Help: help,
		Get: func(p *plan.Plan) string { return strings.Join(*of(p), separator+" ") },
		set: func(p *plan.Plan, text string) error {
			var list []string
			for _, t := range strings.Split(text, separator) {
				if t = strings.TrimSpace(t); t != "" {
					list = append(list, t)
				}
			}
			*of(p) = list
			return nil
		}}
}
