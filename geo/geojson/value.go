package geojson

import (
	"strconv"
	"unicode/utf8"
)

// Value is a JSON value of any kind, in document order.
type Value struct {
	Kind    Kind
	Bool    bool     // of a Bool
	Str     string   // of a String; of a Number, its spelling
	Num     float64  // of a Number; ±Inf where it is beyond float64
	Items   []Value  // of an Array
	Members []Member // of an Object
}

// Member is a key of an object and its value.
type Member struct {
	Key   string
	Value Value
}

// MaxValues is how many values one tree may hold, so that a small hostile text
// cannot become a large tree.
const MaxValues = 1 << 20

// Value consumes any value as a tree. A tree of more than [MaxValues] values is
// a [*LimitError].
func (r *Reader) Value() (Value, error) {
	room := MaxValues
	return r.value(&room)
}

func (r *Reader) value(room *int) (v Value, err error) {
	r.in.stand()
	if *room--; *room < 0 {
		return v, r.in.limit("more than %d values in one tree; fewer are wanted", MaxValues)
	}
	switch v.Kind = r.in.kind(); v.Kind {
	case Null:
		err = r.Null()
	case Bool:
		v.Bool, err = r.Bool()
	case Number:
		if v.Str, err = r.NumberText(); err == nil {
			v.Num, _ = strconv.ParseFloat(v.Str, 64)
		}
	case String:
		v.Str, err = r.String()
	case Object:
		err = r.Object(func(key string) error {
			item, err := r.value(room)
			v.Members = append(v.Members, Member{key, item})
			return err
		})
	case Array:
		err = r.Array(func(int) error {
			item, err := r.value(room)
			v.Items = append(v.Items, item)
			return err
		})
	default:
		err = r.in.noValue()
	}
	return v, err
}

// Get returns the member of an object with this key.
func (v Value) Get(key string) (Value, bool) {
	for _, m := range v.Members {
		if m.Key == key {
			return m.Value, true
		}
	}
	return Value{}, false
}

// TextOf returns a Value of kind String.
func TextOf(s string) Value { return Value{Kind: String, Str: s} }

// BoolOf returns a Value of kind Bool.
func BoolOf(b bool) Value { return Value{Kind: Bool, Bool: b} }

// NumberOf returns a Value of kind Number with the shortest spelling that reads
// as v again, and null where v is not finite, which JSON cannot say.
func NumberOf(v float64) Value {
	if v-v != 0 { // NaN and both infinities
		return Value{Kind: Null}
	}
	return Value{Kind: Number, Num: v, Str: strconv.FormatFloat(v, 'f', -1, 64)}
}

// NumberSpelled returns a Value of kind Number with v spelled with that many
// decimals, and null where v is not finite. Minus zero loses its sign.
func NumberSpelled(v float64, decimals int) Value {
	if v-v != 0 {
		return Value{Kind: Null}
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	n, _ := strconv.ParseFloat(s, 64)
	if n == 0 && s[0] == '-' {
		s, n = s[1:], 0
	}
	return Value{Kind: Number, Num: n, Str: s}
}

// Append adds a member to an object under construction.
func (v *Value) Append(key string, member Value) {
	v.Kind = Object
	v.Members = append(v.Members, Member{key, member})
}

// AppendJSON appends the value as JSON without white space. A Number is written
// as Str spells it.
func (v Value) AppendJSON(dst []byte) []byte {
	switch v.Kind {
	case Bool:
		return strconv.AppendBool(dst, v.Bool)
	case Number:
		return append(dst, v.Str...)
	case String:
		return AppendText(dst, v.Str)
	case Object:
		dst = append(dst, '{')
		for i, m := range v.Members {
			if i > 0 {
				dst = append(dst, ',')
			}
			dst = append(AppendText(dst, m.Key), ':')
			dst = m.Value.AppendJSON(dst)
		}
		return append(dst, '}')
	case Array:
		dst = append(dst, '[')
		for i, item := range v.Items {
			if i > 0 {
				dst = append(dst, ',')
			}
			dst = item.AppendJSON(dst)
		}
		return append(dst, ']')
	default:
		return append(dst, "null"...)
	}
}

// AppendText appends s as a JSON text. Bytes that are not UTF-8 become the
// replacement character.
func AppendText(dst []byte, s string) []byte {
	const hex = "0123456789abcdef"
	dst = append(dst, '"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			dst = append(dst, '\\', byte(c))
		case c == '\n':
			dst = append(dst, '\\', 'n')
		case c < ' ':
			dst = append(dst, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
		default:
			dst = utf8.AppendRune(dst, c)
		}
	}
	return append(dst, '"')
}
