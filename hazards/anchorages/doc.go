// Package anchorages finds places to lie at anchor in an area: where the checks of a
// stay, made as they are made for a plan, forbid nothing and know everything.
//
// The search goes from coarse to fine over one lattice of places, so close that any
// disc of 50 m radius holds one. Whether a place is worth a look is seen from the
// outlines of the charted depths; whether she may lie there the checks alone decide
// (hazards.Lying). Around a place that was found, in water that hangs together with
// it, the lattice is not looked at more finely: water without a place close by that
// was found is.
package anchorages
