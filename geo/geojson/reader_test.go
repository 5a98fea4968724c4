package geojson

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

func TestScalars(t *testing.T) {
	tests := map[string]struct {
		text string
		read func(r *Reader) (any, error)
		want any
		msg  string // of the ValueError
	}{
		"number":          {`2.5`, func(r *Reader) (any, error) { return r.Number() }, 2.5, ""},
		"number spelled":  {` -1.50e+1`, func(r *Reader) (any, error) { return r.NumberText() }, "-1.50e+1", ""},
		"number too big":  {`1e999`, func(r *Reader) (any, error) { return r.Number() }, 0.0, "the number 1e999; a number below 1.8e308 is wanted"},
		"text for number": {`"2,5"`, func(r *Reader) (any, error) { return r.Number() }, 0.0, `the text "2,5"; a number is wanted`},
		"null for number": {`null`, func(r *Reader) (any, error) { return r.Number() }, 0.0, "null; a number is wanted"},
		"list for number": {`[1]`, func(r *Reader) (any, error) { return r.Number() }, 0.0, "an array; a number is wanted"},
		"int":             {`43`, func(r *Reader) (any, error) { return r.Int() }, int64(43), ""},
		"int spelled":     {`4.3e1`, func(r *Reader) (any, error) { return r.Int() }, int64(43), ""},
		"int broken":      {`43.5`, func(r *Reader) (any, error) { return r.Int() }, int64(0), "the number 43.5; a whole number is wanted"},
		"int too big":     {`9007199254740994`, func(r *Reader) (any, error) { return r.Int() }, int64(0), "the number 9007199254740994; a whole number is wanted"},
		"text":            {`"a\u00e9\n"`, func(r *Reader) (any, error) { return r.String() }, "aé\n", ""},
		"number for text": {`7`, func(r *Reader) (any, error) { return r.String() }, "", "the number 7; a text is wanted"},
		"true":            {`true`, func(r *Reader) (any, error) { return r.Bool() }, true, ""},
		"false":           {`false`, func(r *Reader) (any, error) { return r.Bool() }, false, ""},
		"text for bool":   {`"yes"`, func(r *Reader) (any, error) { return r.Bool() }, false, `the text "yes"; true or false is wanted`},
		"raw":             {" [1, {\"a\" : 2}] ", func(r *Reader) (any, error) { b, err := r.Raw(); return string(b), err }, `[1, {"a" : 2}]`, ""},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			r := NewReader([]byte(tt.text))
			got, err := tt.read(r)
			if got != tt.want {
				t.Errorf("got %#v, want %#v", got, tt.want)
			}
			var wrong *ValueError
			if errors.As(err, &wrong) {
				if wrong.Msg != tt.msg {
					t.Errorf("message %q, want %q", wrong.Msg, tt.msg)
				}
				// The reader stands before the value again.
				err = r.Skip()
			} else if tt.msg != "" {
				t.Errorf("error %v, want %q", err, tt.msg)
			}
			if err == nil {
				err = r.End()
			}
			if err != nil {
				t.Error(err)
			}
		})
	}
}

// TestGoingOn: after a ValueError, however deep, the walk goes on with the next
// member, and values that the callback leaves are skipped.
func TestGoingOn(t *testing.T) {
	r := NewReader([]byte(`{"list":[1,{"x":[2,"three",4]},{"x":[5]}],"left":{"y":[]},"end":6}`))
	var log []string
	note := func(err error) error {
		var wrong *ValueError
		if errors.As(err, &wrong) {
			log = append(log, wrong.Path+": "+wrong.Msg)
			return nil
		}
		return err
	}
	err := r.Object(func(key string) error {
		switch key {
		case "list":
			return r.Array(func(i int) error {
				return note(r.Object(func(string) error {
					return r.Array(func(int) error {
						v, err := r.Number()
						log = append(log, fmt.Sprint(v, err == nil))
						return err
					})
				}))
			})
		case "end":
			v, err := r.Number()
			log = append(log, fmt.Sprint(v))
			return err
		}
		return nil
	})
	if err == nil {
		err = r.End()
	}
	want := strings.Join([]string{
		"list[0]: the number 1; an object is wanted",
		"2 true", "0 false", `list[1].x[1]: the text "three"; a number is wanted`, "5 true", "6",
	}, "\n")
	if got := strings.Join(log, "\n"); err != nil || got != want {
		t.Errorf("%v\ngot\n%s\nwant\n%s", err, got, want)
	}
}

// TestSyntaxErrorIsFinal: a callback that drops a SyntaxError does not hide it.
func TestSyntaxErrorIsFinal(t *testing.T) {
	r := NewReader([]byte(`{"a":[1,NaN],"b":2}`))
	err := r.Object(func(string) error {
		r.Skip()
		return nil
	})
	var syntax *SyntaxError
	if !errors.As(err, &syntax) || syntax.Path != "a[1]" {
		t.Fatalf("got %v", err)
	}
	for _, again := range []error{r.Skip(), r.End(), r.Null(), r.Geometry(new(Geometry))} {
		if again != err {
			t.Errorf("then %v", again)
		}
	}
}

func TestPostpone(t *testing.T) {
	r := NewReader([]byte(`{"value":[1,"x"],"kind":"n"}`))
	var mark Mark
	kind := ""
	err := r.Object(func(key string) (err error) {
		if key == "value" {
			mark, err = r.Postpone()
		} else {
			kind, err = r.String()
		}
		return err
	})
	if err != nil || kind != "n" {
		t.Fatal(kind, err)
	}
	err = r.Revisit(mark, func() error {
		return r.Array(func(int) error { _, err := r.Number(); return err })
	})
	if err == nil || !strings.HasPrefix(err.Error(), "value[1] (line 1, column 13): ") {
		t.Errorf("got %v", err)
	}
	if err := r.End(); err != nil {
		t.Error(err)
	}
}

func TestTreeLimit(t *testing.T) {
	r := NewReader([]byte("[" + strings.Repeat("0,", MaxValues) + "0]"))
	_, err := r.Value()
	var limit *LimitError
	if !errors.As(err, &limit) {
		t.Fatalf("got %v", err)
	}
}

func TestWrittenNumbers(t *testing.T) {
	tests := []struct {
		v    Value
		want string
	}{
		{NumberOf(0.35), "0.35"}, {NumberOf(1e21), "1000000000000000000000"}, {NumberOf(-36), "-36"},
		{NumberSpelled(-0.004, 2), "0.00"}, {NumberSpelled(-36.1, 7), "-36.1000000"}, {NumberSpelled(2.5, 0), "2"},
		{NumberOf(nan()), "null"}, {NumberSpelled(1/zero(), 2), "null"}, {NumberSpelled(-1/zero(), 2), "null"},
	}
	for _, tt := range tests {
		if got := string(tt.v.AppendJSON(nil)); got != tt.want {
			t.Errorf("got %s, want %s", got, tt.want)
		}
	}
}

func zero() float64 { return 0 }
func nan() float64  { return zero() / zero() }
