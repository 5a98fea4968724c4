package engine

import (
	"strconv"
	"strings"

	"keelroom/geo/chart"
)

// bedLetters are the abbreviations of the nature of the sea bed by NATSUR code.
// Source: S-57 Appendix A, attribute 113; letters of IHO INT 1, section J (from
// memory).
var bedLetters = map[int]string{
	1: "M", 2: "Cy", 3: "Si", 4: "S", 5: "St", 6: "G", 7: "P", 8: "Cb", 9: "R", 11: "R", 14: "Co", 17: "Sh", 18: "Bo",
}

// bedWords are the letters of a sea bed, a full stop between them: no order of
// layers is named.
func bedWords(of chart.Codes) string {
	var words []string
	for _, c := range of.List() {
		if w := bedLetters[c]; w != "" {
			words = append(words, w)
		}
	}
	return strings.Join(words, ".")
}

// lightLetters are the abbreviations of the character of a light by LITCHR code.
// Source: S-57 Appendix A, attribute 107; letters of IHO INT 1, section P (from
// memory).
var lightLetters = map[int]string{
	1: "F", 2: "Fl", 3: "LFl", 4: "Q", 5: "VQ", 6: "UQ", 7: "Iso", 8: "Oc", 9: "IQ", 10: "IVQ", 11: "IUQ", 12: "Mo",
	13: "FFl", 14: "Fl+LFl", 15: "OcFl", 16: "FLFl", 17: "AlOc", 18: "AlLFl", 19: "AlFl", 20: "AlGr",
	25: "Q+LFl", 26: "VQ+LFl", 27: "UQ+LFl", 28: "Al", 29: "AlFFl",
}

// lightColours are the letters of the colours a light may have (S-57 attribute 75;
// IHO INT 1, section P; from memory). White is not written alone.
var lightColours = map[int]string{1: "W", 3: "R", 4: "G", 5: "Bu", 6: "Y", 9: "Am", 10: "Vi", 11: "Or"}

// lightWords writes the character of a light as a chart does: Fl(2)R.10s. It is
// empty where the character is not stated.
func lightWords(l *chart.Light) string {
	words := lightLetters[l.Character]
	if words == "" {
		return ""
	}
	if g := strings.ReplaceAll(strings.ReplaceAll(l.Group, "()", ""), "(1)", ""); strings.HasPrefix(g, "(") && len(g) < 16 {
		words += g
	}
	colours := ""
	for _, c := range l.Colours {
		colours += lightColours[c]
	}
	if colours != "" && colours != "W" {
		words += colours
	}
	if l.PeriodS > 0 {
		words += "." + strconv.FormatFloat(l.PeriodS, 'f', -1, 64) + "s"
	}
	return words
}
