package enc

import (
	"slices"
	"strconv"
	"strings"

	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// file is one cell file whose identification was read.
type file struct {
	container
	name     string // without folders
	path     string
	identity identification
	edition  int // EDTN
	update   int // UPDN
	proved   bool
}

// open reads the descriptive record and the identification of a cell file.
func open(path string, data []byte) (*file, error) {
	f := &file{container: container{data: data}, path: path, name: library.BaseName(path)}
	if len(data) < leaderLength || !looksLikeLeader(data) {
		return f, &fault{"E-LOCKED", "", "a file that is no ISO/IEC 8211 container: an encrypted cell (S-63), or a damaged one", "a plain S-57 cell; encrypted cells are not supported"}
	}
	if err := f.descriptive(); err != nil {
		return f, err
	}
	ok, err := f.next()
	if err != nil {
		return f, err
	}
	if !ok || f.main() != "DSID" {
		return f, broken(at(1), "no DSID", "the identification of the data set as the first record")
	}
	return f, f.identify()
}

// main is the tag of the field that says what the record in hand is.
func (c *container) main() string {
	for _, f := range c.fields {
		if f.tag != "0001" {
			return f.tag
		}
	}
	return ""
}

// allow refuses fields that the record may not have, and second ones of those
// that may come once.
func (c *container) allow(once, often []string) error {
	for i, f := range c.fields {
		twice := slices.ContainsFunc(c.fields[:i], func(g field) bool { return g.tag == f.tag })
		switch {
		case !c.known[f.tag]:
			return broken(c.place(f.tag), "a field that the descriptive record does not describe", "the fields described there")
		case f.tag == "0001", slices.Contains(often, f.tag):
		case !slices.Contains(once, f.tag):
			return broken(c.place(f.tag), "a field that has no place here", strings.Join(slices.Concat(once, often), ", "))
		case twice:
			return broken(c.place(f.tag), "the field twice", "one in a record")
		}
	}
	return nil
}

// field is the first field with the tag.
func (c *container) field(tag string) (field, bool) {
	for _, f := range c.fields {
		if f.tag == tag {
			return f, true
		}
	}
	return field{}, false
}

// identify reads DSID and DSSI and refuses what is no ENC.
func (f *file) identify() error {
	if err := f.allow([]string{"DSID", "DSSI"}, nil); err != nil {
		return err
	}
	dsid, _ := f.field("DSID")
	c := cursorOf(dsid)
	kind, _ := c.b11(), c.b14()
	id := &f.identity
	id.purpose, id.use = c.b11(), c.b11()
	id.name, id.edition, id.update = c.text(), strings.TrimSpace(c.text()), strings.TrimSpace(c.text())
	id.applied, id.issued, id.standard = c.fixed(8), c.fixed(8), c.fixed(4)
	id.product = c.b11()
	_, _ = c.text(), c.text() // PSDN, PRED
	id.profile, id.agency = c.b11(), c.b12()
	comment := c.text()
	id.comment = latin(comment[:min(len(comment), layer.MaxText)])
	if !c.done() || kind != 10 {
		return broken(f.place("DSID"), "subfields of another length", "RCNM 10 and 15 more subfields")
	}
	id.name = latin(id.name)
	if err := f.isENC(); err != nil {
		return err
	}
	return f.structure()
}

func (f *file) isENC() (err error) {
	id := &f.identity
	var ok bool
	f.update, ok = digits([]byte(id.update))
	switch {
	case id.product != 1:
		return &fault{codeProduct, f.place("DSID") + " PRSP", strconv.Itoa(id.product) + ", another product than an electronic navigational chart", "1, an ENC"}
	case id.profile != 1 && id.profile != 2:
		return &fault{codeProduct, f.place("DSID") + " PROF", strconv.Itoa(id.profile) + ", such as a data dictionary", "1, a cell, or 2, an update"}
	case !strings.HasPrefix(id.standard, "03.1") && !strings.HasPrefix(id.standard, "03.0"):
		return &fault{codeProduct, f.place("DSID") + " STED", strconv.Quote(id.standard), "edition 03.1 or 03.0 of S-57"}
	case !ok:
		return broken(f.place("DSID")+" UPDN", strconv.Quote(id.update), "the number of the update, 0 for none")
	}
	if f.edition, ok = digits([]byte(id.edition)); !ok {
		return broken(f.place("DSID")+" EDTN", strconv.Quote(id.edition), "the number of the edition")
	}
	return nil
}

// structure reads DSSI.
func (f *file) structure() error {
	dssi, ok := f.field("DSSI")
	if !ok {
		return broken(f.place("DSSI"), "nothing", "the structure of the data set")
	}
	c, id := cursorOf(dssi), &f.identity
	topology := c.b11()
	id.level, id.nationalLevel = c.b11(), c.b11()
	for i := range 8 { // NOMR, NOCR, NOGR, NOLR, then NOIN, NOCN, NOED, NOFA
		n := int(min(c.b14(), 1<<24))
		if i < 4 {
			id.features += n
		} else {
			id.vectors += n
		}
	}
	switch {
	case !c.done():
		return broken(f.place("DSSI"), "subfields of another length", "11 subfields, 35 bytes")
	case topology != 2 && f.identity.profile == 1:
		return broken(f.place("DSSI")+" DSTR", strconv.Itoa(topology), "2, chain-node topology")
	case id.level > 1 || id.nationalLevel > 2:
		return broken(f.place("DSSI")+" AALL NALL", strconv.Itoa(id.level)+" "+strconv.Itoa(id.nationalLevel), "text of level 0 or 1, national text of level 0, 1 or 2")
	}
	return nil
}

// parameters reads DSPM and refuses what is not geographic or not metric.
func (f *file) parameters() (p parameters, err error) {
	if err := f.allow([]string{"DSPM"}, nil); err != nil {
		return p, err
	}
	dspm, _ := f.field("DSPM")
	c := cursorOf(dspm)
	kind, _ := c.b11(), c.b14()
	p.horizontal, p.vertical, p.sounding = c.b11(), c.b11(), c.b11()
	p.scale = int(min(c.b14(), 1<<31-1))
	p.depthUnit, p.heightUnit, _, p.coordUnit = c.b11(), c.b11(), c.b11(), c.b11()
	p.factor, p.depthFactor = int64(c.b14()), int64(c.b14())
	c.text()
	if !c.done() || kind != 20 {
		return p, broken(f.place("DSPM"), "subfields of another length", "RCNM 20 and 12 more subfields")
	}
	return p, f.geographic(&p)
}

func (f *file) geographic(p *parameters) error {
	place := f.place("DSPM")
	switch {
	case p.coordUnit != 1:
		return &fault{"E-CRS", place + " COUN", strconv.Itoa(p.coordUnit) + ", positions on a projection", "1, longitude and latitude"}
	case p.depthUnit != 1:
		return &fault{"E-UNIT", place + " DUNI", strconv.Itoa(p.depthUnit), "depths in metres, DUNI 1"}
	case p.heightUnit != 1:
		return &fault{"E-UNIT", place + " HUNI", strconv.Itoa(p.heightUnit), "heights in metres, HUNI 1"}
	case p.factor < 1 || p.factor > 1e9 || p.depthFactor < 1 || p.depthFactor > 1e6:
		return broken(place, "COMF "+strconv.FormatInt(p.factor, 10)+" and SOMF "+strconv.FormatInt(p.depthFactor, 10), "factors above 0")
	}
	return nil
}
