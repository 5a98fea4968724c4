package enc

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"slices"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// build makes the chart set of one cell.
type build struct {
	*job
	cell   Cell
	size   int // bytes of the files in it
	model  *model
	notes  []chart.Message // before the Builder has its own
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
	b.model, b.first = &model{file: f.name, identity: f.identity}, f
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
	s := library.SequenceOf(b.first.cellFile().State())
	for _, f := range updates {
		c := f.cellFile()
		step := s.Next(c)
		why := b.misfit(f, step, s.Last+1)
		if step == library.Apply {
			err := b.update(f)
			if err != nil && !errors.As(err, &why) {
				return err
			}
		}
		switch {
		case step == library.Cancel:
			b.cancel(f)
		case step == library.Gap, step == library.Apply && why != nil:
			s.Stop()
		case step == library.Apply:
			s.Applied(c)
		}
		if why != nil {
			b.leave(f, why)
		}
	}
	return nil
}

// misfit is why an update cannot be applied where it stands in the sequence, nil where
// it can, or nothing is lost without it.
func (b *build) misfit(f *file, step library.Step, next int) *fault {
	switch step {
	case library.OtherEdition:
		return &fault{"W-UPDATE", "record 1 DSID EDTN", "an update of edition " + f.identity.edition, "edition " + b.model.identity.edition}
	case library.AfterStop:
		return &fault{"W-UPDATE", "", "an update after one that was not applied", "all updates in sequence"}
	case library.Repeated:
		return &fault{"W-UPDATE", "record 1 DSID UPDN", fmt.Sprintf("update %d, which the cell already has", f.update), fmt.Sprintf("update %d", next)}
	case library.Gap:
		return &fault{"E-CELL", "record 1 DSID UPDN", fmt.Sprintf("update %d", f.update), fmt.Sprintf("update %d first: none may be missing", next)}
	}
	return nil
}

// cancel marks the cell: it is no chart in force any more.
func (b *build) cancel(f *file) {
	if !library.CancelledBy(f.identity.issued, b.first.identity.issued) {
		return
	}
	b.cell.Cancelled = f.name
	why := &fault{"W-CANCEL", "record 1 DSID EDTN", "0: the producer has cancelled the cell", "a cell that is in force: this one adds dangers and gives no depth or coverage beside one that is"}
	b.notes = append(b.notes, why.message(chart.Warning, f.name))
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
	b.notes = append(b.notes, m)
}

// update applies one file to a draft and takes it over when all of it fitted.
func (b *build) update(f *file) error {
	id := &f.identity
	if b.size+len(f.data) > layer.MaxBytes {
		return &fault{"E-SIZE", "", fmt.Sprintf("%d bytes", b.size+len(f.data)), fmt.Sprintf("%d or fewer in a cell with its updates", layer.MaxBytes)}
	}
	d := newDraft(b.model)
	l := &loader{file: f, draft: d, between: b.between}
	if err := l.load(); err != nil {
		return err
	}
	d.commit()
	b.size += len(f.data)
	b.model.identity.update, b.model.identity.issued, b.model.identity.applied = id.update, id.issued, id.applied
	b.cell.Applied = append(b.cell.Applied, f.name)
	return b.hash(f)
}

// set gives every feature to a Builder and finishes the set.
func (b *build) set() error {
	m := newMapping(b.model, b.size)
	for _, note := range b.notes {
		m.builder.Log.Add(note)
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
