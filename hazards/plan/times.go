package plan

import "time"

// The years whose times are taken; see the package comment.
const (
	firstYear = 1975
	lastYear  = 2199
)

const timeWanted = "a time such as 2026-07-01T09:30:00+01:00 is wanted"

// parseTime reads an RFC 3339 time as an instant in UTC, or says what is wrong.
func parseTime(s string) (t time.Time, wrong string) {
	if t, err := time.Parse(time.RFC3339, s); err == nil && hasTimeShape(s) {
		return t.UTC(), timeWrong(t)
	}
	return time.Time{}, quoted(s) + clockWithoutOffset(s) + "; " + timeWanted
}

// hasTimeShape refuses what time.Parse takes beyond RFC 3339: an hour of one
// digit, and a comma before the fraction.
func hasTimeShape(s string) bool {
	const shape = "0000-00-00T00:00:00"
	if len(s) <= len(shape) {
		return false
	}
	for i, c := range []byte(shape) {
		if c != '0' && s[i] != c {
			return false
		}
	}
	return s[len(shape)] != ','
}

func clockWithoutOffset(s string) string {
	for _, layout := range []string{"2006-01-02T15:04:05", "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02 15:04"} {
		if _, err := time.Parse(layout, s); err == nil {
			return " has no zone offset"
		}
	}
	return ""
}

func timeWrong(t time.Time) string {
	if y := t.UTC().Year(); y < firstYear || y > lastYear {
		return "the year " + said(float64(y)) + "; a year from 1975 to 2199 is wanted"
	}
	return ""
}

// spell writes an instant as RFC 3339 with the offset of the zone then.
func spell(t time.Time, zone *time.Location) string {
	return t.In(zone).Format(time.RFC3339Nano)
}
