package enc

import (
	"bytes"
	"fmt"
)

// loader takes the records of one file into a model.
type loader struct {
	*file
	draft   *draft
	base    bool
	between func() error
	moved   int // bytes that changes of lists have copied

	features, vectors int // records that were taken
}

// mostMoved bounds what the updates of one file may copy: a record changed over
// and over costs its length each time.
const mostMoved = 1 << 30

// The fields of feature and vector records (S-57 Part 3, 7.6 and 7.7), those
// that come once and those of which a record may have several.
var (
	featureOnce  = []string{"FRID", "FOID", "FFPC", "FSPC"}
	featureOften = []string{"ATTF", "NATF", "FFPT", "FSPT"}
	vectorOnce   = []string{"VRID", "VRPC", "SGCC"}
	vectorOften  = []string{"ATTV", "VRPT", "SG2D", "SG3D"}
)

// load reads all records after the identification.
func (l *loader) load() error {
	described := false
	for n := 0; ; n++ {
		if n%256 == 0 {
			if err := l.between(); err != nil {
				return err
			}
		}
		ok, err := l.next()
		if err == nil && ok {
			err = l.take(&described)
		}
		switch {
		case err != nil:
			return err
		case !ok && l.base && !described:
			return broken("DSPM", "nothing", "the parameters of the data set")
		case !ok:
			return l.whole()
		}
	}
}

// whole refuses a file with fewer records than it announces: one that was cut
// between two records, whose dangers would be missing without a word. Of updates it
// is half a guard: real ones announce fewer features than they hold.
func (l *loader) whole() error {
	wanted := [2]int{l.identity.features, l.identity.vectors}
	if got := [2]int{l.features, l.vectors}; got[0] < wanted[0] || got[1] < wanted[1] {
		return broken("record 1 DSSI", fmt.Sprintf("%d features and %d nodes and edges in the file", got[0], got[1]),
			fmt.Sprintf("%d and %d as it announces: a file that is whole", wanted[0], wanted[1]))
	}
	return nil
}

// take takes in the record in hand.
func (l *loader) take(described *bool) (err error) {
	switch tag := l.main(); tag {
	case "FRID":
		l.features++
		return l.takeFeature()
	case "VRID":
		l.vectors++
		return l.takeVector()
	case "DSPM":
		if !l.base || *described {
			return broken(l.place(tag), "parameters of the data set", "one such record, in the base file")
		}
		*described = true
		l.draft.model.params, err = l.parameters()
		return err
	case "DSPR":
		return &fault{"E-CRS", l.place(tag), "a map projection", "longitude and latitude"}
	default:
		return broken(l.place(tag), "a record that has no place in an ENC", "features (FRID) and vectors (VRID)")
	}
}

// joined is the content of all fields with the tag, in their order, without
// terminators.
func (l *loader) joined(tag string) (out []byte) {
	n := 0
	for _, f := range l.fields {
		if f.tag != tag {
			continue
		}
		if n++; n == 1 {
			out = body(f.data)
			continue
		}
		out = append(out[:len(out):len(out)], body(f.data)...)
	}
	return out
}

// items is joined for a field of items of a fixed size.
func (l *loader) items(tag string, size int) ([]byte, error) {
	b := l.joined(tag)
	if len(b)%size != 0 {
		return nil, broken(l.place(tag), fmt.Sprintf("%d bytes", len(b)), fmt.Sprintf("items of %d bytes", size))
	}
	return b, nil
}

// texts is the content of the attribute fields with the tag: each value ends
// with a terminator, also the last. letter is the bytes of a letter, 1 or 2.
func (l *loader) texts(tag string, letter int) (out []byte, err error) {
	end := []byte{unitEnd, 0}[:letter]
	n := 0
	for _, f := range l.fields {
		if f.tag != tag {
			continue
		}
		if len(f.data) < letter || letter == 2 && f.data[len(f.data)-2] != fieldEnd {
			return nil, broken(l.place(tag), "text that ends with one byte", "1E 00, as text of level 2 has")
		}
		b := f.data[:len(f.data)-letter]
		if len(b) > 0 && !bytes.HasSuffix(b, end) {
			b = append(b[:len(b):len(b)], end...)
		}
		if n++; n == 1 {
			out = b
		} else {
			out = append(out[:len(out):len(out)], b...)
		}
	}
	if !wellFormed(out, letter) {
		return nil, broken(l.place(tag), "attributes that do not fit the field", "a code of two bytes and a text for each")
	}
	return out, nil
}

// head is what FRID and VRID have in common.
type head struct {
	version     uint16
	instruction int
}

// takeFeature takes in a feature record.
func (l *loader) takeFeature() error {
	if err := l.allow(featureOnce, featureOften); err != nil {
		return err
	}
	frid, _ := l.field("FRID")
	c := cursorOf(frid)
	kind := c.b11()
	r := featureRecord{id: c.b14(), prim: uint8(c.b11()), group: uint8(c.b11()), class: uint16(c.b12())}
	h := head{uint16(c.b12()), c.b11()}
	r.version = h.version
	if !c.done() || kind != featureName {
		return broken(l.place("FRID"), "subfields of another length", "RCNM 100 and 6 more subfields, 12 bytes")
	}
	if err := l.identifier(&r); err != nil {
		return err
	}
	if err := l.featureFields(&r); err != nil {
		return err
	}
	return l.changeFeature(&r, h)
}

// identifier reads FOID.
func (l *loader) identifier(r *featureRecord) error {
	foid, ok := l.field("FOID")
	if !ok {
		return nil
	}
	c := cursorOf(foid)
	r.agency, r.number, r.part = uint16(c.b12()), c.b14(), uint16(c.b12())
	if !c.done() {
		return broken(l.place("FOID"), "subfields of another length", "AGEN, FIDN, FIDS, 8 bytes")
	}
	return nil
}

func (l *loader) featureFields(r *featureRecord) (err error) {
	if r.attributes, err = l.texts("ATTF", 1); err != nil {
		return err
	}
	letter := 1
	if l.identity.nationalLevel == 2 {
		letter = 2
	}
	if r.national, err = l.texts("NATF", letter); err != nil {
		return err
	}
	if base := l.draft.model.identity; len(r.national) > 0 && !l.base && base.nationalLevel != l.identity.nationalLevel {
		return broken(l.place("NATF"), "text of another level than the cell's", "the NALL of the base")
	}
	if r.related = l.joined("FFPT"); len(r.related) > 0 && r.related[len(r.related)-1] != unitEnd {
		r.related = append(r.related[:len(r.related):len(r.related)], unitEnd)
	}
	if countItems(r.related, relationSize) < 0 {
		return broken(l.place("FFPT"), "pointers that do not fit the field", "LNAM, RIND and a text for each")
	}
	r.spatial, err = l.items("FSPT", spatialSize)
	return err
}

// takeVector takes in a vector record.
func (l *loader) takeVector() error {
	if err := l.allow(vectorOnce, vectorOften); err != nil {
		return err
	}
	vrid, _ := l.field("VRID")
	c := cursorOf(vrid)
	kind, id := c.b11(), c.b14()
	h := head{uint16(c.b12()), c.b11()}
	if !c.done() {
		return broken(l.place("VRID"), "subfields of another length", "4 subfields, 8 bytes")
	}
	if kind != isolatedNode && kind != connectedNode && kind != edgeName {
		return broken(l.place("VRID")+" RCNM", fmt.Sprint(kind), "110, 120 or 130: a node or an edge")
	}
	r := vectorRecord{name: nameOf(uint8(kind), id), version: h.version}
	if err := l.vectorFields(&r); err != nil {
		return err
	}
	return l.changeVector(&r, h)
}

func (l *loader) vectorFields(r *vectorRecord) (err error) {
	attributes, err := l.texts("ATTV", 1)
	if err != nil {
		return err
	}
	if len(attributes) > 0 {
		r.attributes = &attributes
	}
	if r.ends, err = l.items("VRPT", vectorSize); err != nil {
		return err
	}
	_, flat := l.field("SG2D")
	_, deep := l.field("SG3D")
	if flat && deep {
		return broken(l.place("SG3D"), "positions with and without depths", "SG2D or SG3D")
	}
	if r.depths = deep; deep {
		r.places, err = l.items("SG3D", depthSize)
	} else {
		r.places, err = l.items("SG2D", planeSize)
	}
	return err
}
