package entry

import (
	"fmt"
	"strings"
	"time"

	"keelroom/hazards/plan"
)

const streamExample = "type time, the direction it runs toward, and knots, as 09:00 045 1.2"

// StreamTable reads tidal or other streams, one time a line: time, direction they
// run toward (as streams are told, the other way round from wind), knots: "09:00 NE
// 1.2", "0900 045 1.2 kn". Its error is a *[LineErrors]; the lines tell how each was
// read even then.
func StreamTable(text string, day Day, zone *time.Location) ([]plan.Stream, []Line, error) {
	r := &rows{day: day, zone: zone}
	var streams []plan.Stream
	r.read(text, streamHeading, func(found row) (read, wrong string) {
		s, err := stream(found)
		if err != nil {
			return "", err.Error()
		}
		if n := len(streams); n > 0 && !s.Time.After(streams[n-1].Time) {
			return "", r.early(s.Time, streams[n-1].Time)
		}
		streams = append(streams, s)
		return fmt.Sprintf("%s toward %s° (%s), %s kn", clockOf(s.Time, zone), exact(s.TowardDeg), Point(s.TowardDeg), exact(s.Kn)), ""
	})
	return finished(r, streams)
}

// streamHeading refuses a table that says its directions are where it comes from.
func streamHeading(line string) string {
	for word := range strings.FieldsFuncSeq(strings.ToLower(line), func(r rune) bool { return r < 'a' || r > 'z' }) {
		if word == "from" {
			return "streams are told by where they run toward: turn the directions round"
		}
	}
	return ""
}

func stream(found row) (plan.Stream, error) {
	s := plan.Stream{Time: found.at.UTC()}
	for _, token := range found.tokens {
		if strings.EqualFold(token, "from") {
			return s, fmt.Errorf("streams are told by where they run toward: %s", streamExample)
		}
	}
	deg, rest, err := direction(found.tokens)
	if err != nil {
		return s, err
	}
	s.TowardDeg = deg
	rest = withUnits(rest)
	if len(rest) != 1 {
		return s, fmt.Errorf("one speed is wanted: %s", streamExample)
	}
	if s.Kn, err = Knots(rest[0]); err != nil {
		return s, err
	}
	if s.Kn < 0 || s.Kn > 30 {
		return s, fmt.Errorf("%s kn is no speed of a stream: %s", exact(s.Kn), streamExample)
	}
	return s, nil
}

// FormatStream writes a table that [StreamTable] reads as the same, in that zone.
func FormatStream(streams []plan.Stream, zone *time.Location) string {
	var b strings.Builder
	for _, s := range streams {
		fmt.Fprintf(&b, "%s %s %s kn\n", stamp(s.Time, zone), bearing(s.TowardDeg), exact(s.Kn))
	}
	return b.String()
}
