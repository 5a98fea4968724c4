// Package edit changes a plan by one gesture: a waypoint is dragged, a stay is
// added, the day is shifted.
//
// # Model
//
// Every function takes the plan and changes it in place, or returns an error that
// says what to do and leaves the plan exactly as it was. A part is an index into
// [plan.Plan.Parts], a vertex an index into a route's Points (0 for a stay).
// Pointers to routes and stays taken before an edit no longer belong to the plan
// after it. The errors are sentences without capital and full stop.
//
// # Joints
//
// Where a route ends and a stay or the next route begins within [plan.JoinM],
// there is one place, whatever the file says by a few metres: whoever moves one
// moves all that meet there, to the same position. So an edit never tears a day
// apart, and a day that was torn is mended by moving one end near the other.
//
// # Decisions
//
//   - A sketched route continues from where the day ends; where it begins further
//     off than [plan.JoinM], the leg to its first point is drawn as well. The
//     skipper sees that leg and the checks judge it like any other.
//   - A sketch after a route lengthens it: a route cannot follow a route.
//   - A stay that is moved loses what the echo sounder read: it was read elsewhere.
//   - A waypoint that goes takes the faster of its two speeds with it.
//   - Times that stand alone, as back_by, tide and wind, are never shifted.
//
// # Out of scope
//
// Undo, which keeps whole plan files; what was typed (package entry); and every
// judgement about safety.
package edit
