package enc

import (
	"bytes"
	"unicode/utf16"
)

// eachText calls fn with the code and the value of every attribute of a field's
// content; each value ends with a unit terminator. It is false where the
// content does not fit.
func eachText(b []byte, letter int, fn func(code uint16, value []byte)) bool {
	for len(b) > 0 {
		if len(b) < 2 {
			return false
		}
		end := endOfText(b[2:], letter)
		if end < 0 {
			return false
		}
		fn(uint16(b[0])|uint16(b[1])<<8, b[2:2+end])
		b = b[2+end+letter:]
	}
	return true
}

// endOfText is where the terminator of a text lies, -1 if it has none.
func endOfText(b []byte, letter int) int {
	if letter == 1 {
		return bytes.IndexByte(b, unitEnd)
	}
	for i := 0; i+1 < len(b); i += 2 {
		if b[i] == unitEnd && b[i+1] == 0 {
			return i
		}
	}
	return -1
}

func wellFormed(b []byte, letter int) bool { return eachText(b, letter, func(uint16, []byte) {}) }

// deletedMark is the value that deletes an attribute in an update (S-57 Part 3,
// 8.4.2.2).
const deletedMark = 0x7F

// mergeTexts is old with the attributes given replaced, deleted or added; the
// others stay.
func mergeTexts(old, given []byte, letter int) []byte {
	if len(given) == 0 {
		return old
	}
	news := map[uint16][]byte{}
	eachText(given, letter, func(code uint16, value []byte) { news[code] = value })
	out := make([]byte, 0, len(old)+len(given))
	add := func(code uint16, value []byte) {
		if len(value) == letter && value[0] == deletedMark {
			return
		}
		out = append(out, byte(code), byte(code>>8))
		out = append(append(out, value...), []byte{unitEnd, 0}[:letter]...)
	}
	eachText(old, letter, func(code uint16, value []byte) {
		if v, ok := news[code]; ok {
			value = v
			delete(news, code)
		}
		add(code, value)
	})
	eachText(given, letter, func(code uint16, value []byte) {
		if _, ok := news[code]; ok {
			add(code, news[code])
			delete(news, code)
		}
	})
	return out
}

// latin turns ISO 8859-1 to UTF-8; level 0, ASCII, is part of it.
func latin(s string) string {
	for i := range len(s) {
		if s[i] >= 0x80 {
			out := make([]rune, len(s))
			for i := range len(s) {
				out[i] = rune(s[i])
			}
			return string(out)
		}
	}
	return s
}

// wide turns UCS-2, little endian, to UTF-8. A byte order mark is skipped; half
// a surrogate pair becomes the replacement character.
func wide(b []byte) string {
	units := make([]uint16, 0, len(b)/2)
	for i := 0; i+1 < len(b); i += 2 {
		units = append(units, uint16(b[i])|uint16(b[i+1])<<8)
	}
	if len(units) > 0 && units[0] == 0xFEFF {
		units = units[1:]
	}
	return string(utf16.Decode(units))
}
