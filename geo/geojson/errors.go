package geojson

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// Place says where in a document something was found.
type Place struct {
	Path   string // such as features[12].properties.VALDCO; "" is the document itself
	Offset int    // bytes from the start of the file, byte order mark included
	Line   int    // counted from 1
	Column int    // characters, counted from 1
}

func (p Place) describe(msg string) string {
	where := fmt.Sprintf("line %d, column %d", p.Line, p.Column)
	if p.Path == "" {
		return where + ": " + msg
	}
	return p.Path + " (" + where + "): " + msg
}

// SyntaxError says that the text is not a JSON document in the strict sense of
// the package comment. The reader cannot go on after it.
type SyntaxError struct {
	Place
	Msg string // what was found; what is wanted
}

func (e *SyntaxError) Error() string { return e.describe(e.Msg) }

// ValueError says that a value is JSON but not what was wanted there. The
// reader stands before the value and can go on.
type ValueError struct {
	Place
	Msg string // what was found; what is wanted
}

func (e *ValueError) Error() string { return e.describe(e.Msg) }

// LimitError says that the document holds more than the caller allows. The
// reader cannot go on after it.
type LimitError struct {
	Place
	Msg string
}

func (e *LimitError) Error() string { return e.describe(e.Msg) }

// Err returns a [*ValueError] about the value last read or stood before; it
// does not stop the reader.
func (r *Reader) Err(format string, args ...any) error { return r.in.wrong(format, args...) }

// wrong is the error about the value in hand, which is not what was wanted.
func (s *scanner) wrong(format string, args ...any) error {
	return &ValueError{s.place(), fmt.Sprintf(format, args...)}
}

// Place returns where the value last read, or stood before, begins.
func (r *Reader) Place() Place { return r.in.place() }

func (s *scanner) place() Place { return s.placeAt(s.at) }

// Offset returns the byte offset of [Reader.Place].
func (r *Reader) Offset() int { return r.in.at }

// PlaceOf returns line and column of a byte offset, and the given path.
func (r *Reader) PlaceOf(path string, offset int) Place {
	p := r.in.placeAt(min(max(offset, 0), len(r.in.src)))
	p.Path = path
	return p
}

func (s *scanner) placeAt(offset int) Place {
	s.lines.move(s.src, offset)
	return Place{Path: s.pathText(), Offset: offset, Line: s.lines.line, Column: s.lines.column}
}

// lineCounter knows line and column of the offset asked for last, so that many
// errors in one long document cost one pass over it.
type lineCounter struct{ offset, line, column int }

func (c *lineCounter) move(src []byte, to int) {
	if to < c.offset {
		c.back(src, to)
		return
	}
	passed := src[c.offset:to]
	if n := bytes.Count(passed, []byte{'\n'}); n > 0 {
		c.line += n
		c.column = 1
		passed = passed[bytes.LastIndexByte(passed, '\n')+1:]
	}
	c.column += characters(passed)
	c.offset = to
}

func (c *lineCounter) back(src []byte, to int) {
	passed := src[to:c.offset]
	n := bytes.Count(passed, []byte{'\n'})
	c.line -= n
	c.column -= characters(passed)
	if n > 0 {
		start := bytes.LastIndexByte(src[:to], '\n') + 1
		if start == 0 && bytes.HasPrefix(src, byteOrderMark) {
			start = min(to, len(byteOrderMark))
		}
		c.column = characters(src[start:to]) + 1
	}
	c.offset = to
}

// characters counts the first bytes of UTF-8 characters, so that counts of parts
// add up wherever they are cut.
func characters(b []byte) (n int) {
	for _, c := range b {
		if c&0xC0 != 0x80 {
			n++
		}
	}
	return n
}

// syntax records that the text at offset is not JSON; it is final.
func (s *scanner) syntax(offset int, format string, args ...any) error {
	if s.err == nil {
		s.err = &SyntaxError{s.placeAt(offset), fmt.Sprintf(format, args...)}
	}
	return s.err
}

func (s *scanner) limit(format string, args ...any) error {
	if s.err == nil {
		s.err = &LimitError{s.place(), fmt.Sprintf(format, args...)}
	}
	return s.err
}

// found describes what stands at offset, shortened, for an error message.
func (s *scanner) found(offset int) string {
	if offset >= len(s.src) {
		return "the end of the text"
	}
	rest := s.src[offset:]
	switch kindOf[rest[0]] {
	case Object:
		return "an object"
	case Array:
		return "an array"
	case String:
		return "the text " + shortText(rest)
	case Number:
		return "the number " + word(rest)
	case Invalid:
		return invalidThing(rest)
	default:
		return word(rest)
	}
}

func invalidThing(rest []byte) string {
	if w := word(rest); w != "" {
		return w + ", which is not JSON,"
	}
	c, size := utf8.DecodeRune(rest)
	if c == utf8.RuneError && size <= 1 {
		return fmt.Sprintf("the byte 0x%02X", rest[0])
	}
	return fmt.Sprintf("%q", c)
}

const shortLength = 40

// word returns the run of letters, digits and number signs at the start of b.
func word(b []byte) string {
	n := 0
	for n < len(b) && n < shortLength && isWordByte(b[n]) {
		n++
	}
	return string(b[:n])
}

func isWordByte(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' ||
		c == '+' || c == '-' || c == '.'
}

// shortText returns the quoted text at the start of b as written, shortened.
func shortText(b []byte) string {
	for i := 1; i < len(b) && i <= shortLength; i++ {
		switch b[i] {
		case '\\':
			i++
		case '"':
			return strings.ToValidUTF8(string(b[:i+1]), "�")
		}
	}
	cut := min(len(b), shortLength)
	return strings.ToValidUTF8(string(b[:cut]), "") + `..."`
}
