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
	src   []byte
	pos   int
	at    int // where the value in hand begins
	depth int
	path  []step
	keys  []string                    // the keys met in every open object, outermost first
	sets  map[int]map[string]struct{} // the same of objects with many keys, by their first index in keys
	names map[string]string           // short texts met before, so that equal ones are held once
	err   error
	lines lineCounter

	positions    int
	maxPositions int
}

// NewReader returns a reader that stands before the document in b, which must
// not change while it is read. A byte order mark is skipped.
func NewReader(b []byte) *Reader {
	r := &Reader{src: b, names: make(map[string]string)}
	if bytes.HasPrefix(b, byteOrderMark) {
		r.pos = len(byteOrderMark)
	}
	r.at = r.pos
	r.lines = lineCounter{r.pos, 1, 1}
	return r
}

// Kind returns the kind of the value the reader stands before, by its first
// byte: the value itself may still turn out not to be JSON.
func (r *Reader) Kind() Kind {
	r.space()
	if r.err != nil || r.pos >= len(r.src) {
		return Invalid
	}
	return kindOf[r.src[r.pos]]
}

// Object consumes an object and calls fn with each key, in document order, when
// the reader stands before its value. fn consumes that value or leaves it; with
// a nil fn all values are skipped. A key that occurs twice is a [*SyntaxError].
// An error of fn ends the walk and is returned, and the reader stands before
// the object again.
func (r *Reader) Object(fn func(key string) error) error {
	start, err := r.open(Object)
	if err != nil {
		return err
	}
	firstKey, steps := len(r.keys), len(r.path)
	err = r.members(firstKey, fn)
	delete(r.sets, firstKey)
	r.keys, r.path = r.keys[:firstKey], r.path[:steps]
	return r.leave(start, err)
}

func (r *Reader) members(firstKey int, fn func(key string) error) error {
	if r.ends('}') {
		return nil
	}
	for {
		key, err := r.key(firstKey)
		if err != nil {
			return err
		}
		r.push(step{key, -1})
		start := r.stand()
		if fn != nil {
			err = fn(key)
		}
		if err = r.settle(start, err); err != nil {
			return err
		}
		r.pop()
		if more, err := r.more('}'); !more {
			return err
		}
	}
}

// Array consumes an array and calls fn with each index when the reader stands
// before the item. All else is as in [Reader.Object].
func (r *Reader) Array(fn func(i int) error) error {
	start, err := r.open(Array)
	if err != nil {
		return err
	}
	steps := len(r.path)
	err = r.items(fn)
	r.path = r.path[:steps]
	return r.leave(start, err)
}

func (r *Reader) items(fn func(i int) error) (err error) {
	if r.ends(']') {
		return nil
	}
	for i := 0; ; i++ {
		r.push(step{"", i})
		start := r.stand()
		if fn != nil {
			err = fn(i)
		}
		if err = r.settle(start, err); err != nil {
			return err
		}
		r.pop()
		if more, err := r.more(']'); !more {
			return err
		}
	}
}

// stand moves to the next value and returns where it begins.
func (r *Reader) stand() int {
	r.space()
	r.at = r.pos
	return r.pos
}

// settle ends the reading of a value that began at start: it skips the value if
// it was left unread.
func (r *Reader) settle(start int, err error) error {
	if r.err != nil {
		return r.err
	}
	if err == nil && r.pos == start {
		err = r.Skip()
	}
	return err
}

// open consumes the bracket that opens an object or array and returns where it
// stood.
func (r *Reader) open(k Kind) (start int, err error) {
	if err := r.Want(k); err != nil {
		return 0, err
	}
	if r.depth >= MaxDepth {
		return 0, r.syntax(r.pos, "nested deeper than %d levels; a flatter document is wanted", MaxDepth)
	}
	start = r.pos
	r.depth++
	r.pos++
	return start, nil
}

// leave ends an object or array that was opened at start. After an error that
// is not final the reader stands before it again.
func (r *Reader) leave(start int, err error) error {
	r.depth--
	if r.err != nil {
		return r.err
	}
	r.at = start
	if err != nil {
		r.pos = start
	}
	return err
}

// Want checks that a value of kind k begins here, and consumes nothing. Any other
// kind is a [*ValueError], none a [*SyntaxError].
func (r *Reader) Want(k Kind) error {
	if r.err != nil {
		return r.err
	}
	r.stand()
	switch got := r.Kind(); got {
	case k:
		return nil
	case Invalid:
		return r.syntax(r.pos, "%s; %s is wanted", r.found(r.pos), k)
	default:
		return r.Err("%s; %s is wanted", r.found(r.pos), k)
	}
}

// Number consumes a number and returns the float64 nearest to it. A number
// beyond the range of float64 is a [*ValueError].
func (r *Reader) Number() (float64, error) {
	if err := r.Want(Number); err != nil {
		return 0, err
	}
	v, end, ok := scanFloat(r.src, r.pos)
	if !ok {
		return 0, r.badNumber(r.pos)
	}
	r.pos = end
	return v, nil
}

// badNumber returns the error of a number at offset that scanFloat refused.
func (r *Reader) badNumber(offset int) error {
	end, msg := scanNumber(r.src, offset)
	if msg != "" {
		return r.syntax(end, "%s", msg)
	}
	return r.Err("%s; a number below 1.8e308 is wanted", r.found(offset))
}

// NumberText consumes a number and returns it as it is spelled.
func (r *Reader) NumberText() (string, error) {
	if err := r.Want(Number); err != nil {
		return "", err
	}
	end, msg := scanNumber(r.src, r.pos)
	if msg != "" {
		return "", r.syntax(end, "%s", msg)
	}
	text := r.intern(r.src[r.pos:end])
	r.pos = end
	return text, nil
}

// Int consumes a number that is whole and within ±2^53, however it is spelled.
func (r *Reader) Int() (int64, error) {
	v, err := r.Number()
	if err != nil {
		return 0, err
	}
	if v != math.Trunc(v) || math.Abs(v) > 1<<53 {
		r.pos = r.at
		return 0, r.Err("%s; a whole number is wanted", r.found(r.at))
	}
	return int64(v), nil
}

// String consumes a text and returns it decoded.
func (r *Reader) String() (string, error) {
	if err := r.Want(String); err != nil {
		return "", err
	}
	return r.text()
}

// Bool consumes true or false.
func (r *Reader) Bool() (bool, error) {
	if err := r.Want(Bool); err != nil {
		return false, err
	}
	if r.src[r.pos] == 't' {
		return true, r.literal("true")
	}
	return false, r.literal("false")
}

// Null consumes null.
func (r *Reader) Null() error {
	if err := r.Want(Null); err != nil {
		return err
	}
	return r.literal("null")
}

// Skip consumes any value, and checks it as strictly as if it were read.
func (r *Reader) Skip() error {
	k := r.Kind()
	switch k {
	case Null:
		return r.Null()
	case Bool:
		_, err := r.Bool()
		return err
	case Number:
		return r.skipNumber()
	case String:
		return r.skipText()
	case Object:
		return r.Object(nil)
	case Array:
		return r.Array(nil)
	default:
		return r.noValue()
	}
}

func (r *Reader) noValue() error {
	r.at = r.pos
	return r.syntax(r.pos, "%s; a value is wanted", r.found(r.pos))
}

// Raw consumes any value, checks it, and returns its bytes, which are part of
// the document.
func (r *Reader) Raw() ([]byte, error) {
	start := r.stand()
	if err := r.Skip(); err != nil {
		return nil, err
	}
	return r.src[start:r.pos:r.pos], nil
}

// End checks that nothing but white space follows.
func (r *Reader) End() error {
	if r.err != nil {
		return r.err
	}
	if r.stand(); r.pos < len(r.src) {
		return r.syntax(r.pos, "%s after the document; the end is wanted", r.found(r.pos))
	}
	return nil
}
