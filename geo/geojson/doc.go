// Package geojson reads JSON and the coordinates of RFC 7946 geometries,
// strictly and in one pass. It is the only JSON reader of the project for
// documents that come from outside: chart layers and plan files.
//
// # Model
//
// A [Reader] stands before a value of a document held as bytes. Its methods
// consume that value ([Reader.Number], [Reader.String], [Reader.Skip], ...) or
// walk through it ([Reader.Object], [Reader.Array]), and [Reader.Geometry]
// decodes a geometry straight into flat slices. A callback that leaves its
// value unread is no mistake: the reader skips, and so checks, the value
// itself. [Reader.Value] builds a small tree in document order, and
// [Value.AppendJSON] writes such a tree back, numbers as they were spelled.
//
// # What is refused
//
// Everything RFC 8259 refuses, and where RFC 8259 leaves a choice the strict
// one: trailing commas, NaN and Infinity, leading zeros, control characters in
// texts, invalid UTF-8, half of a surrogate pair, anything after the document,
// a key that occurs twice in one object, and nesting deeper than [MaxDepth]. A
// byte order mark at the start is skipped.
//
// # Errors
//
// A [*SyntaxError] says that the text is not a JSON document; the reader stays
// at it and every later call returns it again. A [*LimitError] says the same of
// a document that is too large. A [*ValueError] says that a value is JSON but
// not what was wanted: the reader stands before that value again, so the caller
// may note the error and go on. All three carry a [Place]: path, byte offset,
// line and column.
//
// # Out of scope
//
// The meaning of any member, ranges of longitude and latitude, ring closure
// and direction, coordinate reference systems, and the members of a
// GeometryCollection, which is recognised and skipped.
package geojson
