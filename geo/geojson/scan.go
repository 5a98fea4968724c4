package geojson

import (
	"bytes"
	"unicode/utf16"
	"unicode/utf8"
)

// scanner goes through the text of a document: it knows where it stands, by byte
// and by path, and what stands there. A [Reader] reads values with it.
type scanner struct {
	src   []byte
	pos   int
	at    int // where the value in hand begins
	depth int
	path  []step
	names map[string]string // short texts met before, so that equal ones are held once
	err   error             // the final one
	lines lineCounter
}

// space skips the white space of RFC 8259 section 2.
func (s *scanner) space() { s.pos = skipSpace(s.src, s.pos) }

func skipSpace(b []byte, i int) int {
	for i < len(b) && (b[i] == ' ' || b[i] == '\n' || b[i] == '\r' || b[i] == '\t') {
		i++
	}
	return i
}

// ends consumes the closing bracket of an empty object or array.
func (s *scanner) ends(bracket byte) bool {
	s.space()
	if s.pos < len(s.src) && s.src[s.pos] == bracket {
		s.pos++
		return true
	}
	return false
}

// more consumes what follows an item: a comma, or the closing bracket.
func (s *scanner) more(bracket byte) (bool, error) {
	if s.ends(bracket) {
		return false, nil
	}
	if s.pos >= len(s.src) || s.src[s.pos] != ',' {
		return false, s.syntax(s.pos, "%s; a comma or %q is wanted", s.found(s.pos), bracket)
	}
	comma := s.pos
	s.pos++
	s.space()
	if s.pos < len(s.src) && s.src[s.pos] == bracket {
		return false, s.syntax(comma, "a comma before %q; none is wanted after the last item", bracket)
	}
	return true, nil
}

// kind is the kind of the value that begins here, by its first byte.
func (s *scanner) kind() Kind {
	s.space()
	if s.err != nil || s.pos >= len(s.src) {
		return Invalid
	}
	return kindOf[s.src[s.pos]]
}

// stand moves to the next value and returns where it begins.
func (s *scanner) stand() int {
	s.space()
	s.at = s.pos
	return s.pos
}

// want checks that a value of kind k begins here, as [Reader.Want] says.
func (s *scanner) want(k Kind) error {
	if s.err != nil {
		return s.err
	}
	s.stand()
	switch got := s.kind(); got {
	case k:
		return nil
	case Invalid:
		return s.syntax(s.pos, "%s; %s is wanted", s.found(s.pos), k)
	default:
		return s.wrong("%s; %s is wanted", s.found(s.pos), k)
	}
}

// open consumes the bracket that opens an object or array and returns where it
// stood.
func (s *scanner) open(k Kind) (start int, err error) {
	if err := s.want(k); err != nil {
		return 0, err
	}
	if s.depth >= MaxDepth {
		return 0, s.syntax(s.pos, "nested deeper than %d levels; a flatter document is wanted", MaxDepth)
	}
	start = s.pos
	s.depth++
	s.pos++
	return start, nil
}

// leave ends an object or array that was opened at start. After an error that
// is not final the reader stands before it again.
func (s *scanner) leave(start int, err error) error {
	s.depth--
	if s.err != nil {
		return s.err
	}
	s.at = start
	if err != nil {
		s.pos = start
	}
	return err
}

// badNumber returns the error of a number at offset that scanFloat refused.
func (s *scanner) badNumber(offset int) error {
	end, msg := scanNumber(s.src, offset)
	if msg != "" {
		return s.syntax(end, "%s", msg)
	}
	return s.wrong("%s; a number below 1.8e308 is wanted", s.found(offset))
}

func (s *scanner) noValue() error {
	s.at = s.pos
	return s.syntax(s.pos, "%s; a value is wanted", s.found(s.pos))
}

func (s *scanner) literal(want string) error {
	if !bytes.HasPrefix(s.src[s.pos:], []byte(want)) {
		return s.syntax(s.pos, "%s; %s is wanted", s.found(s.pos), want)
	}
	s.pos += len(want)
	return nil
}

func (s *scanner) skipNumber() error {
	if err := s.want(Number); err != nil {
		return err
	}
	end, msg := scanNumber(s.src, s.pos)
	if msg != "" {
		return s.syntax(end, "%s", msg)
	}
	s.pos = end
	return nil
}

// text consumes the text that begins here and returns it decoded.
func (s *scanner) text() (string, error) {
	start := s.pos + 1
	end, escaped, err := s.scanText()
	if err != nil {
		return "", err
	}
	s.pos = end + 1
	if !escaped {
		return s.intern(s.src[start:end]), nil
	}
	return s.intern(unescape(s.src[start:end])), nil
}

func (s *scanner) skipText() error {
	if err := s.want(String); err != nil {
		return err
	}
	end, _, err := s.scanText()
	if err == nil {
		s.pos = end + 1
	}
	return err
}

// scanText checks the text that begins here and returns where its closing quote
// stands, and whether it holds an escape.
func (s *scanner) scanText() (end int, escaped bool, err error) {
	b, i := s.src, s.pos+1
	for i < len(b) {
		c := b[i]
		switch {
		case c == '"':
			return i, escaped, nil
		case c == '\\':
			escaped = true
			if i, err = s.scanEscape(i); err != nil {
				return 0, false, err
			}
		case c < ' ':
			return 0, false, s.syntax(i, "the control character 0x%02X in a text; an escape such as \\n is wanted", c)
		case c < utf8.RuneSelf:
			i++
		default:
			char, size := utf8.DecodeRune(b[i:])
			if char == utf8.RuneError && size == 1 {
				return 0, false, s.syntax(i, "the byte 0x%02X, which is not UTF-8, in a text; UTF-8 is wanted", c)
			}
			i += size
		}
	}
	return 0, false, s.syntax(len(b), "the end of the text within quotes; a closing quote is wanted")
}

// scanEscape checks the escape at i and returns where it ends.
func (s *scanner) scanEscape(i int) (int, error) {
	b := s.src
	if i+1 >= len(b) {
		return 0, s.syntax(len(b), "the end of the text within an escape; a closing quote is wanted")
	}
	switch b[i+1] {
	case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
		return i + 2, nil
	case 'u':
	default:
		return 0, s.syntax(i, "an unknown escape; one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\uXXXX is wanted")
	}
	first := hex4(b[i+2:])
	if first < 0 {
		return 0, s.syntax(i, "an escape \\u without four hexadecimal digits; four are wanted")
	}
	if !utf16.IsSurrogate(first) {
		return i + 6, nil
	}
	if len(b) >= i+12 && b[i+6] == '\\' && b[i+7] == 'u' {
		if utf16.DecodeRune(first, hex4(b[i+8:])) != utf8.RuneError {
			return i + 12, nil
		}
	}
	return 0, s.syntax(i, "half of a surrogate pair; both halves are wanted")
}

// hex4 returns the value of the four hexadecimal digits at the start of b, or a
// negative number.
func hex4(b []byte) (v rune) {
	if len(b) < 4 {
		return -1
	}
	for _, c := range b[:4] {
		switch {
		case c >= '0' && c <= '9':
			c -= '0'
		case c >= 'a' && c <= 'f':
			c -= 'a' - 10
		case c >= 'A' && c <= 'F':
			c -= 'A' - 10
		default:
			return -1
		}
		v = v<<4 | rune(c)
	}
	return v
}

var escapes = map[byte]byte{'"': '"', '\\': '\\', '/': '/', 'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}

// unescape decodes a text that scanText found right.
func unescape(b []byte) []byte {
	out := make([]byte, 0, len(b))
	for i := 0; i < len(b); {
		switch {
		case b[i] != '\\':
			out = append(out, b[i])
			i++
		case b[i+1] != 'u':
			out = append(out, escapes[b[i+1]])
			i += 2
		default:
			char := hex4(b[i+2:])
			i += 6
			if utf16.IsSurrogate(char) {
				char = utf16.DecodeRune(char, hex4(b[i+2:]))
				i += 6
			}
			out = utf8.AppendRune(out, char)
		}
	}
	return out
}

// The texts that are held once: the keys and codes of a chart layer repeat by
// the ten thousand.
const (
	internLength = 48
	internCount  = 1 << 14
)

func (s *scanner) intern(b []byte) string {
	if len(b) > internLength {
		return string(b)
	}
	if text, ok := s.names[string(b)]; ok {
		return text
	}
	text := string(b)
	if len(s.names) < internCount {
		s.names[text] = text
	}
	return text
}
