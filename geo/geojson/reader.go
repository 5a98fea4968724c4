package geojson

import (
	"bytes"
	"math"
)

// Kind is the kind of a JSON value.
type Kind uint8

// The kinds. Invalid is what stands where no JSON value can begin, the end of
// the text included.
const (
	Invalid Kind = iota
	Null
	Bool
	Number
	String
	Object
	Array
)

// String names the kind with its article, as in an error message.
func (k Kind) String() string {
	return [...]string{"no value", "null", "true or false", "a number", "a text", "an object", "an array"}[k]
}

// MaxDepth is how deep objects and arrays may nest.
const MaxDepth = 64

var byteOrderMark = []byte("\xEF\xBB\xBF")

// kindOf tells the kind of a value by its first byte.
var kindOf = func() (t [256]Kind) {
	t['n'], t['t'], t['f'], t['"'], t['{'], t['['], t['-'] = Null, Bool, Bool, String, Object, Array, Number
	for c := '0'; c <= '9'; c++ {
		t[c] = Number
	}
	return t
}()

// Reader reads one document. It keeps no reference to the document in what it
// returns, except where a method says so. It must not be used by several
// goroutines at once.
type Reader struct {
	in   scanner
	keys keySet

	positions    int
	maxPositions int
}

// NewReader returns a reader that stands before the document in b, which must
// not change while it is read. A byte order mark is skipped.
func NewReader(b []byte) *Reader {
	start := 0
	if bytes.HasPrefix(b, byteOrderMark) {
		start = len(byteOrderMark)
	}
	return &Reader{in: scanner{
		src: b, pos: start, at: start, names: make(map[string]string), lines: lineCounter{start, 1, 1},
	}}
}

// Kind returns the kind of the value the reader stands before, by its first
// byte: the value itself may still turn out not to be JSON.
func (r *Reader) Kind() Kind { return r.in.kind() }

// Object consumes an object and calls fn with each key, in document order, when
// the reader stands before its value. fn consumes that value or leaves it; with
// a nil fn all values are skipped. A key that occurs twice is a [*SyntaxError].
// An error of fn ends the walk and is returned, and the reader stands before
// the object again.
func (r *Reader) Object(fn func(key string) error) error {
	start, err := r.in.open(Object)
	if err != nil {
		return err
	}
	firstKey, steps := len(r.keys.met), len(r.in.path)
	err = r.members(firstKey, fn)
	r.keys.close(firstKey)
	r.in.path = r.in.path[:steps]
	return r.in.leave(start, err)
}

func (r *Reader) members(firstKey int, fn func(key string) error) error {
	if r.in.ends('}') {
		return nil
	}
	for {
		key, err := r.key(firstKey)
		if err != nil {
			return err
		}
		r.in.push(step{key, -1})
		start := r.in.stand()
		if fn != nil {
			err = fn(key)
		}
		if err = r.settle(start, err); err != nil {
			return err
		}
		r.in.pop()
		if more, err := r.in.more('}'); !more {
			return err
		}
	}
}

// key consumes a key and its colon, and refuses one met before in the object
// whose keys begin at first.
func (r *Reader) key(first int) (string, error) {
	start := r.in.stand()
	if r.in.pos >= len(r.in.src) || r.in.src[r.in.pos] != '"' {
		return "", r.in.syntax(start, "%s; a key in double quotes is wanted", r.in.found(start))
	}
	key, err := r.in.text()
	if err != nil {
		return "", err
	}
	if r.keys.add(first, key) {
		return "", r.in.syntax(start, "the key %q occurs twice; it is wanted once", shortKey(key))
	}
	r.in.space()
	if r.in.pos >= len(r.in.src) || r.in.src[r.in.pos] != ':' {
		return "", r.in.syntax(r.in.pos, "%s; a colon after the key is wanted", r.in.found(r.in.pos))
	}
	r.in.pos++
	return key, nil
}

// Array consumes an array and calls fn with each index when the reader stands
// before the item. All else is as in [Reader.Object].
func (r *Reader) Array(fn func(i int) error) error {
	start, err := r.in.open(Array)
	if err != nil {
		return err
	}
	steps := len(r.in.path)
	err = r.items(fn)
	r.in.path = r.in.path[:steps]
	return r.in.leave(start, err)
}

func (r *Reader) items(fn func(i int) error) (err error) {
	if r.in.ends(']') {
		return nil
	}
	for i := 0; ; i++ {
		r.in.push(step{"", i})
		start := r.in.stand()
		if fn != nil {
			err = fn(i)
		}
		if err = r.settle(start, err); err != nil {
			return err
		}
		r.in.pop()
		if more, err := r.in.more(']'); !more {
			return err
		}
	}
}

// settle ends the reading of a value that began at start: it skips the value if
// it was left unread.
func (r *Reader) settle(start int, err error) error {
	if r.in.err != nil {
		return r.in.err
	}
	if err == nil && r.in.pos == start {
		err = r.Skip()
	}
	return err
}

// Want checks that a value of kind k begins here, and consumes nothing. Any other
// kind is a [*ValueError], none a [*SyntaxError].
func (r *Reader) Want(k Kind) error { return r.in.want(k) }

// Number consumes a number and returns the float64 nearest to it. A number
// beyond the range of float64 is a [*ValueError].
func (r *Reader) Number() (float64, error) {
	if err := r.in.want(Number); err != nil {
		return 0, err
	}
	v, end, ok := scanFloat(r.in.src, r.in.pos)
	if !ok {
		return 0, r.in.badNumber(r.in.pos)
	}
	r.in.pos = end
	return v, nil
}

// NumberText consumes a number and returns it as it is spelled.
func (r *Reader) NumberText() (string, error) {
	if err := r.in.want(Number); err != nil {
		return "", err
	}
	end, msg := scanNumber(r.in.src, r.in.pos)
	if msg != "" {
		return "", r.in.syntax(end, "%s", msg)
	}
	text := r.in.intern(r.in.src[r.in.pos:end])
	r.in.pos = end
	return text, nil
}

// Int consumes a number that is whole and within ±2^53, however it is spelled.
func (r *Reader) Int() (int64, error) {
	v, err := r.Number()
	if err != nil {
		return 0, err
	}
	if v != math.Trunc(v) || math.Abs(v) > 1<<53 {
		r.in.pos = r.in.at
		return 0, r.in.wrong("%s; a whole number is wanted", r.in.found(r.in.at))
	}
	return int64(v), nil
}

// String consumes a text and returns it decoded.
func (r *Reader) String() (string, error) {
	if err := r.in.want(String); err != nil {
		return "", err
	}
	return r.in.text()
}

// Bool consumes true or false.
func (r *Reader) Bool() (bool, error) {
	if err := r.in.want(Bool); err != nil {
		return false, err
	}
	if r.in.src[r.in.pos] == 't' {
		return true, r.in.literal("true")
	}
	return false, r.in.literal("false")
}

// Null consumes null.
func (r *Reader) Null() error {
	if err := r.in.want(Null); err != nil {
		return err
	}
	return r.in.literal("null")
}

// Skip consumes any value, and checks it as strictly as if it were read.
func (r *Reader) Skip() error {
	k := r.in.kind()
	switch k {
	case Null:
		return r.Null()
	case Bool:
		_, err := r.Bool()
		return err
	case Number:
		return r.in.skipNumber()
	case String:
		return r.in.skipText()
	case Object:
		return r.Object(nil)
	case Array:
		return r.Array(nil)
	default:
		return r.in.noValue()
	}
}

// Raw consumes any value, checks it, and returns its bytes, which are part of
// the document.
func (r *Reader) Raw() ([]byte, error) {
	start := r.in.stand()
	if err := r.Skip(); err != nil {
		return nil, err
	}
	return r.in.src[start:r.in.pos:r.in.pos], nil
}

// End checks that nothing but white space follows.
func (r *Reader) End() error {
	if r.in.err != nil {
		return r.in.err
	}
	if r.in.stand(); r.in.pos < len(r.in.src) {
		return r.in.syntax(r.in.pos, "%s after the document; the end is wanted", r.in.found(r.in.pos))
	}
	return nil
}
