package layer

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"keelroom/geo/chart"
)

// MaxText is how many characters a name or another text of a chart may have. A
// longer one is cut, with W-NAME: every finding about its feature repeats it.
const MaxText = 1000

// clipped is a text with no more than one character over MaxText, which tells
// that it is too long. It does not hold on to the bytes that it leaves out.
func clipped(s string) string {
	if end := endOf(s, MaxText+1); end < len(s) {
		return strings.Clone(s[:end])
	}
	return s
}

// endOf is where the first n characters of a text end.
func endOf(s string, n int) int {
	if len(s) <= n {
		return len(s)
	}
	end := 0
	for ; n > 0 && end < len(s); n-- {
		_, size := utf8.DecodeRuneInString(s[end:])
		end += size
	}
	return end
}

// cut is a text of at most MaxText characters; short tells that it had more.
func cut(s string) (text string, short bool) {
	if endOf(s, MaxText) == len(s) {
		return s, false
	}
	return s[:endOf(s, MaxText-1)] + "…", true
}

// cutText is cut with a warning about an attribute.
func (r *reading) cutText(text, attribute string) string {
	text, short := cut(text)
	if short {
		r.warn("W-NAME", attribute, foundLong, wantedText)
	}
	return text
}

var (
	foundLong  = fmt.Sprintf("a text of more than %d characters, which is cut there", MaxText)
	wantedText = fmt.Sprintf("%d characters or fewer", MaxText)
)

// cutTexts cuts what a data set or a layer says of itself.
func (b *Builder) cutTexts(file string, where func(string) string, texts map[string]*string) {
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		text, short := texts[name], false
		if *text, short = cut(clipped(*text)); short {
			b.Log.Add(chart.Message{Level: chart.Warning, Code: "W-NAME", File: file, Path: where(name), Found: foundLong, Wanted: wantedText})
		}
	}
}
