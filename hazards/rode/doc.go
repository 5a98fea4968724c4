// Package rode works out what an anchor's rode has to do: the pull of wind and stream
// on a boat at anchor, how much chain and rope keep that pull low at the anchor, how far
// she swings on it, and what the ground lets an anchor hold.
//
// Lengths are metres, forces newtons, speeds knots and angles degrees from the
// horizontal unless a name says otherwise. Heights are from the sea bed at the anchor up
// to the bow roller. Nothing here knows a plan, a chart or a time, and nothing fails: a
// figure that cannot be reached is +Inf, and says so.
//
// Sources: the catenary and the drag of a body are textbook mechanics; the factor of the
// wind's load and the holding of grounds are judgement and common practice, see there.
package rode
