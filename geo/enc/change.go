package enc

import (
	"bytes"
	"fmt"
)

// changeFeature inserts, deletes or modifies a feature record (S-57 Part 3,
// 8.4.2).
func (l *loader) changeFeature(r *featureRecord, h head) error {
	name := recordID(r.id)
	old := l.draft.feature(r.id)
	if err := l.mayChange(name, old != nil, versionOf(old), h); err != nil {
		return err
	}
	switch h.instruction {
	case insertion:
		if _, ok := l.field("FOID"); !ok {
			return broken(l.place("FOID"), "nothing", "the identifier of a new feature")
		}
		return l.put(func() { l.putFeature(r.id, r) }, "FFPC", "FSPC")
	case deletion:
		l.draft.features[r.id] = nil
		return nil
	}
	if old.class != r.class || old.prim != r.prim {
		return broken(l.place("FRID"), name.String()+" with another class or geometry than before", "the same OBJL and PRIM")
	}
	if _, ok := l.field("FOID"); ok && (old.agency != r.agency || old.number != r.number || old.part != r.part) {
		return broken(l.place("FOID"), name.String()+" with another identifier than before", old.key())
	}
	return l.modifyFeature(old, r)
}

// recordID is the RCID of a feature record, for messages.
type recordID uint32

func (id recordID) String() string { return fmt.Sprintf("feature %d", uint32(id)) }

func versionOf(r *featureRecord) uint16 {
	if r == nil {
		return 0
	}
	return r.version
}

func (l *loader) modifyFeature(old, r *featureRecord) (err error) {
	changed := *old
	changed.version, changed.group = r.version, r.group
	letter := 1
	if l.identity.nationalLevel == 2 {
		letter = 2
	}
	changed.attributes = mergeTexts(old.attributes, r.attributes, 1)
	changed.national = mergeTexts(old.national, r.national, letter)
	if changed.related, err = l.splice("FFPC", "FFPT", old.related, r.related, relationSize); err != nil {
		return err
	}
	if changed.spatial, err = l.splice("FSPC", "FSPT", old.spatial, r.spatial, fixedSize(spatialSize)); err != nil {
		return err
	}
	l.draft.features[r.id] = &changed
	return nil
}

// changeVector does the same for a vector record.
func (l *loader) changeVector(r *vectorRecord, h head) error {
	old := l.draft.vector(r.name)
	version := uint16(0)
	if old != nil {
		version = old.version
	}
	if err := l.mayChange(r.name, old != nil, version, h); err != nil {
		return err
	}
	switch h.instruction {
	case insertion:
		return l.put(func() { l.putVector(r) }, "VRPC", "SGCC")
	case deletion:
		l.draft.vectors[r.name] = nil
		return nil
	}
	return l.modifyVector(old, r)
}

func (l *loader) modifyVector(old, r *vectorRecord) (err error) {
	changed := *old
	changed.version = r.version
	if r.attributes != nil {
		merged := mergeTexts(old.quality(), *r.attributes, 1)
		changed.attributes = &merged
	}
	if changed.ends, err = l.splice("VRPC", "VRPT", old.ends, r.ends, fixedSize(vectorSize)); err != nil {
		return err
	}
	tag, size := "SG2D", planeSize
	if old.depths || r.depths {
		tag, size = "SG3D", depthSize
	}
	if len(r.places) > 0 && len(old.places) > 0 && r.depths != old.depths {
		return broken(l.place(tag), "positions with and without depths", "those of the kind that the record has")
	}
	changed.depths = old.depths || r.depths
	if changed.places, err = l.splice("SGCC", tag, old.places, r.places, fixedSize(size)); err != nil {
		return err
	}
	l.draft.vectors[r.name] = &changed
	return nil
}

// mayChange checks the instruction and the version of a record.
func (l *loader) mayChange(name fmt.Stringer, exists bool, version uint16, h head) error {
	switch {
	case h.instruction < insertion || h.instruction > modification:
		return broken(l.place(l.main())+" RUIN", fmt.Sprint(h.instruction), "1 insert, 2 delete or 3 modify")
	case l.base && h.instruction != insertion:
		return broken(l.place(l.main())+" RUIN", fmt.Sprint(h.instruction), "1, insert, in a base file")
	case h.instruction == insertion && exists:
		return broken(l.place(l.main()), name.String()+" a second time", "each record once")
	case h.instruction != insertion && !exists:
		return broken(l.place(l.main()), name.String()+", which the cell does not have", "a record of the cell")
	case h.instruction != insertion && h.version != version+1:
		return broken(l.place(l.main())+" RVER", fmt.Sprintf("version %d of %s after %d", h.version, name, version), fmt.Sprint(version+1))
	}
	return nil
}

// put keeps a new record, which may not have control fields.
func (l *loader) put(keep func(), controls ...string) error {
	for _, tag := range controls {
		if _, ok := l.field(tag); ok {
			return broken(l.place(tag), "an update control in a new record", "none")
		}
	}
	keep()
	return nil
}

// putFeature keeps a feature record: of a base file in the model itself, which
// is new and dropped as a whole where the file fails.
func (l *loader) putFeature(id uint32, r *featureRecord) {
	if l.base {
		l.draft.model.features.put(id, *r)
		return
	}
	kept := *r
	l.draft.features[id] = &kept
}

func (l *loader) putVector(r *vectorRecord) {
	if l.base {
		l.draft.model.vectors.put(r.name, *r)
		return
	}
	kept := *r
	l.draft.vectors[r.name] = &kept
}

// splice changes a list of items as its control field says: insert before an
// index, delete from it or modify from it. The index is from 1, and the count
// is that of the items given or deleted.
func (l *loader) splice(control, tag string, list, given []byte, size itemSize) ([]byte, error) {
	f, controlled := l.field(control)
	if !controlled {
		if len(given) > 0 {
			return nil, broken(l.place(tag), "items without "+control, "the control that says where they go")
		}
		return list, nil
	}
	c := cursorOf(f)
	instruction, index, count := c.b11(), c.b12(), c.b12()
	if !c.done() || instruction < insertion || instruction > modification {
		return nil, broken(l.place(control), fmt.Sprintf("the instruction %d", instruction), "1 insert, 2 delete or 3 modify, an index and a count")
	}
	have, got := countItems(list, size), countItems(given, size)
	last, wanted := index+count-1, count
	if instruction == insertion {
		last = index - 1
	}
	if instruction == deletion {
		wanted = 0
	}
	switch {
	case index < 1 || last > have:
		return nil, broken(l.place(control), fmt.Sprintf("items %d to %d of %d", index, max(last, index), have), "items that the record has")
	case got != wanted:
		return nil, broken(l.place(control), fmt.Sprintf("%d items for a count of %d", got, count), "as many as are counted")
	}
	from := offsetOf(list, index-1, size)
	to := offsetOf(list, last, size)
	if l.moved += len(list) + len(given); l.moved > mostMoved {
		return nil, &fault{"E-SIZE", l.place(control), "changes of long records over and over", "fewer"}
	}
	return bytes.Join([][]byte{list[:from], given, list[to:]}, nil), nil
}

// itemSize is the bytes of the first item of a list, -1 where it does not fit.
type itemSize func(list []byte) int

func fixedSize(n int) itemSize {
	return func(list []byte) int {
		if len(list) < n {
			return -1
		}
		return n
	}
}

// relationSize is the size of an item of FFPT: LNAM, RIND and a text.
func relationSize(list []byte) int {
	const before = 9
	if len(list) < before {
		return -1
	}
	if i := bytes.IndexByte(list[before:], unitEnd); i >= 0 {
		return before + i + 1
	}
	return len(list)
}

// countItems counts the items of a list, -1 where they do not fit it.
func countItems(list []byte, size itemSize) (n int) {
	for len(list) > 0 {
		s := size(list)
		if s < 0 {
			return -1
		}
		list, n = list[s:], n+1
	}
	return n
}

// offsetOf is where item i, from 0, begins.
func offsetOf(list []byte, i int, size itemSize) (at int) {
	for range i {
		at += size(list[at:])
	}
	return at
}
