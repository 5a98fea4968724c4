// Package enc decodes official electronic chart cells: IHO S-57 edition 3.1 in
// the form of the ENC Product Specification, with their updates, alone, as the
// files of an exchange set or in a zip of one.
//
// # Model
//
// A cell is a base file (NAME.000) and its updates (NAME.001, ...). Each file is
// an ISO/IEC 8211 container: a descriptive record, which must describe the
// fields that S-57 fixes, then data records. [Decoder.Decode] reads the base into
// records of features, nodes and edges, applies the updates one by one in the order
// that package library gives, each to
// a draft that is taken over only when the whole file fitted, then joins the
// edges to lines and rings and gives every feature to a layer.Builder. The
// Builder is the one that GeoJSON layers go through, so the chart features are
// the same whichever way a cell came.
//
// # What differs from the same cell as GeoJSON
//
// Features name the cell's file and their record number where GeoJSON's name a
// file of one class and a running number. Lines and rings begin and turn as the
// cell's pointers say. The vertices of areas and lines that lie on the border of
// the cell (USAG 3, MASK 1) are listed in Geometry.Border, which GeoJSON cannot
// say: areas are filled up to there, and nothing is drawn. A masked piece of a
// line on the limit of the data is left out: it is no coast. Each sounding of a
// record is a feature, as converters are asked to split them. A bad
// pointer is an error of the feature and makes unknown water; a converter
// leaves the feature out in silence. The national text of an object
// (NOBJNM, NINFOM) is read where there is no other.
//
// # What is unknown
//
// An attribute that is present and empty applies, and its value is unknown; an
// absent one says nothing. The records keep the two apart; for a chart feature
// both are unknown, never zero.
//
// # Limits
//
// A file says how much it holds, and is not believed: fields may not share
// bytes, pointers may not lead to more positions than the cell has bytes, and
// what archives unpack to is counted. Records point into the file, so a cell
// takes less than four times its bytes beside them, finished set included.
//
// # Units and frame
//
// Positions are WGS 84 longitude and latitude: XCOO and YCOO divided by COMF,
// kept as 1e-7 degrees. Depths are VE3D divided by SOMF, metres positive down
// from the sounding datum of the cell. Cells whose positions are not geographic
// or whose depths or heights are not in metres are refused.
//
// # Messages
//
// Besides the codes of package layer: E-CELL, the file breaks a rule of ISO/IEC
// 8211 or S-57 (the path names the record); E-PRODUCT, another product than an
// ENC; E-LOCKED, encrypted; E-CRC, other bytes than the catalogue of the
// exchange set states; E-ZIP, an archive that cannot be read; E-COPY and W-COPY, two copies
// of a file differ, and it is not or is known which is damaged; W-CANCEL, the
// producer cancelled the cell: it is read as a private layer is, which may add
// dangers and never takes one away; W-UPDATE, an update that was not applied: the
// cell stays as it was before it; W-CATALOG, the catalogue lists a cell file
// that is not there. A file error refuses one cell, not the others.
//
// # Out of scope
//
// S-63 decryption, S-101, symbols, chain-node
// topology beyond what features point to. The positional quality of edges and
// nodes (QUAPOS, ATTV) stays in the records: GeoJSON layers do not have it, and
// no check goes by it.
package enc
