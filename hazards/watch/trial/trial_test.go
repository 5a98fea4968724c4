package trial

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The boat of the nights: the span of her rode against the catenary rows of shared check
// values (textbook), and never beyond a rode stretched straight.
func TestBoat(t *testing.T) {
	for _, row := range []struct{ h, kg, pull, length, span float64 }{
		{5, 1.4, 1000, 30, 29.429}, {10, 2.2, 4000, 80, 78.986},
		{5, 1.4, 500, 21.069, 20.269}, {8, 1.4, 2000, 52.392, 51.574}, {4, 0.8, 300, 19.180, 18.619}, // just lifted
	} {
		b := &boat{height: row.h, rode: row.length, weight: row.kg * gravity * (1 - waterKg/chainKg)}
		if got := b.span(row.pull); math.Abs(got-row.span) > row.span*0.001 {
			t.Errorf("%+v: %.3f", row, got)
		}
	}
	for k := range kinds {
		b := newBoat(rand.New(rand.NewPCG(5, uint64(k))), k, 36000)
		for t1 := 1.0; t1 < 36000; t1 += 2 {
			if b.step(t1, 2, 0); b.bow.Len() > b.flat()+1e-9 {
				t.Fatalf("kind %d: the bow is %.2f m off, the rode reaches %.2f", k, b.bow.Len(), b.flat())
			}
		}
	}
}

// The receiver's errors have the size and the memory that they are said to have.
func TestReceiver(t *testing.T) {
	r := newReceiver(rand.New(rand.NewPCG(8, 9)), 5)
	r.everyS = 1
	var squares, products, last float64
	n := 0
	for range 400000 {
		r.fix(toward(0))
		squares, products = squares+r.errM.X*r.errM.X, products+r.errM.X*last
		last = r.errM.X
		n++
	}
	if sd := math.Sqrt(squares / float64(n)); math.Abs(sd-5) > 0.4 {
		t.Errorf("standard deviation %.2f", sd)
	}
	if after := -1 / math.Log(products/squares); math.Abs(after-60) > 12 {
		t.Errorf("errors stay alike for %.0f s", after)
	}
}

// The same seed gives the same nights.
func TestSeeded(t *testing.T) {
	size := Size{Seed: 2, Hours: 10, Drags: 3, PositionM: 10}
	a, b := Run(size, 5), Run(size, 5)
	if a.Watch.Beyond[1][0] != b.Watch.Beyond[1][0] || a.Plain.Alarms != b.Plain.Alarms || a.Plain.Alarms == 0 {
		t.Error("two trials of one seed differ")
	}
}
