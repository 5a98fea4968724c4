package geojson

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

// Cases in the manner of the public JSON test collections: y_ must be accepted,
// n_ refused. Chosen and typed from memory of RFC 8259, not copied.

var accepted = map[string]string{
	"y_empty_object":        `{}`,
	"y_empty_array":         `[]`,
	"y_space_everywhere":    " \t\r\n[ 1 , { \"a\" : null } ]\n",
	"y_byte_order_mark":     "\xEF\xBB\xBF{\"a\":1}",
	"y_lone_text":           `"x"`,
	"y_lone_number":         `-0`,
	"y_lone_true":           `true`,
	"y_lone_false":          `false`,
	"y_lone_null":           `null`,
	"y_minus_zero":          `[-0]`,
	"y_exponents":           `[1e1,1E+2,1.5e-3,0e0,0E9]`,
	"y_huge_number":         `[1e999]`,
	"y_many_digits":         `[123456789012345678901234567890.123456789012345678901234567890]`,
	"y_escapes":             `["\" \\ \/ \b \f \n \r \t \u0041 \u00e9 \u2028"]`,
	"y_escaped_nul":         `["\u0000"]`,
	"y_surrogate_pair":      `["\uD83D\uDEA4"]`,
	"y_raw_utf8":            `["é 海 🚤"]`,
	"y_delete_character":    "[\"\x7f\"]",
	"y_replacement_char":    `["` + "�" + `"]`,
	"y_empty_key":           `{"":0}`,
	"y_same_key_elsewhere":  `{"a":{"a":[{"a":1},{"a":2}]},"b":{"a":1}}`,
	"y_depth_64":            strings.Repeat("[", 64) + strings.Repeat("]", 64),
	"y_noncharacter":        `["￿"]`,
	"y_utf8_in_key":         `{"é":1}`,
	"y_text_looks_like_end": `["]}"]`,
}

var refused = map[string]string{
	"n_empty":                    ``,
	"n_only_space":               ` `,
	"n_only_byte_order_mark":     "\xEF\xBB\xBF",
	"n_two_byte_order_marks":     "\xEF\xBB\xBF\xEF\xBB\xBF{}",
	"n_byte_order_mark_inside":   "[\xEF\xBB\xBF]",
	"n_utf16":                    "\xFF\xFE{\x00}\x00",
	"n_trailing_comma_array":     `[1,]`,
	"n_trailing_comma_object":    `{"a":1,}`,
	"n_leading_comma":            `[,1]`,
	"n_double_comma":             `[1,,2]`,
	"n_missing_comma":            `[1 2]`,
	"n_missing_colon":            `{"a" 1}`,
	"n_comma_for_colon":          `{"a",1}`,
	"n_missing_value":            `{"a":}`,
	"n_bare_key":                 `{a:1}`,
	"n_number_key":               `{1:1}`,
	"n_single_quotes":            `['a']`,
	"n_comment":                  `[1/*x*/]`,
	"n_nan":                      `[NaN]`,
	"n_minus_nan":                `[-NaN]`,
	"n_infinity":                 `[Infinity]`,
	"n_minus_infinity":           `[-Infinity]`,
	"n_plus":                     `[+1]`,
	"n_leading_zero":             `[01]`,
	"n_minus_leading_zero":       `[-01]`,
	"n_double_zero":              `[00]`,
	"n_point_first":              `[.5]`,
	"n_point_last":               `[5.]`,
	"n_point_then_exponent":      `[5.e3]`,
	"n_minus_alone":              `[-]`,
	"n_exponent_alone":           `[1e]`,
	"n_exponent_sign_alone":      `[1e+]`,
	"n_two_points":               `[1.2.3]`,
	"n_hexadecimal":              `[0x10]`,
	"n_underscore":               `[1_000]`,
	"n_comma_decimal":            `{"a":2,5}`,
	"n_full_width_digit":         `[１]`,
	"n_true_cut":                 `[tru]`,
	"n_true_capital":             `[True]`,
	"n_true_longer":              `[truex]`,
	"n_null_cut":                 `nul`,
	"n_undefined":                `undefined`,
	"n_newline_in_text":          "[\"a\nb\"]",
	"n_tab_in_text":              "[\"a\tb\"]",
	"n_nul_in_text":              "[\"a\x00b\"]",
	"n_unknown_escape":           `["\x41"]`,
	"n_escape_cut":               `["\`,
	"n_short_unicode_escape":     `["\u12"]`,
	"n_bad_unicode_escape":       `["\u12G4"]`,
	"n_lone_high_surrogate":      `["\uD83D"]`,
	"n_lone_low_surrogate":       `["\uDEA4"]`,
	"n_surrogates_swapped":       `["\uDEA4\uD83D"]`,
	"n_two_high_surrogates":      `["\uD83D\uD83D"]`,
	"n_surrogate_then_text":      `["\uD83Dxxxxxx"]`,
	"n_bad_utf8":                 "[\"\xff\"]",
	"n_cut_utf8":                 "[\"\xe6\xb5\"]",
	"n_overlong_utf8":            "[\"\xc0\xaf\"]",
	"n_surrogate_in_utf8":        "[\"\xed\xa0\x80\"]",
	"n_bad_utf8_in_key":          "{\"\xff\":1}",
	"n_open_array":               `[1`,
	"n_open_array_comma":         `[1,`,
	"n_open_object":              `{"a":1`,
	"n_open_key":                 `{"a`,
	"n_open_text":                `["a`,
	"n_only_open":                `[`,
	"n_only_close":               `]`,
	"n_wrong_close":              `[1}`,
	"n_object_wrong_close":       `{"a":1]`,
	"n_trailing_bracket":         `[1]]`,
	"n_trailing_word":            `{} x`,
	"n_two_documents":            `{}{}`,
	"n_trailing_nul":             "{}\x00",
	"n_form_feed_space":          "[\f1]",
	"n_no_break_space":           "[\u00a01]",
	"n_same_key_twice":           `{"a":1,"a":1}`,
	"n_same_key_twice_escaped":   `{"a":1,"\u0061":2}`,
	"n_same_key_twice_deep":      `[{"b":{"a":1,"c":2,"a":3}}]`,
	"n_same_empty_key_twice":     `{"":1,"":2}`,
	"n_depth_65":                 strings.Repeat("[", 65) + strings.Repeat("]", 65),
	"n_depth_65_objects":         strings.Repeat(`{"a":`, 65) + "1" + strings.Repeat("}", 65),
	"n_very_deep_and_never_ends": strings.Repeat("[", 1_000_000),
}

// readAll reads a document as a tree, and checks that skipping agrees.
func readAll(t testing.TB, text string) (Value, error) {
	t.Helper()
	r := NewReader([]byte(text))
	v, err := r.Value()
	if err == nil {
		err = r.End()
	}
	s := NewReader([]byte(text))
	skipErr := s.Skip()
	if skipErr == nil {
		skipErr = s.End()
	}
	if (err == nil) != (skipErr == nil) {
		t.Errorf("%.60q: Value says %v, Skip says %v", text, err, skipErr)
	}
	return v, err
}

func TestAccepted(t *testing.T) {
	for name, text := range accepted {
		t.Run(name, func(t *testing.T) {
			v, err := readAll(t, text)
			if err != nil {
				t.Fatalf("%q: %v", text, err)
			}
			agreesWithOracle(t, []byte(text), v)
		})
	}
}

func TestRefused(t *testing.T) {
	for name, text := range refused {
		t.Run(name, func(t *testing.T) {
			_, err := readAll(t, text)
			var syntax *SyntaxError
			if !errors.As(err, &syntax) {
				t.Fatalf("%.60q: error %v; a SyntaxError is wanted", text, err)
			}
			if syntax.Offset < 0 || syntax.Offset > len(text) || syntax.Line < 1 || syntax.Column < 1 || syntax.Msg == "" {
				t.Errorf("%.60q: error without a place: %+v", text, syntax)
			}
		})
	}
}

// TestKeysOfLargeObjects: a key that occurs twice is found in objects with so many
// keys that they are held in a set, also around and between other objects.
func TestKeysOfLargeObjects(t *testing.T) {
	for _, n := range []int{manyKeys - 1, manyKeys, manyKeys + 1, 500} {
		var b strings.Builder
		b.WriteString("{")
		for i := range n {
			b.WriteString(`"k` + strings.Repeat("x", i) + `":{"a":1,"b":2},`)
		}
		good, bad := b.String()+`"last":0}`, b.String()+`"kxxx":0}`
		if _, err := readAll(t, good); err != nil {
			t.Errorf("%d keys: %v", n, err)
		}
		if _, err := readAll(t, bad); err == nil || !strings.Contains(err.Error(), "twice") {
			t.Errorf("%d keys and one twice: %v", n, err)
		}
		if _, err := readAll(t, "["+good+","+good+"]"); err != nil {
			t.Errorf("two objects of %d keys: %v", n, err)
		}
	}
}

// TestPlaces: errors name path, offset, line and column.
func TestPlaces(t *testing.T) {
	tests := map[string]struct {
		text string
		want Place
		msg  string
	}{
		"value":      {"{\"a\":[1,\n {\"b\":tru}]}", Place{"a[1].b", 15, 2, 7}, "tru; true is wanted"},
		"nan":        {`{"features":[{"properties":{"VALDCO":NaN}}]}`, Place{"features[0].properties.VALDCO", 37, 1, 38}, "NaN, which is not JSON,; a value is wanted"},
		"mark":       {"\xEF\xBB\xBF[x]", Place{"[0]", 4, 1, 2}, "x, which is not JSON,; a value is wanted"},
		"characters": {`{"é":"é","b":-}`, Place{"b", 16, 1, 15}, "a number without digits; a digit is wanted"},
		"odd key":    {`{"a b.c":{"d":]}}`, Place{`["a b.c"].d`, 14, 1, 15}, `']'; a value is wanted`},
		"end":        {`{"a":{"b":[1,2`, Place{"a.b", 14, 1, 15}, "the end of the text; a comma or ']' is wanted"},
		"twice":      {`{"a":1,"a":2}`, Place{"", 7, 1, 8}, `the key "a" occurs twice; it is wanted once`},
		"trailing":   {"{}\n\n [", Place{"", 5, 3, 2}, "an array after the document; the end is wanted"},
		"empty":      {"", Place{"", 0, 1, 1}, "the end of the text; a value is wanted"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			_, err := readAll(t, tt.text)
			var syntax *SyntaxError
			if !errors.As(err, &syntax) {
				t.Fatalf("%v", err)
			}
			if syntax.Place != tt.want || syntax.Msg != tt.msg {
				t.Errorf("got  %+v %q\nwant %+v %q", syntax.Place, syntax.Msg, tt.want, tt.msg)
			}
		})
	}
}

// TestLineCounter: asking for places in any order gives what counting from the
// start gives.
func TestLineCounter(t *testing.T) {
	text := "\xEF\xBB\xBFab\n\ncdé\nf🚤g\n"
	r := NewReader([]byte(text))
	for step := 1; step < len(text); step++ {
		for i := 0; i < len(text); i++ {
			offset := 3 + (i*step)%(len(text)-2)
			fresh := NewReader([]byte(text))
			if got, want := r.PlaceOf("", offset), fresh.PlaceOf("", offset); got != want {
				t.Fatalf("offset %d: %+v, from the start %+v", offset, got, want)
			}
		}
	}
}

func agreesWithOracle(t testing.TB, text []byte, v Value) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(strings.TrimPrefix(string(text), "\xEF\xBB\xBF")))
	d.UseNumber()
	var want any
	if err := d.Decode(&want); err != nil {
		t.Fatalf("%.80q: encoding/json refuses it: %v", text, err)
	}
	if !equalsOracle(v, want) {
		t.Fatalf("%.80q: got %s, encoding/json has %v", text, v.AppendJSON(nil), want)
	}
}

func equalsOracle(v Value, want any) bool {
	switch w := want.(type) {
	case nil:
		return v.Kind == Null
	case bool:
		return v.Kind == Bool && v.Bool == w
	case json.Number:
		return v.Kind == Number && v.Str == w.String()
	case string:
		return v.Kind == String && v.Str == w
	case []any:
		if v.Kind != Array || len(v.Items) != len(w) {
			return false
		}
		for i := range w {
			if !equalsOracle(v.Items[i], w[i]) {
				return false
			}
		}
		return true
	case map[string]any:
		if v.Kind != Object || len(v.Members) != len(w) {
			return false
		}
		for _, m := range v.Members {
			item, ok := w[m.Key]
			if !ok || !equalsOracle(m.Value, item) {
				return false
			}
		}
		return true
	}
	return false
}
