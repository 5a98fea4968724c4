package geojson

import (
	"math"
	"strconv"
)

// scanNumber checks a number by the grammar of RFC 8259 section 6. It returns
// where the number ends, or where it breaks the grammar and how.
func scanNumber(b []byte, i int) (end int, msg string) {
	if i < len(b) && b[i] == '-' {
		i++
	}
	switch {
	case i >= len(b) || !isDigit(b[i]):
		return i, "a number without digits; a digit is wanted"
	case b[i] == '0' && i+1 < len(b) && isDigit(b[i+1]):
		return i, "a number that begins with 0; no leading zero is wanted"
	}
	i = skipDigits(b, i)
	if i < len(b) && b[i] == '.' {
		i++
		if i >= len(b) || !isDigit(b[i]) {
			return i, "a decimal point without digits after it; a digit is wanted"
		}
		i = skipDigits(b, i)
	}
	if i < len(b) && b[i]|0x20 == 'e' {
		return scanExponent(b, i+1)
	}
	return i, ""
}

func scanExponent(b []byte, i int) (end int, msg string) {
	if i < len(b) && (b[i] == '+' || b[i] == '-') {
		i++
	}
	if i >= len(b) || !isDigit(b[i]) {
		return i, "an exponent without digits; a digit is wanted"
	}
	return skipDigits(b, i), ""
}

func isDigit(c byte) bool { return c-'0' <= 9 }

func skipDigits(b []byte, i int) int {
	for i < len(b) && isDigit(b[i]) {
		i++
	}
	return i
}

// The powers of ten that float64 holds exactly.
var exactTens = [...]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// scanFloat reads the number at i and returns the float64 nearest to it and
// where it ends; ok is false where there is no number or it is not finite.
//
// Digits without an exponent whose integer w stays within 2^53, with q of them
// after the point and q at most 22, give w / 10^q: both are exact in float64, so
// that one division rounds correctly (W. D. Clinger, How to read floating point
// numbers accurately, PLDI 1990, section 3). All else goes to strconv.
func scanFloat(b []byte, i int) (v float64, end int, ok bool) {
	start := i
	negative := i < len(b) && b[i] == '-'
	if negative {
		i++
	}
	first := i
	var w uint64
	for i < len(b) && isDigit(b[i]) {
		w = w*10 + uint64(b[i]-'0')
		i++
	}
	digits, q := i-first, 0
	if digits == 0 || b[first] == '0' && digits > 1 {
		return 0, start, false
	}
	if i < len(b) && b[i] == '.' {
		i++
		point := i
		for i < len(b) && isDigit(b[i]) {
			w = w*10 + uint64(b[i]-'0')
			i++
		}
		if q = i - point; q == 0 {
			return 0, start, false
		}
		digits += q
	}
	// 19 digits always fit in w; more may have wrapped round.
	if digits > 19 || w > 1<<53 || q > 22 || i < len(b) && b[i]|0x20 == 'e' {
		return scanHardFloat(b, start)
	}
	v = float64(w) / exactTens[q]
	if negative {
		v = -v
	}
	return v, i, true
}

func scanHardFloat(b []byte, start int) (v float64, end int, ok bool) {
	end, msg := scanNumber(b, start)
	if msg != "" {
		return 0, start, false
	}
	v, err := strconv.ParseFloat(string(b[start:end]), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, start, false
	}
	return v, end, true
}
