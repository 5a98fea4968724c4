// Package passage lays a plan out in time: where the boat is at each moment of
// the day, how fast, and what decided the speed.
//
// Model (plan-file contract, section 2). Legs are rhumb lines. She leaves at
// the time given, warms her engine up, then runs at cruising speed or at the
// leg's own, never above a limit in force at that place and date, slowly near
// berths and where the sea is rough. Before a lower limit she slows at a
// constant rate, so that she has the limit at the line; speed comes back at
// the exit at once.
//
// A constant rate makes the square of the speed a linear function of the way
// run. So the whole track is a list of Steps, each with a speed at both ends,
// and the slowest of several rules is the lowest of several straight lines,
// found exactly.
//
// Speeds are in knots. Limits, slow-downs and the times they give are over the
// ground. With a stream in the plan the speeds she chooses (cruising, warm-up,
// rough water, a leg's own) are through the water and the triangle of
// velocities gives the speed over the ground; without one they are the same.
//
// Out of scope: what the speeds mean for depth or sea (package hazards).
package passage
