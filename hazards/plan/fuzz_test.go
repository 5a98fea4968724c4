package plan

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func addPlans(f *testing.F) {
	files, err := filepath.Glob("testdata/*.geojson")
	if err != nil || len(files) == 0 {
		f.Fatal("no plans", err)
	}
	bad, _ := filepath.Glob("testdata/bad/*.geojson")
	for _, name := range append(files, bad...) {
		b, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	example := readFile(f, "testdata/example-day.geojson")
	for _, s := range spoiled {
		f.Add([]byte(change(f, string(example), s.from, s.to)))
	}
}

// FuzzDecode: no text panics; a refusal names a place; a plan that is taken is
// valid, and written and read again it is the same.
func FuzzDecode(f *testing.F) {
	addPlans(f)
	f.Fuzz(func(t *testing.T, b []byte) {
		draft, draftErr := DecodeDraft(b)
		p, err := Decode(b)
		if err != nil {
			var errs *Errors
			if !errors.As(err, &errs) || len(errs.List) == 0 || len(errs.List) > MaxListed || errs.List[0].Msg == "" {
				t.Fatalf("error %#v", err)
			}
			p = draft
		} else if draftErr != nil {
			t.Fatalf("taken as a plan, but not as a draft: %v", draftErr)
		} else if wrong := p.Validate(); wrong != nil {
			t.Fatalf("taken, but not valid: %v", wrong)
		}
		if p == nil {
			return
		}
		once, encodeErr := Encode(p)
		if encodeErr != nil {
			t.Fatalf("cannot be written: %v", encodeErr)
		}
		again, againErr := DecodeDraft(once)
		if againErr != nil {
			t.Fatalf("written as %s, then refused: %v", once, againErr)
		}
		if twice, _ := Encode(again); !bytes.Equal(once, twice) {
			t.Fatalf("written as\n%s\nthen as\n%s", once, twice)
		}
		if _, whole := Decode(once); (whole == nil) != (err == nil) {
			t.Fatalf("complete: %v; written and read again: %v", err, whole)
		}
	})
}

// FuzzDecodeReport: no text panics, and a report that is read is written the same
// twice.
func FuzzDecodeReport(f *testing.F) {
	f.Add(exampleReport().Encode(nil))
	f.Add(NewReport().Encode(nil))
	f.Fuzz(func(t *testing.T, b []byte) {
		r, err := DecodeReport(b)
		if err != nil {
			return
		}
		once := r.Encode(nil)
		again, err := DecodeReport(once)
		if err != nil {
			t.Fatalf("written as %s, then refused: %v", once, err)
		}
		if twice := again.Encode(nil); !bytes.Equal(once, twice) {
			t.Fatalf("written as\n%s\nthen as\n%s", once, twice)
		}
	})
}
