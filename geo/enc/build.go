package enc

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// build makes the chart set of one cell.
type build struct {
	*job
	cell   Cell
	size   int // bytes of the files in it
	model  *model
	have   int             // update that the base or the last one applied states
	said   []chart.Message // before the Builder has its own
	first  *file           // the base
	hashed hash.Hash
}

// read reads a base and its updates into a set. A *fault refuses the cell.
func (b *build) read(base *file, updates []*file) error {
	b.hashed = sha256.New()
	err := b.base(base)
	if b.model != nil {
		b.cell.describe(b.model)
	}
	if err != nil {
		return err
	}
	if err := b.apply(updates); err != nil {
		return err
	}
	b.cell.describe(b.model)
	return b.set()
}

// base reads the base file into a new model.
func (b *build) base(f *file) error {
	if len(f.data) > layer.MaxBytes {
		return &fault{"E-SIZE", "", fmt.Sprintf("%d bytes", len(f.data)), fmt.Sprintf("%d or fewer in a cell", layer.MaxBytes)}
	}
	b.model, b.have, b.first = &model{file: f.name, identity: f.identity}, f.update, f
	const leastRecord = 100 // bytes: a leader, a directory of two fields, the fields
	most := len(f.data) / leastRecord
	b.model.features.reserve(min(f.identity.features, most))
	b.model.vectors.reserve(min(f.identity.vectors, most))
	l := &loader{file: f, draft: newDraft(b.model), base: true, between: b.between}
	if err := l.load(); err != nil {
		return err
	}
	return b.hash(f)
}

// hashedAtOnce is how many bytes are hashed without a rest: a few milliseconds.
const hashedAtOnce = 1 << 18

func (b *build) hash(f *file) error {
	for part := range slices.Chunk(f.data, hashedAtOnce) {
		b.hashed.Write(part)
		if err := b.between(); err != nil {
			return err
		}
	}
	return nil
}

// apply applies the updates in strict sequence. One that does not fit is left
// out with all after it, and the cell stays as it was before it. Those of
// another edition or already in the base are left out alone.
func (b *build) apply(updates []*file) error {
	stopped := false
	for _, f := range updates {
		next := b.have + 1
		switch {
		case f.cancels():
			b.cancel(f)
		case f.edition == b.first.edition && f.update <= b.first.update: // it is in the base
		case f.edition != b.first.edition:
			b.leave(f, &fault{"W-UPDATE", "record 1 DSID EDTN", "an update of edition " + f.identity.edition, "edition " + b.model.identity.edition})
		case stopped:
			b.leave(f, &fault{"W-UPDATE", "", "an update after one that was not applied", "all updates in sequence"})
		case f.update < next:
			b.leave(f, &fault{"W-UPDATE", "record 1 DSID UPDN", fmt.Sprintf("update %d, which the cell already has", f.update), fmt.Sprintf("update %d", next)})
		default:
			err := b.update(f, next)
			var fit *fault
			if err != nil && !errors.As(err, &fit) {
				return err
			}
			if stopped = err != nil; stopped {
				b.leave(f, fit)
			}
		}
	}
	return nil
}

// cancels tells an update that cancels the cell, whatever came of the others: one
// of edition 0 (ENC Product Specification, 5.7).
func (f *file) cancels() bool {
	return f.identity.profile == 2 && strings.Trim(f.identity.edition, "0") == ""
}

// cancel marks the cell: it is no chart in force any more. A base that was issued
// after it is.
func (b *build) cancel(f *file) {
	day, ok := digits([]byte(f.identity.issued))
	if issued, known := digits([]byte(b.first.identity.issued)); ok && known && issued > day {
		return
	}
	b.cell.Cancelled = f.name
	why := &fault{"W-CANCEL", "record 1 DSID EDTN", "0: the producer has cancelled the cell", "a cell that is in force: this one adds dangers and gives no depth or coverage beside one that is"}
	b.said = append(b.said, why.message(chart.Warning, f.name))
}

// leave says that an update was not applied, and what the cell is therefore.
func (b *build) leave(f *file, why *fault) {
	now := b.model.identity.edition + "." + b.model.identity.update
	m := why.message(chart.Warning, f.name)
	if m.Code != "W-UPDATE" {
		m.Found = why.code + ", " + m.Found
	}
	m.Code = "W-UPDATE"
	m.Wanted += "; the cell stays as of " + now
	b.said = append(b.said, m)
}

// update applies one file to a draft and takes it over when all of it fitted.
func (b *build) update(f *file, next int) error {
	id := &f.identity
	switch {
	case f.update != next:
		return broken("record 1 DSID UPDN", fmt.Sprintf("update %d", f.update), fmt.Sprintf("update %d first: none may be missing", next))
	case b.size+len(f.data) > layer.MaxBytes:
		return &fault{"E-SIZE", "", fmt.Sprintf("%d bytes", b.size+len(f.data)), fmt.Sprintf("%d or fewer in a cell with its updates", layer.MaxBytes)}
	}
	d := newDraft(b.model)
	l := &loader{file: f, draft: d, between: b.between}
	if err := l.load(); err != nil {
		return err
	}
	d.commit()
	b.size, b.have = b.size+len(f.data), f.update
	b.model.identity.update, b.model.identity.issued, b.model.identity.applied = id.update, id.issued, id.applied
	b.cell.Applied = append(b.cell.Applied, f.name)
	return b.hash(f)
}

// set gives every feature to a Builder and finishes the set.
func (b *build) set() error {
	m := newMapping(b.model, b.size)
	for _, said := range b.said {
		m.builder.Log.Add(said)
	}
	if err := m.all(b.between); err != nil {
		return err
	}
	set := m.builder.Set()
	b.result.Messages = append(b.result.Messages, m.builder.Log.Messages()...)
	if set == nil {
		b.result.Apart = append(b.result.Apart, m.builder.Log.Messages()...)
		return nil
	}
	set.SHA256 = hex.EncodeToString(b.hashed.Sum(nil))
	set.Source = cmp.Or(set.Source, b.cell.Producer)
	set.FromCell = b.cell.Cancelled == ""
	if b.cell.Cancelled != "" {
		set.Title, set.Cancelled, set.Authority = set.Title+" (cancelled)", b.cell.Cancelled, chart.Private
	}
	b.cell.Set = set
	b.cell.cover()
	return nil
}
