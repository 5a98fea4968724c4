// Package trial tries the anchor watch on simulated nights whose truth is known: how often
// does it give an alarm while the anchor holds, and how far has she gone when it gives one
// while the anchor drags.
//
// The boat lies to her rode as a catenary (textbook formula), in gusts, yawing; the wind shifts, dies, the
// stream turns. Positions have errors that stay alike for a minute (first-order
// Gauss-Markov), single wild fixes, and gaps. The same seed gives the same nights.
//
// Beside the watch the plain rule is tried on the same fixes: an alarm as soon as one fix lies
// outside the circle.
package trial
