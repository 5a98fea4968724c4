package engine

import "testing"

// Two sets are one chart from half of the smaller one's objects on.
func TestSameChart(t *testing.T) {
	row := func(from, n uint64) (list []uint64) {
		for i := range n {
			list = append(list, from+i)
		}
		return list
	}
	for _, c := range []struct {
		name string
		a, b []uint64
		want bool
	}{
		{"none", nil, nil, false},
		{"one without names", row(1, 10), nil, false},
		{"the same", row(1, 1000), row(1, 1000), true},
		{"a part of a chart", row(500, 20), row(1, 1000), true},
		{"half of it", row(1, 100), row(51, 100), true},
		{"less than half", row(1, 100), row(52, 100), false},
		{"neighbours with some in common", row(1, 5000), row(4990, 5000), false},
	} {
		if sameChart(c.a, c.b) != c.want || sameChart(c.b, c.a) != c.want {
			t.Errorf("%s: want %v, both ways round", c.name, c.want)
		}
	}
}
