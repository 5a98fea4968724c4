package hazards

import (
	"fmt"
	"strings"

	"keelroom/geo/chart"
)

// restrictions are the RESTRN codes in words (IHO S-57 App. A, attribute 131; 39 and
// 42 are of the S-101 Feature Catalogue 2.1.0).
var restrictions = map[int]string{
	1: "anchoring prohibited", 2: "anchoring restricted", 3: "fishing prohibited", 4: "fishing restricted", 5: "trawling prohibited",
	6: "trawling restricted", 7: "entry prohibited", 8: "entry restricted; find out on what terms", 9: "dredging prohibited", 10: "dredging restricted",
	11: "diving prohibited", 12: "diving restricted", 13: "no wake", 14: "to be avoided", 15: "building prohibited", 16: "discharging prohibited",
	17: "discharging restricted", 18: "exploration and development prohibited", 19: "exploration and development restricted",
	20: "drilling prohibited", 21: "drilling restricted", 22: "taking historical artefacts prohibited", 23: "cargo transhipment prohibited",
	24: "dragging prohibited", 25: "stopping prohibited", 26: "landing prohibited", 27: "speed restricted", 39: "swimming prohibited",
	42: "power-driven vessels prohibited",
}

// categories are the CATREA codes in words (IHO S-57 App. A, attribute 56; from 27 on
// the S-101 Feature Catalogue 2.1.0).
var categories = map[int]string{
	1: "an offshore safety zone", 4: "a nature reserve", 5: "a bird sanctuary", 6: "a game reserve", 7: "a seal sanctuary", 8: "a degaussing range",
	9: "a military area", 10: "a historic wreck area", 12: "the safety zone of an aid to navigation", 14: "a minefield", 18: "a bathing area",
	19: "a waiting area", 20: "a research area", 21: "a dredging area", 22: "a fish sanctuary", 23: "an ecological reserve", 24: "a no-wake area",
	25: "a swinging area", 27: "an environmentally sensitive area", 28: "a particularly sensitive area", 29: "a disengagement area",
	30: "a port security area", 31: "a coral sanctuary", 32: "a recreation area",
}

func restrictionWord(code int) string {
	if word := restrictions[code]; word != "" {
		return word
	}
	return fmt.Sprintf("restriction number %d", code)
}

func categoryWord(code int) string {
	if word := categories[code]; word != "" {
		return word
	}
	return fmt.Sprintf("an area of category %d", code)
}

// The codes that a speed zone is told by: they are in its own words.
var (
	speedRestrictions = chart.CodesOf(13, 27)
	speedCategories   = chart.CodesOf(24)
)

// ruleWords are all rules and categories of an area but for its speed limit.
func ruleWords(r *chart.Rules) []string {
	var out []string
	for _, code := range (r.Restrn &^ speedRestrictions).List() {
		out = append(out, restrictionWord(code))
	}
	for _, code := range (r.CatRea &^ speedCategories).List() {
		out = append(out, categoryWord(code))
	}
	return out
}

// firstRule is the first of an area's rules that is among the codes.
func firstRule(r *chart.Rules, restrn, catrea chart.Codes) string {
	for _, code := range (r.Restrn & restrn).List() {
		return restrictionWord(code)
	}
	for _, code := range (r.CatRea & catrea).List() {
		return categoryWord(code)
	}
	return "a restricted area"
}

func joinWords(words []string) string { return strings.Join(words, ", ") }
