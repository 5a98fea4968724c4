package entry

import (
	"errors"
	"fmt"
	"strings"
)

// angle reads one coordinate: degrees, minutes and seconds as far as they are
// given, of which only the last has decimals.
func angle(tokens []token) (coordinate, error) {
	var c coordinate
	if n := len(tokens); n > 0 && tokens[0].hemisphere() {
		c.letter, tokens = byte(tokens[0].sign), tokens[1:]
	} else if n > 0 && tokens[n-1].hemisphere() {
		c.letter, tokens = byte(tokens[n-1].sign), tokens[:n-1]
	}
	numbers, err := numbers(tokens)
	if err != nil {
		return c, err
	}
	switch {
	case len(numbers) > 1 && c.letter == 0:
		return c, errors.New("degrees with minutes need the letters N or S, E or W: " + positionExample)
	case c.letter != 0 && strings.ContainsAny(numbers[0][:1], "+-"):
		return c, fmt.Errorf("%s has a sign and a letter: type one of the two", shown(numbers[0]+" "+string(rune(c.letter))))
	}
	c.deg, err = sexagesimal(numbers)
	return c, err
}

// numbers takes the signs ° ' " away, each of which must follow its own number.
func numbers(tokens []token) ([]string, error) {
	const signs = `°'"`
	var out []string
	for i, t := range tokens {
		switch {
		case t.number != "":
			out = append(out, t.number)
		case !strings.ContainsRune(signs, t.sign):
			return nil, errors.New("a letter stands among the figures: " + positionExample)
		case i == 0 || tokens[i-1].number == "" || []rune(signs)[min(len(out), 3)-1] != t.sign:
			return nil, fmt.Errorf("%c does not follow its figure: degrees °, then minutes ', then seconds \"", t.sign)
		}
	}
	switch {
	case len(out) == 0:
		return nil, errors.New("a figure is missing: " + positionExample)
	case len(out) > 3:
		return nil, errors.New("there are too many figures: " + positionExample)
	}
	return out, nil
}

// sexagesimal adds degrees, minutes and seconds.
func sexagesimal(numbers []string) (float64, error) {
	names := []string{"degrees", "minutes", "seconds"}
	scale := []float64{1, 60, 3600}
	sum := 0.0
	for i, s := range numbers {
		v, ok := decimal(s)
		switch {
		case !ok:
			return 0, fmt.Errorf("%s is no number: %s", shown(s), positionExample)
		case i > 0 && strings.ContainsAny(s, "+-"):
			return 0, fmt.Errorf("%s: %s have no sign", shown(s), names[i])
		case i < len(numbers)-1 && strings.ContainsAny(s, ".,"):
			return 0, fmt.Errorf("%s %s have decimals, and %s follow: type one or the other", s, names[i], names[i+1])
		case i > 0 && v >= 60:
			return 0, fmt.Errorf("%s %s: there are fewer than 60", s, names[i])
		case v > 180 || v < -180:
			return 0, fmt.Errorf("%s degrees are too many: type a space between degrees and minutes", s)
		}
		sum += v / scale[i]
	}
	return sum, nil
}
