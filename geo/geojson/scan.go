package geojson

import (
	"bytes"
	"unicode/utf16"
	"unicode/utf8"
)

// space skips the white space of RFC 8259 section 2.
func (r *Reader) space() { r.pos = skipSpace(r.src, r.pos) }

func skipSpace(b []byte, i int) int {
	for i < len(b) && (b[i] == ' ' || b[i] == '\n' || b[i] == '\r' || b[i] == '\t') {
		i++
	}
	return i
}

// ends consumes the closing bracket of an empty object or array.
func (r *Reader) ends(bracket byte) bool {
	r.space()
	if r.pos < len(r.src) && r.src[r.pos] == bracket {
		r.pos++
		return true
	}
	return false
}

// more consumes what follows an item: a comma, or the closing bracket.
func (r *Reader) more(bracket byte) (bool, error) {
	if r.ends(bracket) {
		return false, nil
	}
	if r.pos >= len(r.src) || r.src[r.pos] != ',' {
		return false, r.syntax(r.pos, "%s; a comma or %q is wanted", r.found(r.pos), bracket)
	}
	comma := r.pos
	r.pos++
	r.space()
	if r.pos < len(r.src) && r.src[r.pos] == bracket {
		return false, r.syntax(comma, "a comma before %q; none is wanted after the last item", bracket)
	}
	return true, nil
}

// key consumes a key and its colon, and refuses one met before in the object
// whose keys begin at first.
func (r *Reader) key(first int) (string, error) {
	start := r.stand()
	if r.pos >= len(r.src) || r.src[r.pos] != '"' {
		return "", r.syntax(start, "%s; a key in double quotes is wanted", r.found(start))
	}
	key, err := r.text()
	if err != nil {
		return "", err
	}
	if r.met(first, key) {
		return "", r.syntax(start, "the key %q occurs twice; it is wanted once", shortKey(key))
	}
	r.space()
	if r.pos >= len(r.src) || r.src[r.pos] != ':' {
		return "", r.syntax(r.pos, "%s; a colon after the key is wanted", r.found(r.pos))
	}
	r.pos++
	return key, nil
}

// manyKeys is the number of keys from which a set answers faster than a scan.
const manyKeys = 32

// met notes a key and says whether its object had it before.
func (r *Reader) met(first int, key string) bool {
	if set := r.sets[first]; set != nil {
		_, dup := set[key]
		set[key] = struct{}{}
		return dup
	}
	for _, k := range r.keys[first:] {
		if k == key {
			return true
		}
	}
	r.keys = append(r.keys, key)
	if len(r.keys)-first == manyKeys {
		r.makeSet(first)
	}
	return false
}

func (r *Reader) makeSet(first int) {
	set := make(map[string]struct{}, 2*manyKeys)
	for _, k := range r.keys[first:] {
		set[k] = struct{}{}
	}
	if r.sets == nil {
		r.sets = make(map[int]map[string]struct{})
	}
	r.sets[first] = set
}

func (r *Reader) literal(want string) error {
	if !bytes.HasPrefix(r.src[r.pos:], []byte(want)) {
		return r.syntax(r.pos, "%s; %s is wanted", r.found(r.pos), want)
	}
	r.pos += len(want)
	return nil
}

func (r *Reader) skipNumber() error {
	if err := r.Want(Number); err != nil {
		return err
	}
	end, msg := scanNumber(r.src, r.pos)
	if msg != "" {
		return r.syntax(end, "%s", msg)
	}
	r.pos = end
	return nil
}

// text consumes the text that begins here and returns it decoded.
func (r *Reader) text() (string, error) {
	start := r.pos + 1
	end, escaped, err := r.scanText()
	if err != nil {
		return "", err
	}
	r.pos = end + 1
	if !escaped {
		return r.intern(r.src[start:end]), nil
	}
	return r.intern(unescape(r.src[start:end])), nil
}

func (r *Reader) skipText() error {
	if err := r.Want(String); err != nil {
		return err
	}
	end, _, err := r.scanText()
	if err == nil {
		r.pos = end + 1
	}
	return err
}

// scanText checks the text that begins here and returns where its closing quote
// stands, and whether it holds an escape.
func (r *Reader) scanText() (end int, escaped bool, err error) {
	b, i := r.src, r.pos+1
	for i < len(b) {
		c := b[i]
		switch {
		case c == '"':
			return i, escaped, nil
		case c == '\\':
			escaped = true
			if i, err = r.scanEscape(i); err != nil {
				return 0, false, err
			}
		case c < ' ':
			return 0, false, r.syntax(i, "the control character 0x%02X in a text; an escape such as \\n is wanted", c)
		case c < utf8.RuneSelf:
			i++
		default:
			char, size := utf8.DecodeRune(b[i:])
			if char == utf8.RuneError && size == 1 {
				return 0, false, r.syntax(i, "the byte 0x%02X, which is not UTF-8, in a text; UTF-8 is wanted", c)
			}
			i += size
		}
	}
	return 0, false, r.syntax(len(b), "the end of the text within quotes; a closing quote is wanted")
}

// scanEscape checks the escape at i and returns where it ends.
func (r *Reader) scanEscape(i int) (int, error) {
	b := r.src
	if i+1 >= len(b) {
		return 0, r.syntax(len(b), "the end of the text within an escape; a closing quote is wanted")
	}
	switch b[i+1] {
	case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
		return i + 2, nil
	case 'u':
	default:
		return 0, r.syntax(i, "an unknown escape; one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\uXXXX is wanted")
	}
	first := hex4(b[i+2:])
	if first < 0 {
		return 0, r.syntax(i, "an escape \\u without four hexadecimal digits; four are wanted")
	}
	if !utf16.IsSurrogate(first) {
		return i + 6, nil
	}
	if len(b) >= i+12 && b[i+6] == '\\' && b[i+7] == 'u' {
		if utf16.DecodeRune(first, hex4(b[i+8:])) != utf8.RuneError {
			return i + 12, nil
		}
	}
	return 0, r.syntax(i, "half of a surrogate pair; both halves are wanted")
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

func (r *Reader) intern(b []byte) string {
	if len(b) > internLength {
		return string(b)
	}
	if s, ok := r.names[string(b)]; ok {
		return s
	}
	s := string(b)
	if len(r.names) < internCount {
		r.names[s] = s
	}
	return s
}
