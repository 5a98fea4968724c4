// Package phrase puts words together: numbers of things, lists, beginnings of sentences.
package phrase

import (
	"fmt"
	"strings"
)

// Counted writes a number of things in words up to twelve.
func Counted(n int, one, many string) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	word := fmt.Sprint(n)
	if n < len(words) {
		word = words[n]
	}
	if n == 1 {
		return word + " " + one
	}
	return word + " " + many
}

// Joined writes a list with "and" before its last.
func Joined(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// Capital begins with a capital letter.
func Capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
