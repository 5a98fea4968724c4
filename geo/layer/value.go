package layer

import (
	"math"
	"strconv"
	"strings"
)

// ValueKind is the kind of an attribute's value.
type ValueKind uint8

// The kinds. The zero value is unknown, which is what an absent, null or empty
// attribute means.
const (
	UnknownValue ValueKind = iota
	NumberValue
	TextValue
	TruthValue
	ListValue
	ComplexValue
)

// Value is the value of an attribute. Numbers and lists may also come as text,
// as in S-57: "5.4", "2,6,24".
type Value struct {
	Kind    ValueKind
	Num     float64 // of a NumberValue; 1 or 0 of a TruthValue
	Text    string
	Items   []Value  // of a ListValue
	Members []Member // of a ComplexValue, as S-101 has them
}

// Member is one part of a complex value.
type Member struct {
	Name  string
	Value Value
}

// TextOf is the value of an attribute given as text; "" is unknown.
func TextOf(s string) Value { return Value{Kind: TextValue, Text: s} }

// NumberOf is the value of an attribute given as a number.
func NumberOf(v float64) Value { return Value{Kind: NumberValue, Num: v} }

// unknown reports whether the value says nothing.
func (v Value) unknown() bool {
	switch v.Kind {
	case UnknownValue:
		return true
	case TextValue:
		return strings.TrimSpace(v.Text) == ""
	case ListValue:
		for _, item := range v.Items {
			if !item.unknown() {
				return false
			}
		}
		return true
	case ComplexValue:
		return len(v.Members) == 0
	}
	return false
}

// member is a part of a complex value, unknown where it has none of that name.
func (v Value) member(name string) Value {
	for _, m := range v.Members {
		if m.Name == name {
			return m.Value
		}
	}
	return Value{}
}

// each calls fn with every item of a list, or with the value itself.
func (v Value) each(fn func(Value)) {
	if v.Kind != ListValue {
		fn(v)
		return
	}
	for _, item := range v.Items {
		fn(item)
	}
}

// part follows the value into the named member of a complex value or of each
// complex item of a list. Other values are returned as they are.
func (v Value) part(name string) Value {
	switch {
	case name == "":
		return v
	case v.Kind == ComplexValue:
		return v.member(name)
	case v.Kind != ListValue:
		return v
	}
	out := Value{Kind: ListValue}
	for _, item := range v.Items {
		item.part(name).each(func(p Value) { out.Items = append(out.Items, p) })
	}
	return out
}

// single is the only known item of a list, or the value itself; ok is false for
// a list of several.
func (v Value) single() (one Value, ok bool) {
	if v.Kind != ListValue {
		return v, true
	}
	n := 0
	for _, item := range v.Items {
		if !item.unknown() {
			one, n = item, n+1
		}
	}
	return one, n <= 1
}

// number reads one number: a number, or a text that holds one with a decimal
// point and nothing else.
func (v Value) number() (float64, bool) {
	v, ok := v.single()
	switch {
	case !ok:
		return 0, false
	case v.Kind == NumberValue:
		return v.Num, !math.IsInf(v.Num, 0) && !math.IsNaN(v.Num)
	case v.Kind == TextValue:
		return parseNumber(strings.TrimSpace(v.Text))
	}
	return 0, false
}

// parseNumber reads a number as JSON spells it, a leading + or zeros allowed.
// What else strconv would take (hexadecimal, Inf, underscores) is no number.
func parseNumber(s string) (float64, bool) {
	for i := range len(s) {
		if c := s[i]; (c < '0' || c > '9') && !strings.ContainsRune("+-.eE", rune(c)) {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// integer reads one whole number within a range.
func (v Value) integer(least, greatest int) (int, bool) {
	f, ok := v.number()
	if !ok || f != math.Trunc(f) || f < float64(least) || f > float64(greatest) {
		return 0, false
	}
	return int(f), true
}

// codes appends the codes of a list attribute in their order: items of an
// array, or "2,6,24", or one number. Empty items are dropped.
func (v Value) codes(dst []int) ([]int, bool) {
	ok := true
	v.each(func(item Value) {
		if item.Kind == TextValue {
			for s := range strings.SplitSeq(item.Text, ",") {
				dst, ok = appendCode(dst, TextOf(s), ok)
			}
			return
		}
		dst, ok = appendCode(dst, item, ok)
	})
	return dst, ok
}

func appendCode(dst []int, v Value, ok bool) ([]int, bool) {
	if v.unknown() {
		return dst, ok
	}
	code, fine := v.integer(1, maxCode)
	if !fine {
		return dst, false
	}
	return append(dst, code), ok
}

// maxCode is the greatest code that chart.Codes holds. The lists read here end
// at 42 (S-101 Feature Catalogue 2.1.0, restriction).
const maxCode = 63

// text reads a text; a number counts as its spelling.
func (v Value) text() string {
	v, ok := v.single()
	switch {
	case ok && v.Kind == TextValue:
		return v.Text
	case ok && v.Kind == NumberValue:
		return strconv.FormatFloat(v.Num, 'f', -1, 64)
	}
	return ""
}

// truth reports whether the value says true, or false, as is asked; a text or a number
// may say it too. What cannot be read says neither.
func (v Value) truth(asked bool) bool {
	v, ok := v.single()
	switch {
	case !ok:
		return false
	case v.Kind == TruthValue:
		return (v.Num != 0) == asked
	}
	stated, err := strconv.ParseBool(strings.ToLower(v.text()))
	return err == nil && stated == asked
}

// describe shows the value in a message.
func (v Value) describe() string {
	switch v.Kind {
	case NumberValue:
		return strconv.FormatFloat(v.Num, 'g', -1, 64)
	case TextValue:
		return quote(v.Text)
	case TruthValue:
		return strconv.FormatBool(v.Num != 0)
	case ListValue:
		var items []string
		for _, item := range v.Items[:min(len(v.Items), 8)] {
			items = append(items, item.describe())
		}
		if len(v.Items) > 8 {
			items = append(items, "...")
		}
		return "[" + strings.Join(items, ",") + "]"
	case ComplexValue:
		return "an object"
	}
	return "nothing"
}

// quote puts a text in quotes, shortened.
func quote(s string) string {
	const most = 40
	if short := []rune(s[:min(len(s), 4*most)]); len(short) > most {
		return strconv.Quote(string(short[:most]) + "...")
	}
	return strconv.Quote(s)
}
