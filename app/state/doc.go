// Package state holds what the screen shows and does, without drawing it: the open plan
// with its history, the plans and charts that are kept, the newest check, and what is
// being typed, sketched or opened.
//
// Each concern is a small type with one job, in a file of its own; Room joins them, takes
// what the skipper does (Do, Enter, ChartSays, StripSays) and what comes from
// elsewhere. A type holds what it needs of the types below it by name, and calls those
// above it by functions that Room gives it (NewRoom and what it calls). Everything runs on the
// screen's turn, one thing after the other.
//
// The browser is known only through the interfaces in ports.go, so all of it runs natively
// in tests, on the real engine.
package state
