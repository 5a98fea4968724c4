package entry

import (
	"fmt"
	"strings"
	"time"

	"keelroom/hazards/plan"
)

const swellExample = "type time, direction, metres and seconds, as 09:00 W 0.4 6"

// SwellTable reads the swell, one time a line: time, direction it comes from,
// significant height in metres, period in seconds: "09:00 W 0.4 6", "0900 270 0.4m 6s".
// Its error is a *[LineErrors]; the lines tell how each was read even then.
func SwellTable(text string, day Day, zone *time.Location) ([]plan.Swell, []Line, error) {
	r := &rows{day: day, zone: zone}
	var swells []plan.Swell
	r.read(text, tideHeading, func(found row) (read, wrong string) {
		s, err := swell(found)
		if err != nil {
			return "", err.Error()
		}
		if n := len(swells); n > 0 && !s.Time.After(swells[n-1].Time) {
			return "", r.early(s.Time, swells[n-1].Time)
		}
		swells = append(swells, s)
		return fmt.Sprintf("%s from %s° (%s), %s m, %s s", clockOf(s.Time, zone), exact(s.FromDeg), Point(s.FromDeg), exact(s.HeightM), exact(s.PeriodS)), ""
	})
	return finished(r, swells)
}

func swell(found row) (plan.Swell, error) {
	s := plan.Swell{Time: found.at.UTC()}
	deg, rest, err := direction(found.tokens)
	if err != nil {
		return s, err
	}
	s.FromDeg = deg
	rest = withUnits(rest)
	if len(rest) != 2 {
		return s, fmt.Errorf("a height and a period are wanted: %s", swellExample)
	}
	if s.HeightM, err = Metres(rest[0]); err != nil {
		return s, err
	}
	if s.PeriodS, err = seconds(rest[1]); err != nil {
		return s, err
	}
	switch {
	case s.HeightM < 0 || s.HeightM > 30:
		return s, fmt.Errorf("%s m is no height of swell: %s", exact(s.HeightM), swellExample)
	case s.PeriodS < 1 || s.PeriodS > 40:
		return s, fmt.Errorf("%s s is no period of swell: %s", exact(s.PeriodS), swellExample)
	}
	return s, nil
}

// withUnits puts units that stand alone to the figure before them.
func withUnits(tokens []string) []string {
	var out []string
	for _, token := range tokens {
		if n := len(out); n > 0 && !strings.ContainsAny(token, "0123456789") {
			out[n-1] += token
		} else {
			out = append(out, token)
		}
	}
	return out
}

func seconds(token string) (float64, error) {
	number, unit := splitUnit(token)
	v, ok := decimal(number)
	if !ok || unit != "" && unit != "s" && unit != "sec" {
		return 0, fmt.Errorf("%s is no period in seconds: %s", shown(token), swellExample)
	}
	return v, nil
}

// FormatSwell writes a table that [SwellTable] reads as the same, in that zone.
func FormatSwell(swells []plan.Swell, zone *time.Location) string {
	var b strings.Builder
	for _, s := range swells {
		fmt.Fprintf(&b, "%s %s %s m %s s\n", stamp(s.Time, zone), bearing(s.FromDeg), exact(s.HeightM), exact(s.PeriodS))
	}
	return b.String()
}
