// Package watch tells from positions whether an anchor holds: the anchor watch.
//
// It is given fixes (a position, its accuracy, its time) and the time of a clock, and
// answers with values: is she holding, dragging, or is the watch blind. It has no clock,
// no receiver and no sound of its own, and all that it knows is in one value, [Watch],
// that can be written as JSON and read again after the program was stopped.
//
// # Place of the anchor
//
// The mean of the fixes of a minute, moved from the device to the bow ([Drop]); it can be
// set by hand instead.
//
// # Dragging
//
// A boat that lies to a sound anchor stays in a circle: the rode stretched flat, her
// length, and how far the place of the anchor may be out ([Laid]). Where she is inside it
// says nothing: in a rising wind the chain straightens and she moves far downwind while
// the anchor does not move at all. So only the distance beyond the circle is evidence. It is
// summed up by a cumulative sum test (Page, E. S. (1954), Continuous inspection schemes,
// Biometrika 41, 100-115): see drag.go. The trial in the folder trial measures false alarms
// and the metres to the alarm on simulated nights (make watch-trial).
//
// # Blind
//
// A watch that hears nothing looks like a boat that lies still. It is called blind, in words
// after 30 seconds and with an alarm after two minutes, and at once when it is known that
// no more fixes will come: see blind.go.
//
// Out of scope: wind, depth and other ships are not watched.
package watch
