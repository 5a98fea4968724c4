// Package geo holds positions, distances and courses on the WGS 84 ellipsoid.
//
// A position is an orb.Point: longitude first, then latitude, in degrees. That
// order is used everywhere in the project; the geodesic library takes latitude
// first, and only geodesic.go converts.
//
// Three kinds of line occur. A geodesic is the shortest way and is used for
// distances between places and for rays to the shore. A rhumb line is what a
// steady course is and what a Mercator chart draws straight: every leg is one.
// A Plane is a Mercator projection with its true scale at a place of choice, so
// that over a few miles a leg is a straight segment, directions are true and
// lengths are metres.
//
// Out of scope: datum transformations (layers in other frames are refused) and
// heights above the ellipsoid.
package geo
