package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"keelroom/geo/geojson"
)

// A field ties one member of a JSON object to the Go value that holds it. What a
// plan object reads, writes and checks is the list of its fields.
type field struct {
	key      string
	kind     geojson.Kind
	set      func(v geojson.Value) (wrong string)  // takes a value of that kind
	walk     func(d *decoder) error                // reads an object or list, instead of set
	texted   func(s string) (wrong string)         // of a text in the place of a number, if more can be said of it
	get      func(w *writer) (geojson.Value, bool) // what to write; false: not known
	check    func(c *checker)                      // nil: anything goes
	def      geojson.Value                         // not written unless the file had the member
	required bool                                  // refused where missing
	fresh    bool                                  // the spelling of the file is not kept
}

// record is a JSON object of the plan.
type record interface {
	fields() []field
	members() *kept
}

// kept is the members an object had when it was read: unknown ones whole, known
// ones for their order and spelling. It is never changed after reading, so that
// copies of a plan may share it.
type kept []geojson.Member

func (k *kept) members() *kept { return k }

func (k *kept) add(key string, v geojson.Value) {
	*k = append(*k, geojson.Member{Key: key, Value: v})
}

// given says whether the file had the member, and not as null.
func (k kept) given(key string) bool {
	return slices.ContainsFunc(k, func(m geojson.Member) bool {
		return m.Key == key && m.Value.Kind != geojson.Null
	})
}

// numberRange is a range of numbers, ends included.
type numberRange struct {
	lo, hi float64
	unit   string
}

// wrong says what is wrong with v, and "" where it lies in the range.
func (s numberRange) wrong(v float64) string {
	if v >= s.lo && v <= s.hi {
		return ""
	}
	return said(v) + "; " + s.wanted()
}

func (s numberRange) wanted() string {
	return strings.TrimSpace(fmt.Sprintf("a number from %s to %s %s", said(s.lo), said(s.hi), s.unit)) + " is wanted"
}

func text(key string, p *string) field {
	return field{
		key: key, kind: geojson.String, def: geojson.TextOf(""),
		set: func(v geojson.Value) string { *p = v.Str; return "" },
		get: func(*writer) (geojson.Value, bool) { return geojson.TextOf(*p), true },
	}
}

// choice is a text out of a few; "" stands for the first where def says so.
func choice(key string, p *string, def string, options ...string) field {
	f := text(key, p)
	f.def = geojson.TextOf(def)
	return checked(f, func() string {
		if *p == def || slices.Contains(options, *p) {
			return ""
		}
		return quoted(*p) + "; one of " + strings.Join(options, ", ") + " is wanted"
	})
}

func flag(key string, p *bool) field {
	return field{
		key: key, kind: geojson.Bool, def: geojson.BoolOf(false),
		set: func(v geojson.Value) string { *p = v.Bool; return "" },
		get: func(*writer) (geojson.Value, bool) { return geojson.BoolOf(*p), true },
	}
}

func number(key string, p *float64, def float64, s numberRange) field {
	return checked(field{
		key: key, kind: geojson.Number, def: geojson.NumberOf(def),
		set: func(v geojson.Value) string { *p = v.Num; return "" },
		get: func(*writer) (geojson.Value, bool) { return geojson.NumberOf(*p), true },
	}, func() string { return s.wrong(*p) })
}

// needed is a number that a complete plan has; 0 while it is missing.
func needed(key string, p *float64, s numberRange) field {
	f := number(key, p, 0, s)
	f.check = func(c *checker) {
		if *p == 0 {
			c.incomplete(key, "missing or 0; "+s.wanted())
		} else {
			c.wrong(key, s.wrong(*p))
		}
	}
	return f
}

// optional is a number that may be unknown.
func optional(key string, p **float64, s numberRange) field {
	return checked(field{
		key: key, kind: geojson.Number,
		set: func(v geojson.Value) string { *p = &v.Num; return "" },
		get: func(*writer) (geojson.Value, bool) {
			if *p == nil {
				return geojson.Value{}, false
			}
			return geojson.NumberOf(**p), true
		},
	}, func() string {
		if *p == nil {
			return ""
		}
		return s.wrong(**p)
	})
}

// whole is a whole number; 0 is not given.
func whole(key string, p *int, ok func(int) bool, wanted string) field {
	return checked(field{
		key: key, kind: geojson.Number, def: geojson.NumberOf(0),
		set: func(v geojson.Value) string {
			if v.Num != math.Trunc(v.Num) || math.Abs(v.Num) > math.MaxInt32 {
				return v.Str + "; " + wanted + " is wanted"
			}
			*p = int(v.Num)
			return ""
		},
		get: func(*writer) (geojson.Value, bool) { return geojson.NumberOf(float64(*p)), true },
	}, func() string {
		if *p == 0 || ok(*p) {
			return ""
		}
		return fmt.Sprintf("%d; %s is wanted", *p, wanted)
	})
}

// datum is a vertical datum by its VERDAT number (S-57 attribute 185).
func datum(key string, p *int) field {
	return whole(key, p, func(n int) bool { return n >= 1 && n <= 30 || n == 44 },
		"a VERDAT number, 1 to 30 or 44,")
}

// moment is a time; the zero time is missing.
func moment(key string, p *time.Time) field {
	return field{
		key: key, kind: geojson.String,
		set: func(v geojson.Value) (wrong string) { *p, wrong = parseTime(v.Str); return wrong },
		get: func(w *writer) (geojson.Value, bool) { return w.time(*p), !p.IsZero() },
		check: func(c *checker) {
			if !p.IsZero() {
				c.wrong(key, timeWrong(*p))
			}
		},
	}
}

// maybe is a time that may be unknown.
func maybe(key string, p **time.Time) field {
	return field{
		key: key, kind: geojson.String,
		set: func(v geojson.Value) string {
			t, wrong := parseTime(v.Str)
			*p = &t
			return wrong
		},
		get: func(w *writer) (geojson.Value, bool) {
			if *p == nil {
				return geojson.Value{}, false
			}
			return w.time(**p), true
		},
		check: func(c *checker) {
			if *p != nil {
				c.wrong(key, timeWrong(**p))
			}
		},
	}
}

// constant is a member that always says the same.
func constant(key, value string) field {
	return field{
		key: key, kind: geojson.String, required: true,
		set: func(v geojson.Value) string {
			if v.Str != value {
				return quoted(v.Str) + "; " + quoted(value) + " is wanted"
			}
			return ""
		},
		get: func(*writer) (geojson.Value, bool) { return geojson.TextOf(value), true },
	}
}

// required makes a missing member a problem, whatever its default.
func required(f field) field {
	f.required = true
	f.def = geojson.Value{}
	return f
}

// checked adds a check that says what is wrong, or "".
func checked(f field, wrong func() string) field {
	before := f.check
	f.check = func(c *checker) {
		if before != nil {
			before(c)
		}
		c.wrong(f.key, wrong())
	}
	return f
}
