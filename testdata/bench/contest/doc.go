// Package contest runs benchmarks against other libraries side by side.
//
// # Model
//
// Every contestant, ours included, is a process of its own that reads tasks
// from its standard input, one line of JSON each, and answers each with one line
// that holds its answers and the nanoseconds that it took to find them. Reading,
// decoding and printing are outside of that time; each contestant takes it with
// the clock of its own run time. The program that starts them hands the same
// task to all in turn, a new task each round, compares the answers and prints
// the medians: a machine that slows down for a while slows all of them down.
//
// # Out of scope
//
// Absolute times: only ratios within one run mean something on a machine that
// does other things at the same time.
package contest
