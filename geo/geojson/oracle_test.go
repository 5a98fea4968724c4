package geojson

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// randomText writes a random document: every kind, odd white space, escapes.
func randomText(rng *rand.Rand, depth int) string {
	space := func() string { return []string{"", "", "", " ", "\n", "\t", "\r\n "}[rng.IntN(7)] }
	switch n := rng.IntN(8); {
	case depth > 0 && n < 2:
		var items []string
		for range rng.IntN(5) {
			items = append(items, space()+randomText(rng, depth-1)+space())
		}
		return "[" + space() + strings.Join(items, ",") + "]"
	case depth > 0 && n < 4:
		var members []string
		for i := range rng.IntN(5) {
			members = append(members, space()+randomString(rng, strconv.Itoa(i))+space()+":"+space()+randomText(rng, depth-1)+space())
		}
		return "{" + space() + strings.Join(members, ",") + "}"
	case n == 4:
		return randomString(rng, "")
	case n == 5:
		return []string{"true", "false", "null"}[rng.IntN(3)]
	}
	return randomNumber(rng)
}

func randomString(rng *rand.Rand, start string) string {
	parts := []string{"a", "VALDCO", " ", "é", "海", "🚤", `\n`, `\"`, `\\`, `\/`, `\u00E9`, `\uD83D\uDEA4`, `\u0000`, "]", "{", ","}
	s := `"` + start
	for range rng.IntN(6) {
		s += parts[rng.IntN(len(parts))]
	}
	return s + `"`
}

func randomNumber(rng *rand.Rand) string {
	switch rng.IntN(8) {
	case 0:
		return strconv.FormatFloat(math.Float64frombits(rng.Uint64()&^(1<<62)), 'g', -1, 64)
	case 1:
		return strconv.FormatInt(rng.Int64()-rng.Int64(), 10)
	case 2:
		return fmt.Sprintf("%d.%d", rng.Uint64(), rng.Uint64())
	case 3:
		return fmt.Sprintf("-%d.%de%d", rng.IntN(1000), rng.Uint64(), rng.IntN(600)-300)
	case 4:
		return fmt.Sprintf("0.%0*d", 1+rng.IntN(30), rng.IntN(1000))
	case 5:
		return strconv.FormatUint(1<<53-2+rng.Uint64N(5), 10)
	}
	return strconv.FormatFloat(rng.Float64()*360-180, 'f', rng.IntN(20), 64)
}

func TestRandomDocumentsAgreeWithOracle(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 36))
	for range 20_000 {
		text := randomText(rng, 6)
		v, err := readAll(t, text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		agreesWithOracle(t, []byte(text), v)
		again, err := readAll(t, string(v.AppendJSON(nil)))
		if err != nil || !bytes.Equal(again.AppendJSON(nil), v.AppendJSON(nil)) {
			t.Fatalf("%s: written and read again: %v", text, err)
		}
	}
}

// TestBrokenDocumentsAreRefused changes one byte of a right document: what
// encoding/json refuses must be refused.
func TestBrokenDocumentsAreRefused(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 37))
	refusals := 0
	for range 20_000 {
		b := []byte(randomText(rng, 5))
		i := rng.IntN(len(b))
		switch rng.IntN(3) {
		case 0:
			b[i] = `{}[]",:0-.eE+ tn\`[rng.IntN(17)]
		case 1:
			b = append(b[:i], b[i+1:]...)
		case 2:
			b = b[:i]
		}
		if _, err := readAll(t, string(b)); err != nil {
			refusals++
		} else if !json.Valid(b) {
			t.Fatalf("%s: accepted", b)
		}
	}
	if refusals < 1000 {
		t.Errorf("only %d refusals: the test does not test", refusals)
	}
}

// TestNumbersAreRoundedExactly compares with strconv, bit by bit.
func TestNumbersAreRoundedExactly(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 38))
	cases := []string{
		"0", "-0", "0.1", "9007199254740992", "9007199254740993", "9007199254740991.5", "1e22", "1e23", "1e-22",
		"0.0000000000000000000001", "0.00000000000000000000001", "123456789012345678", "1234567890123456789",
		"12345678901234567890", "18446744073709551616", "-70.99999990000000643", "4.9e-324", "2e-324", "1.7976931348623157e308",
		"0.3", "2.2250738585072011e-308", "000"[:1],
	}
	for range 100_000 {
		cases = append(cases, randomNumber(rng))
	}
	for _, s := range cases {
		want, err := strconv.ParseFloat(s, 64)
		if err != nil {
			continue // beyond float64
		}
		got, err := NewReader([]byte(s)).Number()
		if err != nil || math.Float64bits(got) != math.Float64bits(want) {
			t.Fatalf("%s: got %v (%v), want %v", s, got, err, want)
		}
		p, _, n, _ := scanPosition([]byte("["+s+", "+s+"]"), 0)
		if n != 2 || math.Float64bits(p[0]) != math.Float64bits(want) || math.Float64bits(p[1]) != math.Float64bits(want) {
			t.Fatalf("[%s, %s]: got %v", s, s, p)
		}
	}
}

func addCorpus(f *testing.F) {
	for _, text := range accepted {
		f.Add([]byte(text))
	}
	for name, text := range refused {
		if len(text) < 1000 {
			f.Add([]byte(text))
		} else {
			f.Logf("left out for its length: %s", name)
		}
	}
}

// FuzzReader: no text makes the reader panic; it accepts nothing that
// encoding/json refuses, reads the same values, and what it refuses beyond that is
// one of the four things the package comment names.
func FuzzReader(f *testing.F) {
	addCorpus(f)
	f.Fuzz(func(t *testing.T, b []byte) {
		v, err := readAll(t, string(b))
		plain := bytes.TrimPrefix(b, byteOrderMark)
		if err != nil {
			if json.Valid(plain) && utf8.Valid(plain) && !isOurs(err) {
				t.Fatalf("%q: %v", b, err)
			}
			return
		}
		agreesWithOracle(t, b, v)
	})
}

func isOurs(err error) bool {
	for _, s := range []string{"occurs twice", "surrogate", "nested deeper", "in one tree"} {
		if strings.Contains(err.Error(), s) {
			return true
		}
	}
	return false
}
