package enc

import "fmt"

// The record names of S-57 (Part 3, 2.2.1).
const (
	featureName   = 100
	isolatedNode  = 110
	connectedNode = 120
	edgeName      = 130
)

// The update instructions (S-57 Part 3, RUIN and the control fields).
const (
	insertion    = 1
	deletion     = 2
	modification = 3
)

// The bytes of one item of the fields that repeat.
const (
	spatialSize = 8  // FSPT: NAME, ORNT, USAG, MASK
	vectorSize  = 9  // VRPT: NAME, ORNT, USAG, TOPI, MASK
	planeSize   = 8  // SG2D: YCOO, XCOO
	depthSize   = 12 // SG3D: YCOO, XCOO, VE3D
)

// featureRecord is an object. Its fields stay as the file has them, without
// terminators: they are read where they are needed.
type featureRecord struct {
	id          uint32
	version     uint16
	prim, group uint8
	class       uint16
	agency      uint16
	number      uint32
	part        uint16
	attributes  []byte // ATTF
	national    []byte // NATF
	related     []byte // FFPT
	spatial     []byte // FSPT
}

// key is the LNAM of the object, in the spelling of GeoJSON layers.
func (f *featureRecord) key() string {
	b := make([]byte, 0, 16)
	b = appendHex(b, uint32(f.agency), 4)
	b = appendHex(b, f.number, 8)
	return string(appendHex(b, uint32(f.part), 4))
}

// appendHex writes a number with so many hexadecimal digits.
func appendHex(b []byte, v uint32, digits int) []byte {
	for shift := 4 * (digits - 1); shift >= 0; shift -= 4 {
		b = append(b, "0123456789ABCDEF"[v>>shift&0xF])
	}
	return b
}

// vectorRecord is a node or an edge.
type vectorRecord struct {
	name       vectorName
	attributes *[]byte // ATTV, nil for most
	ends       []byte  // VRPT
	places     []byte  // SG2D or SG3D
	version    uint16
	depths     bool // places is SG3D
}

// quality is the content of ATTV.
func (r *vectorRecord) quality() []byte {
	if r.attributes == nil {
		return nil
	}
	return *r.attributes
}

// vectorName is RCNM and RCID of a vector record.
type vectorName uint64

func nameOf(kind uint8, id uint32) vectorName { return vectorName(kind)<<32 | vectorName(id) }

func (n vectorName) kind() uint8 { return uint8(n >> 32) }

func (n vectorName) String() string {
	kind := map[uint8]string{isolatedNode: "isolated node", connectedNode: "connected node", edgeName: "edge"}[n.kind()]
	if kind == "" {
		kind = fmt.Sprintf("record of RCNM %d,", n.kind())
	}
	return fmt.Sprintf("%s %d", kind, uint32(n))
}

// pointed reads a NAME: RCNM, then RCID little endian.
func pointed(b []byte) vectorName { return nameOf(b[0], uint32(number(b[1:]))) }

// table holds records by their names, in the order they came.
type table[K comparable, R any] struct {
	records []R
	at      map[K]int32
}

func (t *table[K, R]) reserve(n int) {
	t.records, t.at = make([]R, 0, n), make(map[K]int32, n)
}

// get is the record of that name, nil if there is none.
func (t *table[K, R]) get(k K) *R {
	if i, ok := t.at[k]; ok {
		return &t.records[i]
	}
	return nil
}

func (t *table[K, R]) put(k K, r R) {
	if i, ok := t.at[k]; ok {
		t.records[i] = r
		return
	}
	t.at[k] = int32(len(t.records))
	t.records = append(t.records, r)
}

func (t *table[K, R]) remove(k K) { delete(t.at, k) }

// each calls fn with every record that was not removed.
func (t *table[K, R]) each(name func(*R) K, fn func(*R)) {
	for i := range t.records {
		if at, ok := t.at[name(&t.records[i])]; ok && at == int32(i) {
			fn(&t.records[i])
		}
	}
}

// model is a cell: its base with the updates applied so far.
type model struct {
	file     string // name of the base file, without folders
	identity identification
	params   parameters
	features table[uint32, featureRecord]
	vectors  table[vectorName, vectorRecord]
}

// identification is DSID and DSSI.
type identification struct {
	purpose, use          int
	name, edition, update string
	applied, issued       string // UADT, ISDT: YYYYMMDD
	standard              string
	product, profile      int
	agency                int
	comment               string
	level, nationalLevel  int // AALL, NALL: 0 ASCII, 1 Latin-1, 2 UCS-2
	features, vectors     int // records that DSSI announces
}

// parameters is DSPM.
type parameters struct {
	horizontal, vertical, sounding   int // HDAT, VDAT, SDAT
	scale                            int
	depthUnit, heightUnit, coordUnit int   // DUNI, HUNI, COUN
	factor, depthFactor              int64 // COMF, SOMF
}

// draft is a model with changes that are not in it yet: what one file says,
// until all of it fitted. A nil record was deleted.
type draft struct {
	model    *model
	features map[uint32]*featureRecord
	vectors  map[vectorName]*vectorRecord
}

func newDraft(m *model) *draft {
	return &draft{m, map[uint32]*featureRecord{}, map[vectorName]*vectorRecord{}}
}

func (d *draft) feature(id uint32) *featureRecord {
	if r, ok := d.features[id]; ok {
		return r
	}
	return d.model.features.get(id)
}

func (d *draft) vector(n vectorName) *vectorRecord {
	if r, ok := d.vectors[n]; ok {
		return r
	}
	return d.model.vectors.get(n)
}

// commit takes the changes over, in the order that the file had records in.
func (d *draft) commit() {
	for id, r := range d.features {
		if r == nil {
			d.model.features.remove(id)
		} else {
			d.model.features.put(id, *r)
		}
	}
	for name, r := range d.vectors {
		if r == nil {
			d.model.vectors.remove(name)
		} else {
			d.model.vectors.put(name, *r)
		}
	}
}
