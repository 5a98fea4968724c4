package entry

import (
	"strconv"
	"strings"
	"unicode"
)

// mostText is how long a text of one field may be.
const mostText = 200

// plain takes typographic signs for the plain ones they stand for.
var plain = strings.NewReplacer(
	"\u2032\u2032", `"`, "\u2032", "'", "\u2019", "'", "\u2018", "'", "\u00b4", "'", "`", "'",
	"\u2033", `"`, "\u201d", `"`, "\u201c", `"`, "''", `"`,
	"\u00ba", "°", "\u02da", "°",
	"\u2212", "-", "\u2013", "-", "\u2014", "-",
	"\ufeff", "", "\u200b", "",
)

// tidy is the text of one field: plain signs, single spaces.
func tidy(text string) string {
	return strings.Join(strings.FieldsFunc(plain.Replace(text), unicode.IsSpace), " ")
}

// shown quotes what was typed for a message, shortened.
func shown(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "..."
	}
	return strconv.Quote(text)
}

// digits says whether a text is nothing but ASCII digits, and at least one.
func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// decimal reads a plain number: digits with at most one point or comma, and a sign
// before them. Powers, thousands and names of numbers are none.
func decimal(s string) (float64, bool) {
	body := strings.TrimPrefix(strings.TrimPrefix(s, "+"), "-")
	if len(body) > 32 || len(s)-len(body) > 1 {
		return 0, false
	}
	whole, fraction, point := strings.Cut(strings.Replace(body, ",", ".", 1), ".")
	if !digits(whole) || point && !digits(fraction) {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	return v, err == nil
}

// figure spells a number with at most so many decimals.
func figure(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
