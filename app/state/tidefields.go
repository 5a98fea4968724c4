package state

import (
	"fmt"
	"strconv"
	"strings"

	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

// TideFields are those of a tide that is there.
var TideFields = []Field{
	{ID: "adjust", Label: "Adjust heights by", Unit: "m", Help: "Added to every height: negative when water stands low, about −0.01 m for each hPa above 1013. From a surge forecast or a gauge, never from an echo sounding.",
		Get: func(p *plan.Plan) string {
			if p.Tide == nil {
				return "0"
			}
			return spell(p.Tide.AdjustM)
		},
		set: func(p *plan.Plan, text string) error {
			if p.Tide == nil {
				return fmt.Errorf("there is no tide yet; give one first")
			}
			v, err := entry.Metres(text)
			if err == nil {
				p.Tide.AdjustM = v
			}
			return err
		}},
	maybe("height-datum", "Datum of charted heights", "m", "How far the level that the chart's bridges are charted above, mean high water springs for instance, lies above the datum of this tide. Empty: as the tide's station says, if it does; else nothing is added, and the report says so.",
		func(p *plan.Plan, make bool) **float64 {
			if p.Tide == nil {
				if !make {
					return nil
				}
				p.Tide = &plan.TideSource{}
			}
			return &p.Tide.HeightDatumM
		}),
}

// TideMethod says how far the heights are to be trusted, or why they cannot be used.
func TideMethod(t *plan.TideSource) string {
	if t == nil || t.Form() == "" {
		return ""
	}
	heights, err := hazards.NewTide(t)
	if err != nil {
		_, words, _ := strings.Cut(err.Error(), ": ")
		return "This tide cannot be used: " + words + "."
	}
	return phrase.Capital(heights.Describe()) + "."
}

// TideLine says what the heights come from.
func TideLine(t *plan.TideSource) string {
	if t == nil {
		return "No tide is given: the clearance under the keel is not known."
	}
	name := t.Station
	if name == "" {
		name = "a place without a name"
	}
	datum := "a datum that is not named"
	if n, ok := tide.VERDATName(t.DatumOf()); ok {
		datum = n
	}
	switch t.Form() {
	case plan.Harmonic:
		return fmt.Sprintf("%s: %s, heights above %s.", name, phrase.Counted(len(t.Constituents), "harmonic constituent", "harmonic constituents"), datum)
	case plan.Table:
		return fmt.Sprintf("%s: a table of %s, heights above %s. Between them the height is estimated; the margin grows for it.", name, phrase.Counted(len(t.Events), "high or low water", "high and low waters"), datum)
	case plan.SecondaryPort:
		return fmt.Sprintf("%s: a secondary port, heights above %s.", name, datum)
	case plan.Tideless:
		return fmt.Sprintf("%s: no tide, a steady level of %s m above %s.", name, spelled(t.LevelM), datum)
	}
	return "The tide is not complete."
}

// DatumOptions are the vertical datums that tide lists use (IHO S-57, VERDAT).
func DatumOptions() [][2]string {
	list := [][2]string{{"", "choose"}}
	for n := 1; n < 60; n++ {
		if name, ok := tide.VERDATName(n); ok {
			list = append(list, [2]string{strconv.Itoa(n), name})
		}
	}
	return list
}

// TableZones are the zones that a tide table may be in.
var TableZones = [][2]string{{"", "choose"}, {"plan", "the plan's zone, with its summer time"}, {"standard", "the plan's zone without summer time"}, {"ut", "Universal Time (UT)"}}

// decodeTide reads a plan's tide member.
func decodeTide(member []byte) (*plan.TideSource, error) {
	p, err := plan.DecodeDraft([]byte(`{"type":"FeatureCollection","features":[],"plan":{"version":1,"tide":` + string(member) + `}}`))
	if err != nil {
		return nil, err
	}
	return p.Tide, nil
}
