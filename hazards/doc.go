// Package hazards checks a plan against charts, tide and sea: what the day runs
// into, when and where, and how much is in hand.
//
// Check is a pure function of a chart and a plan. It lays the plan out in time
// (package passage), walks along every leg and stay, and writes a report:
// findings with a severity each, and the figures behind them. Which bound of
// which quantity decides is the plan-file contract's section 3; the severities
// are its section 4. Each check has a file of its own.
//
// A check judges a situation (passing on a leg, or lying at a stay) and gives values:
// a code for what is the matter, a severity, and the quantities and names behind it
// (package facts). Findings are compared, grouped and known by those; package words
// makes sentences of them where a report is written or shown, and no check imports it.
// A finding's id stays as long as its cause does.
//
// Ground rules: each quantity takes the bound that is unsafe for it; missing
// data give a no-data finding, never silence and never "clear"; findings come
// in a stable order; every figure can be explained (Finding.Made).
//
// Out of scope: decoding charts and plans, drawing, and judgement that the
// skipper keeps: the report is a planning aid.
package hazards
