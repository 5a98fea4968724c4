package enc

import (
	"bytes"
	"strconv"
	"strings"
)

// layout is a field as S-57 fixes it: labels in their order, and the format of
// each. A leading * begins the part that repeats.
type layout struct{ tag, labels, formats string }

// layouts are the fields of ENC files and of the catalogue of an exchange set.
// Source: IHO S-57 edition 3.1 Part 3, chapter 7 (binary implementation).
var layouts = listLayouts(
	layout{"CATD", "RCNM!RCID!FILE!LFIL!VOLM!IMPL!SLAT!WLON!NLAT!ELON!CRCS!COMT", "A(2),I(10),3A,A(3),4R,2A"},
	layout{"DSID", "RCNM!RCID!EXPP!INTU!DSNM!EDTN!UPDN!UADT!ISDT!STED!PRSP!PSDN!PRED!PROF!AGEN!COMT",
		"b11,b14,2b11,3A,2A(8),R(4),b11,2A,b11,b12,A"},
	layout{"DSSI", "DSTR!AALL!NALL!NOMR!NOCR!NOGR!NOLR!NOIN!NOCN!NOED!NOFA", "3b11,8b14"},
	layout{"DSPM", "RCNM!RCID!HDAT!VDAT!SDAT!CSCL!DUNI!HUNI!PUNI!COUN!COMF!SOMF!COMT", "b11,b14,3b11,b14,4b11,2b14,A"},
	layout{"FRID", "RCNM!RCID!PRIM!GRUP!OBJL!RVER!RUIN", "b11,b14,2b11,2b12,b11"},
	layout{"FOID", "AGEN!FIDN!FIDS", "b12,b14,b12"},
	layout{"ATTF", "ATTL!ATVL", "b12,A"},
	layout{"NATF", "ATTL!ATVL", "b12,A"},
	layout{"FFPC", "FFUI!FFIX!NFPT", "b11,2b12"},
	layout{"FFPT", "LNAM!RIND!COMT", "B(64),b11,A"},
	layout{"FSPC", "FSUI!FSIX!NSPT", "b11,2b12"},
	layout{"FSPT", "NAME!ORNT!USAG!MASK", "B(40),3b11"},
	layout{"VRID", "RCNM!RCID!RVER!RUIN", "b11,b14,b12,b11"},
	layout{"ATTV", "ATTL!ATVL", "b12,A"},
	layout{"VRPC", "VPUI!VPIX!NVPT", "b11,2b12"},
	layout{"VRPT", "NAME!ORNT!USAG!TOPI!MASK", "B(40),4b11"},
	layout{"SGCC", "CCUI!CCIX!CCNC", "b11,2b12"},
	layout{"SG2D", "YCOO!XCOO", "2b24"},
	layout{"SG3D", "YCOO!XCOO!VE3D", "3b24"},
)

func listLayouts(list ...layout) map[string]layout {
	m := make(map[string]layout, len(list))
	for _, l := range list {
		l.formats = spelledOut(l.formats)
		m[l.tag] = l
	}
	return m
}

// descriptive reads the descriptive record and checks every field of it that
// S-57 knows against the fixed layout: a reader that trusted the file's own
// would follow it anywhere.
func (c *container) descriptive() error {
	if ok, err := c.next(); err != nil {
		return err
	} else if !ok {
		return broken(at(0), "an empty file", "a cell")
	}
	c.known = make(map[string]bool, len(c.fields))
	for _, f := range c.fields {
		if f.tag == "0000" { // the tree of fields, which S-57 fixes
			continue
		}
		if c.known[f.tag] {
			return broken(c.place(f.tag), "a second description of the field", "one")
		}
		if err := c.described(f); err != nil {
			return err
		}
		c.known[f.tag] = true
	}
	return nil
}

// described checks one field description: controls, name, labels, formats.
func (c *container) described(f field) error {
	l, ok := layouts[f.tag]
	if !ok {
		return nil // of no use to us, and refused where a record has it
	}
	const controls = 9
	parts := bytes.Split(bytes.TrimSuffix(f.data, []byte{fieldEnd}), []byte{unitEnd})
	if len(parts) != 3 || len(parts[0]) < controls {
		return broken(c.place(f.tag), "a description of "+strconv.Itoa(len(parts))+" parts", "controls and name, labels, formats")
	}
	labels := strings.ReplaceAll(string(parts[1]), "*", "")
	if labels != l.labels {
		if f.tag == "DSID" && strings.Contains(labels, "ENSP") {
			return &fault{codeProduct, c.place(f.tag), "a data set of the S-100 family, such as an S-101 chart", "an S-57 cell; S-101 is not supported"}
		}
		return broken(c.place(f.tag), "the labels "+strconv.Quote(short(labels)), l.labels)
	}
	formats := strings.TrimSuffix(strings.TrimPrefix(string(parts[2]), "("), ")")
	if formats = spelledOut(formats); formats != l.formats {
		return broken(c.place(f.tag), "the formats "+strconv.Quote(short(formats)), l.formats)
	}
	return nil
}

// short cuts a text for a message.
func short(s string) string {
	if len(s) > 80 {
		return s[:80]
	}
	return s
}

// spelledOut repeats the formats that a count says to: 2b24 is b24,b24.
func spelledOut(formats string) string {
	if len(formats) > 200 { // the longest of S-57 has 43 characters
		return ""
	}
	var out []string
	for f := range strings.SplitSeq(formats, ",") {
		count, rest := 1, f
		if len(f) > 1 && f[0] > '0' && f[0] <= '9' {
			count, rest = int(f[0]-'0'), f[1:]
		}
		for range count {
			out = append(out, rest)
		}
	}
	return strings.Join(out, ",")
}
