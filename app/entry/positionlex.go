package entry

import (
	"errors"
	"fmt"
	"strings"
)

// token is a piece of a position: a number, or one of the signs ° ' " and ",", or
// a hemisphere letter.
type token struct {
	number string // of a number, with its sign
	sign   rune
}

func (t token) hemisphere() bool { return t.number == "" && strings.ContainsRune("NSEW", t.sign) }

// lex takes a position apart. A comma between two digits is a decimal comma where
// no number has a decimal point, and else comes between the two figures.
func lex(s string) ([]token, error) {
	comma := !strings.Contains(s, ".")
	var tokens []token
	for i := 0; i < len(s); {
		switch c := s[i]; {
		case c == ' ':
			i++
		case c >= '0' && c <= '9' || (c == '-' || c == '+') && i+1 < len(s) && isDigit(s[i+1]):
			end, err := numberEnd(s, i, comma)
			if err != nil {
				return nil, err
			}
			tokens = append(tokens, token{number: s[i:end]})
			i = end
		case strings.HasPrefix(s[i:], "°"):
			tokens = append(tokens, token{sign: '°'})
			i += len("°")
		case strings.IndexByte("'\",;/", c) >= 0:
			if c == ';' || c == '/' {
				c = ','
			}
			tokens = append(tokens, token{sign: rune(c)})
			i++
		default:
			letter, n, err := word(s[i:])
			if err != nil {
				return nil, err
			}
			tokens = append(tokens, token{sign: rune(letter)})
			i += n
		}
	}
	return tokens, nil
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// numberEnd is where the number that begins at i ends.
func numberEnd(s string, i int, comma bool) (int, error) {
	if !isDigit(s[i]) {
		if i > 0 && isDigit(s[i-1]) {
			return 0, errors.New("a dash between figures could be a sign: type a space instead")
		}
		i++
	}
	start, points := i, 0
	for ; i < len(s); i++ {
		if isDigit(s[i]) {
			continue
		}
		if s[i] != '.' && !(comma && s[i] == ',' && i+1 < len(s) && isDigit(s[i+1])) {
			break
		}
		points++
	}
	if points > 1 || s[i-1] == '.' || i-start > 20 {
		return 0, fmt.Errorf("%s is no number: %s", shown(s[start:i]), positionExample)
	}
	return i, nil
}

// word reads a hemisphere as a letter or a word.
func word(s string) (letter byte, length int, err error) {
	for _, w := range []string{"NORTH", "SOUTH", "EAST", "WEST", "N", "S", "E", "W"} {
		if strings.HasPrefix(s, w) && (len(s) == len(w) || s[len(w)] < 'A' || s[len(w)] > 'Z') {
			return w[0], len(w), nil
		}
	}
	if s[0] == 'O' {
		return 0, 0, errors.New("O is east in some languages and west in others: type E or W")
	}
	end := strings.IndexAny(s, " 0123456789,;")
	if end <= 0 {
		end = len(s)
	}
	return 0, 0, fmt.Errorf("%s does not belong to a position: %s", shown(s[:end]), positionExample)
}

// halves divides a position into its two coordinates.
func halves(tokens []token) (first, second []token, err error) {
	var letters, commas []int
	for i, t := range tokens {
		switch {
		case t.hemisphere():
			letters = append(letters, i)
		case t.sign == ',':
			commas = append(commas, i)
		}
	}
	last := len(tokens) - 1
	cut := -1
	switch {
	case len(commas) > 1:
		return nil, nil, errors.New("there are too many commas: type decimals with a point")
	case len(letters) == 0:
		cut = middle(tokens, commas)
	case len(letters) != 2:
		return nil, nil, fmt.Errorf("a position has two of the letters N, S, E, W, this has %d: %s", len(letters), positionExample)
	case letters[0] == 0 && letters[1] != last:
		cut = letters[1]
	case letters[0] != 0 && letters[1] == last:
		cut = letters[0] + 1
	}
	if cut < 0 {
		return nil, nil, errors.New("it is not plain which figures belong together: " + positionExample)
	}
	return divide(tokens, commas, cut)
}

// divide cuts at cut; a comma is left out, and may stand only there.
func divide(tokens []token, commas []int, cut int) (first, second []token, err error) {
	if len(commas) == 0 {
		return tokens[:cut], tokens[cut:], nil
	}
	c := commas[0]
	if c != cut && c != cut-1 {
		return nil, nil, errors.New("a comma stands within one figure: type decimals with a point")
	}
	return tokens[:c], tokens[c+1:], nil
}

// middle is where a position without letters divides: at its comma, or before
// the second of two numbers; -1 where neither is so.
func middle(tokens []token, commas []int) int {
	if len(commas) == 1 {
		return commas[0]
	}
	var numbers []int
	for i, t := range tokens {
		if t.number != "" {
			numbers = append(numbers, i)
		}
	}
	if len(numbers) == 2 {
		return numbers[1]
	}
	return -1
}
