// Package sun tells when the sun rises and sets, when civil and nautical twilight
// begin and end, and how light it is at a place and a time.
//
// # Model
//
// The sun's apparent place is the low-accuracy solution of Meeus, Astronomical
// Algorithms, 2nd ed. 1998, chapter 25 (0.01° in longitude), with the sidereal
// time of chapter 12; NOAA's published solar calculation equations are the same
// series. The altitude is of the sun's centre as seen from the place at sea
// level, without refraction. It rises and sets at −50′ (34′ of refraction and 16′
// of semidiameter), civil twilight is bounded by −6° and nautical twilight by
// −12°, the convention of the Explanatory Supplement to the Astronomical Almanac.
//
// NOAA's method finds an event from the declination at noon and repeats with the
// declination at the event until it stands still. The time it converges to is the
// one at which the altitude has the wanted value, so this package looks for that
// directly, between the sun's lowest and highest points, where it cannot fail to
// converge. The result is within 60 s below 65° of latitude; nearer the poles the
// sun grazes the horizon and refraction alone makes minutes of difference.
//
// # Out of scope
//
// The height of eye and of the land around, the real refraction of the day, the
// moon, and cloud.
package sun
