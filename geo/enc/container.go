package enc

import (
	"bytes"
	"fmt"
)

// The delimiters of ISO/IEC 8211 (6.3).
const (
	unitEnd  = 0x1F // ends a subfield of variable length
	fieldEnd = 0x1E // ends a field and the directory
)

const (
	leaderLength = 24
	tagLength    = 4
)

// container reads the records of an ISO/IEC 8211 file one after another. Fields
// are parts of the file's bytes, which are not copied.
type container struct {
	data   []byte
	at     int // where the next record begins
	record int // number of the record in hand, 0 the descriptive record
	fields []field
	known  map[string]bool // tags that the descriptive record describes
}

// field is one field of a record, with its terminator.
type field struct {
	tag  string
	data []byte
}

// leader is what the first 24 bytes of a record say (ISO/IEC 8211, 6.2).
type leader struct {
	length, base          int // length 0: over 99 999 bytes, not stated
	id                    byte
	sizeLength, sizePlace int // digits of an entry's length and position
}

// next moves to the next record; false at the end of the file.
func (c *container) next() (bool, error) {
	if c.at == len(c.data) {
		return false, nil
	}
	if c.at > 0 {
		c.record++
	}
	rest := c.data[c.at:]
	l, err := c.leader(rest)
	if err != nil {
		return false, err
	}
	if err := c.directory(l, rest); err != nil {
		return false, err
	}
	length := l.length
	if length == 0 {
		length = c.extent(l)
	}
	if length > len(rest) {
		return false, broken(at(c.record), fmt.Sprintf("a record of %d bytes where the file has %d left", length, len(rest)), "a file that is whole")
	}
	if err := c.cut(l, rest[:length]); err != nil {
		return false, err
	}
	c.at += length
	return true, nil
}

// leader reads and checks a leader. The entry map belongs to the record: it
// varies within one file.
func (c *container) leader(rest []byte) (l leader, err error) {
	bad := func(found string) error {
		return broken(at(c.record), found, "a leader of ISO/IEC 8211, 24 characters")
	}
	if len(rest) < leaderLength {
		return l, bad(fmt.Sprintf("%d bytes at the end of the file", len(rest)))
	}
	var ok1, ok2, ok3, ok4 bool
	l.length, ok1 = digits(rest[:5])
	l.base, ok2 = digits(rest[12:17])
	l.sizeLength, ok3 = digits(rest[20:21])
	l.sizePlace, ok4 = digits(rest[21:22])
	l.id = rest[6]
	switch {
	case !ok1 || !ok2 || !ok3 || !ok4:
		return l, bad("sizes that are not digits")
	case l.sizeLength == 0 || l.sizePlace == 0 || rest[23] != '0'+tagLength:
		return l, bad(fmt.Sprintf("an entry map of %q", rest[20:24]))
	case l.base <= leaderLength || l.length != 0 && l.base > l.length || l.base > len(rest):
		return l, bad(fmt.Sprintf("a field area at %d of %d bytes", l.base, l.length))
	case l.id == 'R':
		return l, broken(at(c.record), "a record without a leader of its own (R)", "records of the kind D, as an ENC has")
	case l.id != 'D' && c.at > 0 || l.id != 'L' && c.at == 0:
		return l, bad(fmt.Sprintf("a record of the kind %q", l.id))
	}
	return l, nil
}

// directory lists the fields, their positions not yet resolved: data holds the
// directory's entry.
func (c *container) directory(l leader, rest []byte) error {
	c.fields = c.fields[:0]
	entry := tagLength + l.sizeLength + l.sizePlace
	list := rest[leaderLength:l.base]
	for len(list) >= entry && list[0] != fieldEnd {
		c.fields = append(c.fields, field{tag: tagOf(list[:tagLength]), data: list[tagLength:entry]})
		list = list[entry:]
	}
	if len(list) != 1 || list[0] != fieldEnd {
		return broken(at(c.record), "a directory that does not end where the fields begin", "entries of tag, length and position, then a field terminator")
	}
	return nil
}

// tagOf avoids a new string for each tag of each record.
func tagOf(b []byte) string {
	if string(b) == "0001" {
		return "0001"
	}
	if l, ok := layouts[string(b)]; ok {
		return l.tag
	}
	return string(b)
}

// extent is the length of a record that is too long to state it: where its last
// field ends.
func (c *container) extent(l leader) int {
	end := 0
	for _, f := range c.fields {
		length, place, ok := entryOf(f.data, l)
		if ok {
			end = max(end, place+length)
		}
	}
	return l.base + end
}

func entryOf(b []byte, l leader) (length, place int, ok bool) {
	length, ok1 := digits(b[:l.sizeLength])
	place, ok2 := digits(b[l.sizeLength:])
	return length, place, ok1 && ok2
}

// cut gives each field its bytes. Fields may not share bytes: together they are
// no longer than the record.
func (c *container) cut(l leader, record []byte) error {
	area := record[l.base:]
	total := 0
	for i := range c.fields {
		f := &c.fields[i]
		length, place, ok := entryOf(f.data, l)
		total += length
		if !ok || length < 1 || place+length > len(area) || total > len(area) {
			return broken(c.place(f.tag), "a length or position outside the record", "fields that follow each other within it")
		}
		f.data = area[place : place+length]
		if !endsField(f.data) {
			return broken(c.place(f.tag), "no field terminator at its end", "1E, or 1E 00 in text of two bytes a letter")
		}
	}
	return nil
}

// endsField reports whether a field has its terminator; in text of level 2 that
// is two bytes (S-57 Part 3, 2.4).
func endsField(b []byte) bool {
	n := len(b)
	return b[n-1] == fieldEnd || n > 1 && b[n-1] == 0 && b[n-2] == fieldEnd
}

// place names a field of the record in hand.
func (c *container) place(tag string) string { return at(c.record) + " " + shownTag(tag) }

// shownTag is a tag that may be any four bytes, in a message.
func shownTag(tag string) string {
	if bytes.ContainsFunc([]byte(tag), func(r rune) bool { return r < ' ' || r > '~' }) {
		return fmt.Sprintf("%q", tag)
	}
	return tag
}

// digits reads an unsigned number of up to nine digits.
func digits(b []byte) (n int, ok bool) {
	if len(b) == 0 || len(b) > 9 {
		return 0, false
	}
	for _, c := range b {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, true
}
