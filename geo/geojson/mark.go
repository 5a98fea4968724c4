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
	m := Mark{r.stand(), r.depth, slices.Clone(r.path)}
	if m.path == nil {
		m.path = []step{}
	}
	return m, r.Skip()
}

// Revisit calls fn with the reader standing before a postponed value, its path
// included, and then goes back to where the reader was, whatever fn returns.
func (r *Reader) Revisit(m Mark, fn func() error) error {
	if r.err != nil {
		return r.err
	}
	pos, at, depth, path := r.pos, r.at, r.depth, r.path
	r.pos, r.at, r.depth, r.path = m.pos, m.pos, m.depth, m.path
	err := fn()
	if r.err != nil {
		return r.err
	}
	r.pos, r.at, r.depth, r.path = pos, at, depth, path
	return err
}

// again makes the reader stand before the value last read.
func (r *Reader) again() { r.pos = r.at }
