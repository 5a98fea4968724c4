package tide

import "strings"

// part is a constituent in a compound, count times over; negative counts are taken away.
type part struct {
	name  string
	count int
}

// xdoLetter is the value of a letter of an extended Doodson number: Z = 0, A = 1 …, Y = −1 ….
func xdoLetter(c byte) int {
	switch {
	case c == 'Z':
		return 0
	case c <= 'M':
		return int(c-'A') + 1
	}
	return int(c) - 'Z'
}

// own is a constituent with an argument of its own: its extended Doodson number and modulation.
type own struct {
	xdo  string
	node node
}

func (o own) definition() definition {
	var d definition
	for i := range d.args {
		d.args[i] = xdoLetter(o.xdo[i])
	}
	d.quarter = xdoLetter(o.xdo[6])
	if o.node != nodeNone {
		d.factors = []factor{{o.node, 1}}
	}
	return d
}

// compose adds up parts.
func compose(parts []part) definition {
	var sum definition
	for _, p := range parts {
		d := primary[p.name].definition()
		for i := range d.args {
			sum.args[i] += p.count * d.args[i]
		}
		sum.quarter += p.count * d.quarter
		for _, f := range d.factors {
			sum.factors = append(sum.factors, factor{f.node, p.count * f.count})
		}
	}
	return sum
}

// splitSum reads a row of compounds such as "S2-M2".
func splitSum(s string) []part {
	var parts []part
	for _, term := range strings.Split(strings.ReplaceAll(s, "-", "+-"), "+") {
		name, minus := strings.CutPrefix(term, "-")
		count := 1
		if minus {
			count = -1
		}
		parts = append(parts, part{name, count})
	}
	return parts
}

// letters are the constituents that single letters stand for in the names of compounds. K is K1
// or K2, whichever gives the right number of cycles a day.
var letters = map[byte]string{
	'M': "M2", 'S': "S2", 'N': "N2", 'L': "L2", 'T': "T2", 'R': "R2",
	'O': "O1", 'P': "P1", 'Q': "Q1", 'J': "J1",
}

// Names longer than this, or with more cycles a day, are no constituents.
const (
	longestName = 12
	mostPerDay  = 14
)

// spell takes a compound's name apart by annex B of the IHO list: letters with multipliers before
// them, then the number of cycles a day; where the plain sum has too many, signs change from the
// right until it fits.
func spell(name string) ([]part, bool) {
	if len(name) > longestName {
		return nil, false
	}
	body, perDay, ok := cutPerDay(name)
	if !ok {
		return nil, false
	}
	terms, ok := readTerms(body)
	if !ok {
		return nil, false
	}
	if len(terms) == 1 && terms[0].count == 1 { // M4, S6, N4: the letter as often as it fits
		return repeated(terms[0].name[0], perDay)
	}
	for _, k := range []string{"K2", "K1"} {
		if parts, ok := balance(terms, k, perDay); ok {
			return parts, true
		}
	}
	return nil, false
}

// repeated is a lone letter taken so often that it has perDay cycles a day.
func repeated(letter byte, perDay int) ([]part, bool) {
	name := letters[letter]
	if letter == 'K' {
		name = "K2"
	}
	if name == "" || perDay <= 2 || perDay%cycles(name) != 0 {
		return nil, false
	}
	return []part{{name, perDay / cycles(name)}}, true
}

// cutPerDay splits off the digits at the end.
func cutPerDay(name string) (body string, perDay int, ok bool) {
	end := len(name)
	for end > 0 && name[end-1] >= '0' && name[end-1] <= '9' {
		end--
	}
	for _, c := range []byte(name[end:]) {
		perDay = perDay*10 + int(c-'0')
	}
	return name[:end], perDay, end > 0 && perDay > 0 && perDay <= mostPerDay
}

// readTerms reads letters with multipliers; a multiplier before brackets holds for all inside.
// The names of the terms are still single letters.
func readTerms(body string) ([]part, bool) {
	var terms []part
	count, group, inGroup := 0, 1, false
	for _, c := range []byte(body) {
		switch {
		case c >= '1' && c <= '9' && count == 0:
			count = int(c - '0')
		case c == '(' && !inGroup:
			group, inGroup, count = max(count, 1), true, 0
		case c == ')' && inGroup && count == 0:
			group, inGroup = 1, false
		case c == 'K' || letters[c] != "":
			terms = append(terms, part{string(c), group * max(count, 1)})
			count = 0
		default:
			return nil, false
		}
	}
	return terms, len(terms) > 0 && count == 0 && !inGroup
}

// balance changes signs from the right until the terms have perDay cycles a day, with K standing
// for k.
func balance(terms []part, k string, perDay int) ([]part, bool) {
	parts := make([]part, len(terms))
	sum := 0
	for i, t := range terms {
		name := letters[t.name[0]]
		if t.name == "K" {
			name = k
		}
		parts[i] = part{name, t.count}
		sum += t.count * cycles(name)
	}
	for i := len(parts) - 1; i > 0 && sum != perDay; i-- {
		sum -= 2 * parts[i].count * cycles(parts[i].name)
		parts[i].count = -parts[i].count
	}
	return parts, sum == perDay
}

// cycles a day of a constituent that a letter stands for.
func cycles(name string) int { return int(name[len(name)-1] - '0') }
