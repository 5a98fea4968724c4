package enc

import "bytes"

// cursor reads the subfields of a field one after another, little endian. What
// is read beyond the end is zero, and short says that it was.
type cursor struct {
	data  []byte
	short bool
}

// cursorOf reads a field, whose terminator is left out.
func cursorOf(f field) cursor { return cursor{data: body(f.data)} }

// body is a field without its terminator of one byte.
func body(b []byte) []byte { return b[:len(b)-1] }

func (c *cursor) take(n int) []byte {
	if len(c.data) < n {
		c.short, c.data = true, nil
		return make([]byte, n)
	}
	b := c.data[:n]
	c.data = c.data[n:]
	return b
}

func (c *cursor) b11() int           { return int(c.take(1)[0]) }
func (c *cursor) b12() int           { b := c.take(2); return int(b[0]) | int(b[1])<<8 }
func (c *cursor) b14() uint32        { return uint32(number(c.take(4))) }
func (c *cursor) fixed(n int) string { return string(c.take(n)) }

// text reads to the next unit terminator, or to the end where it is missing.
func (c *cursor) text() string {
	i := bytes.IndexByte(c.data, unitEnd)
	if i < 0 {
		s := string(c.data)
		c.data = nil
		return s
	}
	s := string(c.data[:i])
	c.data = c.data[i+1:]
	return s
}

// done reports whether all was read and nothing was missing.
func (c *cursor) done() bool { return !c.short && len(c.data) == 0 }

// number reads 4 bytes of a signed number, little endian. It is read by the million, and
// small enough to need no call.
func number(b []byte) int32 {
	_ = b[3]
	return int32(b[0]) | int32(b[1])<<8 | int32(b[2])<<16 | int32(b[3])<<24
}
