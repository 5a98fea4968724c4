// Package library holds the rules of a collection of charts: which file belongs to
// which cell, which of two files is the newer, in what order updates are applied, what
// becomes of files that are added to a cell, which two sets are the same chart, and what
// outlives a removal. All of it are values and pure functions: nothing is read, drawn
// or stored here, and nothing is decoded.
//
// # The parts
//
// A [File] is a name with contents, as it is stored. A [CellFile] is a file of a cell
// by what it says of itself: its cell, edition and number. [Arrange] puts the files of
// one cell in order and finds copies. A [Sequence] is asked before each update is
// applied. A [Holding] is what is stored of a cell, and [Join] works out the next one
// when files are added. [ByCell] sorts what was opened together into cells.
//
// # The rules
//
// A cell is a base, CCXXXXXX.000, and updates .001, .002 and so on. An update fits one
// edition and the update before it; a reissued base has updates up to the number that
// it states in it; an update of edition 0 cancels the cell (IHO S-57 Appendix B.1, ENC
// Product Specification, 5.6.3 and 5.7).
//
// What is in use stays: only what is later, or was not applied, takes its place, never
// another copy with other bytes. What cannot be applied yet waits: updates whose base
// is not there, and those of a later edition, are kept in a folder called after their
// edition. What was refused or is missing of a cell is kept with it as a [Message], so
// that every report has it, until the collection shows that it no longer holds.
package library
