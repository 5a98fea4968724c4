package geojson

import "slices"

// Mark is a place in the document to come back to. The zero value is no place.
type Mark struct {
	pos, depth int
	path       []step
}

// Postpone consumes any value, checks it, and returns a mark from which
// [Reader.Revisit] reads it later: for a value whose meaning depends on a member
// that may come after it.
func (r *Reader) Postpone() (Mark, error) {
	m := Mark{r.in.stand(), r.in.depth, slices.Clone(r.in.path)}
	if m.path == nil {
		m.path = []step{}
	}
	return m, r.Skip()
}

// Revisit calls fn with the reader standing before a postponed value, its path
// included, and then goes back to where the reader was, whatever fn returns.
func (r *Reader) Revisit(m Mark, fn func() error) error {
	if r.in.err != nil {
		return r.in.err
	}
	pos, at, depth, path := r.in.pos, r.in.at, r.in.depth, r.in.path
	r.in.pos, r.in.at, r.in.depth, r.in.path = m.pos, m.pos, m.depth, m.path
	err := fn()
	if r.in.err != nil {
		return r.in.err
	}
	r.in.pos, r.in.at, r.in.depth, r.in.path = pos, at, depth, path
	return err
}

// again makes the reader stand before the value last read.
func (s *scanner) again() { s.pos = s.at }
