// Package chart holds what charts say: features with typed attributes, in
// layer sets, indexed so that a leg, a place or a ray can be asked what lies
// there.
//
// The model follows IHO S-57 edition 3.1 (classes, attributes, code values);
// S-101 names are mapped to it by whoever decodes. Ground rule: what is
// unknown is never read as safe. A depth that is not stated is Unknown, an
// empty list of codes says nothing, and a feature that was refused leaves a
// Refused mark that turns its place into unknown water.
//
// Depths are metres, positive down from the sounding datum; drying heights are
// negative. Clearances are metres above the height datum. Positions are stored
// as 1e-7 degrees in int32, as S-57 cells usually are (COMF 10 000 000), so
// nothing is lost.
//
// Out of scope: decoding files (package layer), tides, boats and judgement.
package chart
