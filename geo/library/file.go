package library

import (
	"bytes"
	"cmp"
	"strconv"
	"strings"

	"keelroom/geo/chart"
)

// Content is what is in a file. It may lie outside the program until it is read.
type Content interface {
	Bytes() []byte
	Size() int         // in bytes
	Head(n int) []byte // the first so many bytes, or all
}

// Bytes is Content that the program holds.
type Bytes []byte

// Bytes gives the bytes.
func (b Bytes) Bytes() []byte { return b }

// Size is how many there are.
func (b Bytes) Size() int { return len(b) }

// Head gives the first n of them.
func (b Bytes) Head(n int) []byte { return b[:min(n, len(b))] }

func (b Bytes) String() string { return string(b) }

// File is a file as it was opened or is stored.
type File struct {
	Name string
	Data Content
}

// Role is what a file is to its cell.
type Role string

// The roles of a cell's files.
const (
	Base         Role = "base"
	Update       Role = "update"
	Cancellation Role = "cancellation" // an update that cancels the cell
	Text         Role = "text"         // that came with the cell, such as its producer's terms
)

// CellFile is a file of a cell by what it says of itself, whatever it was called.
type CellFile struct {
	Name    string  `json:"name"` // after the cell and its number, such as US5XX11M.001
	Cell    string  `json:"cell"`
	Role    Role    `json:"role"`
	Edition string  `json:"edition"`         // as it is written
	Update  int     `json:"update"`          // 0 for a base without updates in it
	Scale   int     `json:"scale,omitempty"` // denominator of the compilation scale that a base states, 0 unknown
	Data    Content `json:"-"`
}

// RoleOf is the role of a file by its edition, and by whether it is a base. An update
// of edition 0 cancels the cell (ENC Product Specification, 5.7).
func RoleOf(base bool, edition string) Role {
	switch {
	case base:
		return Base
	case strings.Trim(edition, "0") == "":
		return Cancellation
	}
	return Update
}

// State is the state of a cell: its edition, and the last update in it.
type State struct{ Edition, Update int }

// Compare orders two states, the older first. A later edition is later than any update
// of one before it.
func (s State) Compare(o State) int {
	return cmp.Or(cmp.Compare(s.Edition, o.Edition), cmp.Compare(s.Update, o.Update))
}

// State is the state that the file brings a cell to.
func (f CellFile) State() State { return State{Number(f.Edition), f.Update} }

// Same says whether two files are of the same cell, edition and number.
func (f CellFile) Same(o CellFile) bool {
	return f.Name == o.Name && Number(f.Edition) == Number(o.Edition)
}

// Number is the number of an edition or an update as it is written, 0 for none.
func Number(written string) int {
	n, _ := strconv.Atoi(strings.TrimSpace(written))
	return n
}

// Message is a message about a file of a cell that was refused or is missing. Where it
// is about what the cell is known to have come to, Edition and Update say that.
type Message struct {
	chart.Message
	Edition string
	Update  int
}

func (m Message) state() State { return State{Number(m.Edition), m.Update} }

func sameBytes(a, b Content) bool { return a.Size() == b.Size() && bytes.Equal(a.Bytes(), b.Bytes()) }
