package geojson

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// step is one step of a path: a key of an object, or an index of an array where
// index is not negative.
type step struct {
	key   string
	index int
}

// Path returns the path of the value in hand, such as
// features[12].properties.VALDCO, and "" for the document itself. Keys that are
// not plain words are quoted in brackets; long ones are shortened.
func (r *Reader) Path() string { return r.in.pathText() }

func (s *scanner) pathText() string {
	var b strings.Builder
	for _, at := range s.path {
		at.append(&b)
	}
	return b.String()
}

func (s step) append(b *strings.Builder) {
	switch {
	case s.index >= 0:
		b.WriteString("[" + strconv.Itoa(s.index) + "]")
	case !isPlainKey(s.key):
		b.WriteString("[" + strconv.Quote(shortKey(s.key)) + "]")
	default:
		if b.Len() > 0 {
			b.WriteByte('.')
		}
		b.WriteString(s.key)
	}
}

func isPlainKey(key string) bool {
	if key == "" || len(key) > shortLength {
		return false
	}
	for i := range len(key) {
		c := key[i]
		if !isWordByte(c) && c != '_' && c != ':' || c == '.' {
			return false
		}
	}
	return true
}

func shortKey(key string) string {
	if len(key) <= shortLength {
		return key
	}
	cut := shortLength
	for !utf8.RuneStart(key[cut]) {
		cut--
	}
	return key[:cut] + "..."
}

func (s *scanner) push(next step) { s.path = append(s.path, next) }
func (s *scanner) pop()           { s.path = s.path[:len(s.path)-1] }
