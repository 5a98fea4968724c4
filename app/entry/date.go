package entry

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

const dateExample = "type it as 2026-07-18"

// Date reads a date: 2026-07-18, 18.7.2026, 18 July 2026.
func Date(text string) (Day, error) {
	s := tidy(text)
	switch {
	case s == "":
		return Day{}, errors.New("nothing typed: " + dateExample)
	case strings.Count(s, "/") > 0:
		return Day{}, fmt.Errorf("%s may be read with the day or the month first: %s", shown(s), dateExample)
	}
	if d, ok, err := date(s); ok {
		return d, err
	}
	if d, ok, err := named(s); ok {
		return d, err
	}
	return Day{}, fmt.Errorf("%s is no date with its year: %s", shown(s), dateExample)
}

// date reads a date in figures; ok is false for what does not look like one.
func date(s string) (d Day, ok bool, err error) {
	var year, month, day string
	if parts := strings.Split(s, "-"); len(parts) == 3 && len(parts[0]) == 4 {
		year, month, day = parts[0], parts[1], parts[2]
	} else if parts := strings.Split(s, "."); len(parts) == 3 && len(parts[2]) == 4 {
		day, month, year = parts[0], parts[1], parts[2]
	}
	if !digits(year) || !digits(month) || !digits(day) || len(month) > 2 || len(day) > 2 {
		return Day{}, false, nil
	}
	y, _ := strconv.Atoi(year)
	m, _ := strconv.Atoi(month)
	n, _ := strconv.Atoi(day)
	d, err = calendar(s, y, time.Month(m), n)
	return d, true, err
}

// named reads a date with the month's name, or its first three letters.
func named(s string) (d Day, ok bool, err error) {
	parts := strings.Fields(strings.ReplaceAll(s, ".", " "))
	if len(parts) != 3 || !digits(parts[0]) || len(parts[0]) > 2 || !digits(parts[2]) || len(parts[2]) != 4 {
		return Day{}, false, nil
	}
	for m := time.January; m <= time.December; m++ {
		name := m.String()
		if strings.EqualFold(parts[1], name) || strings.EqualFold(parts[1], name[:3]) {
			n, _ := strconv.Atoi(parts[0])
			y, _ := strconv.Atoi(parts[2])
			d, err := calendar(s, y, m, n)
			return d, true, err
		}
	}
	return Day{}, false, nil
}

// calendar refuses dates that the calendar, or a plan, does not have.
func calendar(s string, y int, m time.Month, d int) (Day, error) {
	t := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	if m < 1 || m > 12 || d < 1 || t.Month() != m || t.Day() != d {
		return Day{}, fmt.Errorf("%s is not in the calendar: %s", shown(s), dateExample)
	}
	if y < 1975 || y > 2199 {
		return Day{}, fmt.Errorf("%s: the year lies from 1975 to 2199", shown(s))
	}
	return Day{y, m, d}, nil
}
