package library

import (
	"testing"

	"keelroom/geo/chart"
)

// Two sets are one chart where nine in ten of all objects of each are in the other, and
// twenty at least: with less, closing one would lose what it alone has.
func TestSameChart(t *testing.T) {
	row := func(from, n uint64, without int) Objects {
		o := Objects{count: int(n) + without}
		for i := range n {
			o.names = append(o.names, from+i)
		}
		return o
	}
	for _, c := range []struct {
		name string
		a, b Objects
		want bool
	}{
		{"none", Objects{}, Objects{}, false},
		{"one without names", row(1, 100, 0), row(1, 0, 100), false},
		{"the same", row(1, 1000, 0), row(1, 1000, 0), true},
		{"too few to tell", row(1, 19, 0), row(1, 19, 0), false},
		{"just enough to tell", row(1, 20, 0), row(1, 20, 0), true},
		{"a part of a chart", row(500, 20, 0), row(1, 1000, 0), false},
		{"nine in ten", row(1, 100, 0), row(11, 100, 0), true},
		{"less than nine in ten", row(1, 100, 0), row(12, 100, 0), false},
		{"ten of the cell and 200 dangers of its own", row(1, 10, 200), row(1, 1000, 0), false},
		{"the whole cell and 200 dangers of its own", row(1, 1000, 200), row(1, 1000, 0), false},
		{"neighbours with some in common", row(1, 5000, 0), row(4990, 5000, 0), false},
	} {
		if SameChart(c.a, c.b) != c.want || SameChart(c.b, c.a) != c.want {
			t.Errorf("%s: want %v, both ways round", c.name, c.want)
		}
	}
}

// Only long names tell objects apart across sets.
func TestObjectsOf(t *testing.T) {
	s := &chart.Set{Features: []chart.Feature{{Key: "00FF0000000A0001"}, {Key: "00FF000000020001"}, {Key: "00FF000000020001"}, {Key: "12"}, {Key: ""}}, Refused: []chart.Refused{{}}}
	if o := ObjectsOf(s); o.count != 6 || len(o.names) != 3 || o.names[0] != o.names[1] || o.names[1] >= o.names[2] {
		t.Errorf("%+v", o)
	}
}
