// Package plan holds what a skipper plans for a day and what the checks answer,
// and the documents of both: the plan file and the report, version 1.
//
// # Model
//
// A [Plan] is the boat, the margins, the weather and the tide, and the parts of
// the day in their order: routes and stays take turns. A [Report] is the verdict
// with the figures of the day and the features that say where each finding holds.
// Every figure carries its unit as a suffix of its name: M metres, Kn knots, Deg
// degrees true clockwise from north, Nm nautical miles, L litres. Wind and swell
// come from their direction, streams run toward it. Depths are below, and heights
// above, the datum named beside them. Positions are orb.Point: longitude,
// latitude, degrees, WGS 84.
//
// # What is not known
//
// A default of the contract is filled in when a plan is read. Where a value
// without a default is missing and matters, its field is a pointer, and nil means
// unknown: never zero, never safe. Defaults that depend on other values
// ([Wind.Gust], [Boat.Windage], [Fuel.ReserveL], [Margins.ScopeFor]) are methods.
//
// # Reading and writing
//
// [Decode] gives a plan that is complete and consistent, or all that is wrong
// with it as [*Errors], each with its place. [DecodeDraft] also takes a plan that
// is still being made. [Encode] writes back what the file held, members this
// package does not know included, with the changes made since; a default that the
// file did not state is not written. Positions have 7 decimals and are rounded to
// them when read; times are instants, held in UTC and written with the offset of
// the plan's zone at that instant. A third number of a position is not kept.
//
// # Decisions beyond the contract
//
//   - A plan without time_zone is refused: the clock times of a day afloat cannot
//     be guessed. "Local" is refused, because it means another zone elsewhere.
//   - day is an optional date (full-date of RFC 3339, as "2026-07-18") in the plan's
//     zone: the day that the plan is for while no route says when she leaves. It dates
//     what is typed without a date before then. With a departure it means nothing, and
//     a screen that adds one takes it out. A reader that does not know it keeps it.
//   - The day begins with a route. It may end with a stay. Every stay says until
//     when, and each time lies after the one before it.
//   - depart on a later route is refused: it would contradict the stay.
//   - A feature without a role, or with one not listed, is refused: a danger with
//     a misspelt role must not vanish.
//   - fuel.reserve is a fraction, as it has no unit suffix.
//   - tide.datum may be missing and then is unknown (0).
//   - An echo sounder's depth needs its time, and the other way round.
//   - Times lie in the years 1975 to 2199: before that some zones had offsets with
//     seconds, which RFC 3339 cannot write.
//
// # Out of scope
//
// Clock times that a change of the clocks skips or repeats, which the screen asks
// about before there is an instant; the contents of private features, which the
// layer decoder reads; whether a tide table makes sense, which the tide package
// says; and every judgement about safety.
package plan
