package layer

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"keelroom/geo/chart"
)

// everyday are words that a person would write for a class (common usage, no
// source), in the singular and without blanks.
var everyday = map[string][]string{
	"rock": {"UWTROC"}, "reef": {"UWTROC"}, "ledge": {"UWTROC"}, "underwaterrock": {"UWTROC"}, "awashrock": {"UWTROC"}, "stone": {"UWTROC"}, "boulder": {"UWTROC"},
	"shipwreck": {"WRECKS"}, "obstacle": {"OBSTRN"}, "danger": {"OBSTRN"}, "hazard": {"OBSTRN"}, "foul": {"OBSTRN"}, "stump": {"OBSTRN"},
	"shoal": {"OBSTRN", "DEPARE"}, "shallow": {"DEPARE"}, "bank": {"DEPARE"}, "depth": {"DEPARE", "SOUNDG"}, "water": {"DEPARE"},
	"contour": {"DEPCNT"}, "isobath": {"DEPCNT"}, "depthline": {"DEPCNT"}, "spot": {"SOUNDG"}, "spotdepth": {"SOUNDG"},
	"land": {"LNDARE"}, "island": {"LNDARE"}, "islet": {"LNDARE"}, "coast": {"COALNE"}, "shore": {"COALNE"}, "shoreline": {"COALNE"},
	"pier": {"SLCONS"}, "jetty": {"SLCONS"}, "wharf": {"SLCONS"}, "quay": {"SLCONS"}, "breakwater": {"SLCONS"}, "mole": {"SLCONS"}, "groyne": {"SLCONS"},
	"buoy": {"BOYLAT", "BOYCAR", "BOYISD", "BOYSAW", "BOYSPP"}, "beacon": {"BCNLAT", "BCNCAR", "BCNISD", "BCNSAW", "BCNSPP"},
	"cardinalbuoy": {"BOYCAR"}, "cardinal": {"BOYCAR", "BCNCAR"}, "lateral": {"BOYLAT", "BCNLAT"}, "redbuoy": {"BOYLAT"}, "greenbuoy": {"BOYLAT"},
	"mark": {"BOYLAT", "BCNLAT", "BOYCAR", "BCNCAR"}, "perch": {"BCNLAT"}, "withy": {"BCNLAT"}, "post": {"PILPNT"}, "stake": {"PILPNT", "FSHFAC"},
	"mooring": {"MORFAC"}, "mooringbuoy": {"MORFAC"}, "dolphin": {"MORFAC"},
	"cable": {"CBLOHD", "CBLSUB"}, "powerline": {"CBLOHD"}, "pipe": {"PIPOHD", "PIPSOL"}, "pipeline": {"PIPOHD", "PIPSOL"}, "lock": {"LOKBSN", "GATCON"}, "weir": {"DAMCON"},
	"speedzone": {"RESARE"}, "speedlimit": {"RESARE"}, "nowake": {"RESARE"}, "zone": {"RESARE"}, "noentry": {"RESARE"}, "restricted": {"RESARE"}, "restriction": {"RESARE"},
	"fishfarm": {"MARCUL"}, "farm": {"MARCUL"}, "net": {"FSHFAC"}, "platform": {"OFSPLF"}, "caution": {"CTNARE"}, "coverage": {"M_COVR"},
}

// suggested names the classes that may be meant by a class name that nobody
// knows, as the end of what is wanted; "" where none is like it.
func suggested(name string) string {
	names := likeName(name)
	if len(names) == 0 {
		return ""
	}
	return ", such as " + strings.Join(names, ", ")
}

// likeName are the acronyms of the classes whose names are like a text.
func likeName(name string) []string {
	const longest = 60
	word := plainWord(name[:min(len(name), longest)])
	for _, w := range []string{word, strings.TrimSuffix(word, "s")} {
		if names := everyday[w]; names != nil {
			return names
		}
	}
	return nearest(word)
}

// plainWord is a text in lower case without what is no letter.
func plainWord(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// slips is how many letters may be wrong, missing, too many or exchanged: one in
// four.
func slips(word string) int { return max(1, min(3, len(word)/4)) }

// nearest are the classes with the fewest slips from a word, none where all have
// too many.
func nearest(word string) []string {
	if len(word) < 3 {
		return nil
	}
	least, found := slips(word)+1, map[chart.Class]bool{}
	for name, class := range classes {
		switch n := slipsBetween(word, plainWord(name), least); {
		case n < least:
			least, found = n, map[chart.Class]bool{class: true}
		case n == least && n <= slips(word):
			found[class] = true
		}
	}
	const most = 3
	var names []string
	for _, class := range slices.Sorted(maps.Keys(found)) {
		names = append(names, fmt.Sprint(class))
	}
	return names[:min(len(names), most)]
}

// slipsBetween is the number of slips of the finger between two words (F. Damerau,
// 1964, Communications of the ACM 7(3): a letter wrong, missing, too many, or two
// exchanged), or some number above most.
func slipsBetween(a, b string, most int) int {
	if len(a)-len(b) > most || len(b)-len(a) > most {
		return most + 1
	}
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			wrong := 1
			if a[i-1] == b[j-1] {
				wrong = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+wrong)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
